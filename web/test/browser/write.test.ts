import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { violations } from "../axe.ts";
import { tooSmall, tooWide } from "../fit.ts";
import type { Size } from "../browser.ts";
import type { HandAt } from "../hand.ts";
import type { Server } from "../server.ts";
import { both, stage } from "../stage.ts";

interface Own {
  id: string;
  document: string;
}
interface Document {
  name: string;
  ask_first: string[];
  dose: { balls: number };
  moves: { cause: string; home: number }[];
  words: Record<"en" | "de", { title: string; steps: string[]; cautions: string[] }>;
}

const seen = [{ column: "divot_start_mm", text: "-60" }, { column: "contact", text: "fat" }];
const whole: [string, string][] = [
  ["What it is for", "The low point comes forward."],
  ["What you say to the pupil, in one short sentence", "Brush the leaf away."],
  ["Step 1", "Lay a leaf a hand ahead of the ball’s place."],
  ["Step 2", "Swing at hip length."],
  ["Step 3", "Brush the leaf, not the grass behind it."],
  ["Check 1", "The brushed grass begins at the leaf."],
  ["Easier", "Without a club first."],
  ["Harder", "Then with a ball."],
  ["Caution 1", "Soft turf only, never a mat."],
  ["Caution 2", "Nobody stands ahead of the leaf."],
];

async function fill(page: Page, title: string): Promise<void> {
  await page.getByLabel("Title", { exact: true }).fill(title);
  for (const [label, text] of whole) await page.getByLabel(label, { exact: true }).fill(text);
  for (const [k, [wrong, help]] of [["Grass behind it", "lean sooner."], ["Nothing brushed", "stand a little taller."]].entries()) {
    await page.getByLabel("What goes wrong").nth(k).fill(wrong!);
    await page.getByLabel("What to do about it").nth(k).fill(help!);
  }
}

const own = async (server: Server): Promise<Document[]> => (await server.ask<{ exercises: Own[] }>("GET", "api/exercises/own")).exercises.map((one) => JSON.parse(one.document) as Document);
const kept = (hand: HandAt): Promise<void> => hand.press(hand.button("Keep"));
/** Is what the coach must do next in view, and does the keyboard stand there? */
const focused = (field: Locator): Promise<boolean> => field.evaluate((one) => one === document.activeElement);

async function unfold(page: Page, summary: string): Promise<void> {
  const fold = page.locator("details", { has: page.locator("summary", { hasText: summary }) });
  if (!(await fold.evaluate((one) => (one as HTMLDetailsElement).open))) await page.locator("summary", { hasText: summary }).click();
}

describe.each(both)("an exercise of the coach’s own on a %s", (size: Size) => {
  const here = stage();

  it("is written, found, given, seen with its cautions, changed and removed", async () => {
    const { lesson } = await here.server.lesson({ name: "Isa Thornley", cautions: "A sore wrist." }, [seen, seen]);
    const { page, hand } = await here.page(`#/lesson/${lesson}/exercises`, size);
    await hand.press(page.getByRole("link", { name: "Write an exercise of your own" }));
    await page.locator(".always li").nth(6).waitFor();
    await page.getByText("Nobody can take them out").waitFor();
    await fill(page, "Brush the leaf");
    await unfold(page, "What it needs, and where");
    await hand.press(hand.button("Add a thing"));
    await page.getByLabel("Thing 1", { exact: true }).fill("one leaf");
    await hand.press(hand.button("Move step 3 up"));
    await page.getByText("Step 3 is now step 2").waitFor();
    await kept(hand);

    await page.getByRole("heading", { name: "Brush the leaf" }).waitFor();
    const [document] = await own(here.server);
    expect(document).toMatchObject({ name: "brush_the_leaf", kit: [{ en: "one leaf", de: "one leaf" }], moves: [{ cause: "weight", home: 0 }] });
    expect(document!.words.en.steps).toEqual(["Lay a leaf a hand ahead of the ball’s place.", "Brush the leaf, not the grass behind it.", "Swing at hip length."]);
    expect(document!.words.de.title).toBe("Brush the leaf");

    await hand.press(page.getByRole("link", { name: "All exercises" }));
    await page.getByLabel(/^Search by a word/).fill("leaf");
    await page.locator(".families li", { hasText: "your own" }).getByRole("link", { name: "Brush the leaf" }).waitFor();
    await hand.press(page.locator(".families").getByRole("link", { name: "Brush the leaf" }));
    await page.locator(".give:enabled").waitFor();
    await page.getByText("Ask first.", { exact: true }).waitFor();
    await page.getByLabel(/^I asked/).check();
    await hand.press(hand.button("Give this exercise"));
    await page.locator(".practice .title", { hasText: "Brush the leaf" }).waitFor();
    await page.locator(".practice .concerns", { hasText: "The body notes speak of the wrist." }).waitFor();
    await page.locator(".practice .cautions", { hasText: "Soft turf only, never a mat." }).waitFor();
    await page.locator(".practice .cautions summary").click();
    await page.locator(".practice .cautions li", { hasText: "Thunder: stop" }).waitFor();

    await hand.press(page.locator(".practice .title"));
    await hand.press(page.getByRole("link", { name: "Change it" }));
    await page.getByLabel("Title", { exact: true }).fill("Brush two leaves");
    await page.getByLabel("Caution 2", { exact: true }).fill("Nobody stands ahead of the leaves.");
    await kept(hand);
    await page.getByRole("heading", { name: "Brush two leaves" }).waitFor();
    const [changed, ...others] = await own(here.server);
    expect(others).toEqual([]);
    // What was given goes on by the same name.
    expect([changed!.name, changed!.words.de.cautions[1]]).toEqual(["brush_the_leaf", "Nobody stands ahead of the leaves."]);

    await page.locator(".removal summary").click();
    await hand.press(hand.button("Remove the exercise"));
    await hand.press(hand.button("Go on"));
    await page.getByText("This pupil is doing it").waitFor();
    expect(await own(here.server)).toHaveLength(1);
    await hand.press(hand.button("Remove for good"));
    await page.getByText("Removed: Brush two leaves").waitFor();
    expect(await own(here.server)).toEqual([]);
    await page.locator(".families a").first().waitFor();
    expect(await page.getByRole("link", { name: "Brush two leaves" }).count()).toBe(0);
    await page.goto(`${here.server.url}#/lesson/${lesson}`);
    await page.locator(".practice", { hasText: "no longer in the book" }).waitFor();
    await page.locator(".practice .cautions li", { hasText: "Thunder: stop" }).waitFor();
  }, 120_000);

  it("says what is missing beside each field, and leads to the first", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}/write`, size);
    await kept(hand);
    const title = page.getByLabel("Title", { exact: true });
    await page.getByText("Not kept yet: 9 fields to look at.").waitFor();
    expect(await focused(title)).toBe(true);
    expect(await title.getAttribute("aria-invalid")).toBe("true");
    const told = await title.getAttribute("aria-describedby");
    expect(await page.locator(`#${told}`).innerText()).toBe("Give it a title.");
    await title.fill("Brush the leaf");
    expect(await title.getAttribute("aria-invalid")).toBeNull();
    await hand.press(page.getByRole("button", { name: "Caution 1", exact: true }));
    expect(await focused(page.getByLabel("Caution 1", { exact: true }))).toBe(true);
    expect(await own(here.server)).toEqual([]);
  });

  it("shows a fault of the server beside the words it names, and loses none", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}/write`, size);
    await fill(page, "Brush the leaf");
    const step = page.getByLabel("Step 2", { exact: true });
    await step.fill("Turn to the left.");
    await unfold(page, "How much");
    await page.getByLabel("Minutes a session").fill("3");
    await page.getByLabel("Rest between sets, seconds").fill("200");
    await kept(hand);
    // The server judges figures first, one fault at a time.
    const minutes = page.getByLabel("Minutes a session");
    await page.locator("#w-dose-minutes-wrong", { hasText: "room for the swings and rests" }).waitFor();
    expect(await focused(minutes)).toBe(true);
    await minutes.fill("10");
    await page.locator("summary", { hasText: "How much" }).click();
    await kept(hand);
    await page.locator("#w-steps-1-wrong", { hasText: "words that serve both hands" }).waitFor();
    expect(await focused(step)).toBe(true);
    expect(await step.inputValue()).toBe("Turn to the left.");
    await step.fill("Turn toward the target.");
    await kept(hand);
    await page.getByRole("heading", { name: "Brush the leaf" }).waitFor();
    for (const { id } of (await here.server.ask<{ exercises: Own[] }>("GET", "api/exercises/own")).exercises) await here.server.ask("DELETE", `api/exercises/own/${id}`);
  });

  it("keeps what was typed on this device, over a server that is away and a page that was closed", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}/write`, size);
    await fill(page, "Two leaves");
    await here.server.kill();
    await kept(hand);
    await page.getByText("press Keep again when it is back").waitFor();
    expect(await page.getByLabel("Title", { exact: true }).inputValue()).toBe("Two leaves");
    await here.server.run();
    await page.reload();
    await page.getByText("This is what you left unfinished on this device.").waitFor();
    expect(await page.getByLabel("Caution 2", { exact: true }).inputValue()).toBe("Nobody stands ahead of the leaf.");
    await kept(hand);
    await page.getByRole("heading", { name: "Two leaves" }).waitFor();
    expect((await own(here.server)).map((one) => one.name)).toEqual(["two_leaves"]);
    await page.goto(`${here.server.url}#/lesson/${lesson}/write`);
    await page.locator(".always li").first().waitFor();
    expect(await page.getByLabel("Title", { exact: true }).inputValue()).toBe("");
    for (const { id } of (await here.server.ask<{ exercises: Own[] }>("GET", "api/exercises/own")).exercises) await here.server.ask("DELETE", `api/exercises/own/${id}`);
  });

  it("starts from any exercise there is, under a title and an id of its own, with its care", async () => {
    const { lesson } = await here.server.lesson();
    const { exercises } = await here.server.ask<{ exercises: { name: string; title: string }[] }>("GET", "api/exercises");
    const { page, hand } = await here.page(`#/lesson/${lesson}/exercises/hop_and_land`, size);
    await hand.press(page.getByRole("link", { name: "Start from this one" }));
    await page.locator(".always li").first().waitFor();
    const title = page.getByLabel("Title", { exact: true });
    expect(await title.inputValue()).toBe(exercises.find((one) => one.name === "hop_and_land")!.title);
    await kept(hand);
    await page.locator("#w-title-wrong", { hasText: "give yours another title" }).waitFor();
    await title.fill("A smaller hop");
    await hand.press(hand.button("Leave the German out"));
    await unfold(page, "When not to give it");
    // A hop is never for a sore knee, whatever the coach would choose.
    expect(await page.getByLabel("Knee", { exact: true }).last().locator("option:not([disabled])").allInnerTexts()).toEqual(["Not with this"]);
    await kept(hand);
    await page.getByRole("heading", { name: "A smaller hop" }).waitFor();
    const [document] = await own(here.server);
    expect(document).toMatchObject({ name: "a_smaller_hop", jump: true, not_with: expect.arrayContaining(["knee", "balance"]) });
    for (const { id } of (await here.server.ask<{ exercises: Own[] }>("GET", "api/exercises/own")).exercises) await here.server.ask("DELETE", `api/exercises/own/${id}`);
  });

  it("can be started from every exercise of the catalogue: the server takes each copy", async () => {
    const { lesson } = await here.server.lesson();
    const { exercises } = await here.server.ask<{ exercises: { name: string }[] }>("GET", "api/exercises");
    for (const { name } of exercises.filter((_, k) => (size === "phone") === (k % 2 === 0))) {
      const { page, hand } = await here.page(`#/lesson/${lesson}/write/${name}`, size);
      await page.getByLabel("Title", { exact: true }).fill("My own way");
      await hand.press(hand.button("Leave the German out"));
      await kept(hand);
      await page.getByRole("heading", { name: "My own way" }).waitFor();
      const [{ id }] = (await here.server.ask<{ exercises: Own[] }>("GET", "api/exercises/own")).exercises as [Own];
      await here.server.ask("DELETE", `api/exercises/own/${id}`);
      await page.context().close();
    }
  }, 180_000);

  it.each(["light", "dark"] as const)("is written on a form that axe has nothing against, in the %s, and that fits", async (theme) => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}/write/hop_and_land`, size, theme);
    await page.locator(".always li").first().waitFor();
    for (const fold of ["What it needs, and where", "How much", "When not to give it", "What it moves, in figures"]) await unfold(page, fold);
    expect(await violations(page)).toEqual([]);
    const hidden = await page.locator("textarea").evaluateAll((all) => all.filter((one) => one.scrollHeight > one.clientHeight + 1).map((one) => one.id));
    expect(hidden).toEqual([]);
    await page.getByLabel("Step 1", { exact: true }).fill("");
    await page.getByLabel("Swings a session").fill("many");
    await kept(hand);
    await page.locator(".wrong").nth(1).waitFor();
    expect(await violations(page)).toEqual([]);
    expect(await tooSmall(page)).toEqual([]);
    for (const width of [360, 390, 640, 1000, 1440, 1920]) {
      await page.setViewportSize({ width, height: 800 });
      expect({ width, wide: await tooWide(page) }).toEqual({ width, wide: 0 });
    }
  });
});

describe("the form", () => {
  const here = stage();

  it("takes and shows lengths in inches for whoever has chosen yards", async () => {
    const { lesson } = await here.server.lesson();
    await here.server.ask("PUT", "api/settings", { units: "yards" });
    const { page, hand } = await here.page(`#/lesson/${lesson}/write`, "laptop");
    await fill(page, "Brush the leaf");
    await unfold(page, "What it moves, in figures");
    await page.getByLabel(/^Takes it to, in from usual/).fill("1");
    await kept(hand);
    await page.getByRole("heading", { name: "Brush the leaf" }).waitFor();
    expect((await own(here.server))[0]!.moves[0]!.home).toBeCloseTo(25.4, 6);
    await hand.press(page.getByRole("link", { name: "Change it" }));
    await unfold(page, "What it moves, in figures");
    expect(await page.getByLabel(/^Takes it to, in from usual/).inputValue()).toBe("1");
  });

  it("can be filled by the keyboard alone: lines are added, moved and taken out, and the focus stays with them", async () => {
    const { lesson } = await here.server.lesson();
    const { page } = await here.page(`#/lesson/${lesson}/write`, "laptop");
    await page.getByLabel("Step 3", { exact: true }).fill("Three.");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await page.getByLabel("Step 4", { exact: true }).waitFor();
    expect(await focused(page.getByLabel("Step 4", { exact: true }))).toBe(true);
    await page.keyboard.type("Four.");
    await page.getByRole("button", { name: "Move step 4 up" }).focus();
    await page.keyboard.press("Enter");
    expect(await page.getByLabel("Step 3", { exact: true }).inputValue()).toBe("Four.");
    expect(await focused(page.getByRole("button", { name: "Move step 3 up" }))).toBe(true);
    await page.getByRole("button", { name: "Take out step 3" }).focus();
    await page.keyboard.press("Enter");
    expect(await page.getByLabel("Step 3", { exact: true }).inputValue()).toBe("Three.");
    expect(await focused(page.getByLabel("Step 3", { exact: true }))).toBe(true);
    expect(await page.getByRole("button", { name: "Take out step 3" }).isDisabled()).toBe(true);
  });
});
