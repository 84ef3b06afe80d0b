// npm run screenshots -- FOLDER: every screen at both sizes as PNG, from the program's own invented pupils.

import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { launch, open, type Size } from "./browser.ts";
import { Server, type KeptSwing } from "./server.ts";

const folder = process.argv[2];
if (!folder) throw new Error("Say the folder for the pictures: npm run screenshots -- FOLDER");
mkdirSync(folder, { recursive: true });

interface Line {
  pupil: { id: string; hand: string };
  lessons: number;
  swings: number;
}

type Swing = KeptSwing & { surface: string };

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

/** An exercise that has been done in the newest lesson: balls of it, and balls after it that are a little better. */
async function practised(line: Line): Promise<{ lesson: string; given: string }> {
  const of = await lessonOf(line);
  const { swings } = await server.ask<{ swings: Swing[] }>("GET", `api/lessons/${of}`);
  const ranking = await server.ask<{ ranked: { name: string; by: string; by_says: string }[] }>("GET", `api/lessons/${of}/exercises?units=metric&language=en`);
  const first = ranking.ranked[0]!;
  const given = `given-${line.pupil.id}`.slice(0, 40);
  await server.ask("PUT", `api/given/${given}`, { id: given, pupil: line.pupil.id, lesson: of, exercise: first.name, cause: first.by, why: `It works on the ${first.by_says}.` });
  const plain = swings.filter((one) => one.condition === "normal" && one.ball);
  const put = (k: number, swing: Swing): Promise<unknown> => server.ask("PUT", `api/swings/${given}-${k}`, { ...swing, id: `${given}-${k}`, number: 0, given });
  for (let k = 0; k < 7; ++k) await put(k, { ...plain[0]!, seen: [], purpose: "exercise" });
  for (const [k, swing] of plain.slice(0, 8).entries()) await put(10 + k, { ...swing, seen: swing.seen.map(further), purpose: "after" });
  return { lesson: of, given };
}

/** Divots two centimetres further ahead. */
const further = (entered: { column: string; text: string }): { column: string; text: string } =>
  /^divot_(start|end)_mm$/.test(entered.column) ? { ...entered, text: String(Number(entered.text) + 20) } : entered;

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

const { lesson: closed, given } = await practised(most);
const { lesson: lefts } = await practised(left ?? most);
for (const size of ["phone", "laptop"] as const) {
  for (const theme of ["light", "dark"] as const) {
    await take("practice", `#/lesson/${closed}`, size, theme, ".proof svg");
    await take("exercises", `#/lesson/${closed}/exercises`, size, theme, ".ranked svg", true);
    await take("given", `#/given/${given}`, size, theme, ".days li", true);
  }
  await take("exercise", `#/lesson/${closed}/exercises/towel_behind_ball`, size, "light", ".give:enabled, .warning strong", true);
  await take("exercise-left-hander", `#/lesson/${lefts}/exercises/towel_behind_ball`, size, "light", ".exercise img.flipped", true);
  await take("sheet", `#/lesson/${closed}/sheet`, size, "light", ".page img.drawn", true);
}
await browser.close();
await server.end();
