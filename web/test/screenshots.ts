// npm run screenshots -- FOLDER: every screen at both sizes as PNG, from the program's own invented pupils.

import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { launch, open, type Size } from "./browser.ts";
import { Server } from "./server.ts";

const folder = process.argv[2];
if (!folder) throw new Error("Say the folder for the pictures: npm run screenshots -- FOLDER");
mkdirSync(folder, { recursive: true });

interface Line {
  pupil: { id: string; hand: string };
  lessons: number;
  swings: number;
}

const server = await Server.start();
const browser = await launch();

async function take(name: string, hash: string, size: Size, theme: "light" | "dark", ready: string, whole = false): Promise<void> {
  const { context, page } = await open(browser, server.url + hash, size, theme);
  await page.locator(ready).first().waitFor();
  // Pictures that come after the heading: the timeline, the scatter.
  await page.waitForTimeout(600);
  await page.screenshot({ path: join(folder!, `${name}-${size}${theme === "dark" ? "-dark" : ""}.png`), fullPage: whole });
  await context.close();
}

for (const size of ["phone", "laptop"] as const) await take("first-start", "", size, "light", "text=The book is empty");
await server.ask("POST", "api/demo", {});
const { pupils } = await server.ask<{ pupils: Line[] }>("GET", "api/pupils?search=&most=20&skip=0");
const most = pupils.reduce((a, b) => (b.swings > a.swings ? b : a));
const left = pupils.find((line) => line.pupil.hand === "left");
const lessonOf = async (line: Line): Promise<string> => {
  const file = await server.ask<{ lessons: { lesson: { id: string }; swings: number }[] }>("GET", `api/pupils/${line.pupil.id}`);
  return file.lessons.at(-1)!.lesson.id;
};
const lesson = await lessonOf(most);

interface Given {
  id: string;
  lesson: string;
  exercise: string;
  ended_at: string;
}

/** The exercise of which most balls after it were read, running again, as it was in its own lesson. */
async function practised(line: Line): Promise<Given> {
  const { given } = await server.ask<{ given: Given[] }>("GET", `api/pupils/${line.pupil.id}/given`);
  const after = await Promise.all(given.map(async (one) => (await server.ask<{ session: { after_balls: number } }>("GET", `api/given/${one.id}/proof`)).session.after_balls));
  const chosen = given[after.indexOf(Math.max(...after))]!;
  for (const one of given) await server.ask("PUT", `api/given/${one.id}`, { ...one, ended_at: one === chosen ? "" : one.ended_at || "2026-12-31T00:00:00Z" });
  return chosen;
}

// Lessons that were never read come into the picture of the months when they have been.
for (const { pupil } of pupils) {
  const { lessons } = await server.ask<{ lessons: { lesson: { id: string } }[] }>("GET", `api/pupils/${pupil.id}`);
  for (const one of lessons) await server.ask("GET", `api/lessons/${one.lesson.id}/reading?units=metric`);
}

for (const size of ["phone", "laptop"] as const) {
  for (const theme of ["light", "dark"] as const) {
    await take("lesson", `#/lesson/${lesson}`, size, theme, ".reading svg");
    await take("flail", `#/flail/${lesson}`, size, theme, "text=The wrists drive", true);
  }
  await take("lesson-whole", `#/lesson/${lesson}`, size, "light", ".reading svg", true);
  if (left) await take("left-hander", `#/lesson/${await lessonOf(left)}`, size, "light", ".reading svg", true);
  await take("pupils", "#/", size, "light", ".pupil");
  await take("pupil", `#/pupil/${most.pupil.id}`, size, "light", ".lesson", true);
  await take("pupil-form", `#/pupil/${most.pupil.id}/edit`, size, "light", "form", true);
  await take("settings", "#/settings", size, "light", "h1", true);
  await take("import", `#/lesson/${lesson}/import`, size, "light", "#import-file");
}

const given = await practised(most);
const lefts = await lessonOf(left ?? most);
for (const size of ["phone", "laptop"] as const) {
  for (const theme of ["light", "dark"] as const) await take("practice", `#/lesson/${given.lesson}`, size, theme, ".proof svg");
  await take("exercises", `#/lesson/${given.lesson}/exercises`, size, "light", ".ranked svg", true);
  await take("exercise", `#/lesson/${given.lesson}/exercises/towel_behind_ball`, size, "light", ".give:enabled", true);
  for (const theme of ["light", "dark"] as const) await take("write", `#/lesson/${given.lesson}/write/towel_behind_ball`, size, theme, ".always li", true);
  await take("exercise-left-hander", `#/lesson/${lefts}/exercises/towel_behind_ball`, size, "light", ".give:enabled", true);
  await take("given", `#/given/${given.id}`, size, "light", ".days li", true);
  await take("sheet", `#/lesson/${given.lesson}/sheet`, size, "light", ".page img.drawn", true);
}
await browser.close();
await server.end();
