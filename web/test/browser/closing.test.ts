import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Screen } from "../browser.ts";
import type { HandAt } from "../hand.ts";
import { both, stage } from "../stage.ts";

type Here = Screen & { hand: HandAt };

/** One ball on the pad: where its divot began, and a little of everything else, so that any quantity can be read. */
async function ball({ hand }: Here, start: number, k: number): Promise<void> {
  await hand.touch("turf", [start, 0], [start + 110, 6 - (k % 4) * 4]);
  await hand.touch("face", [-4 + (k % 3) * 3, -16 - (k % 4)]);
  await hand.touch("flight", [-6 + (k % 5) * 3, -110], [4 + (k % 3) * 8, -200]);
  await hand.press(hand.button(start < -20 ? /^Fat$/ : /^Clean$/));
  await hand.press(hand.button(/^Keep (ball|swing)$/));
}

const behind = [-70, -48, -62, -41, -75, -55, -66, -50];
const ahead = [-8, 9, -2, 15, -12, 4, 11, 0];

/** The swing is made as the page sets it: a chalk line has no face, flight and contact to enter. */
async function chooseFirst(page: Page, hand: HandAt): Promise<string> {
  await hand.press(page.getByRole("link", { name: "Choose an exercise" }));
  const first = page.locator(".ranked .title").first();
  await first.waitFor();
  await hand.press(first);
  await page.locator(".exercise .warning li").first().waitFor();
  const title = await page.locator("main h1").innerText();
  if (await page.getByLabel(/^I asked/).count()) await page.getByLabel(/^I asked/).check();
  await hand.press(hand.button("Give this exercise"));
  await page.locator(".practice").waitFor();
  return title;
}

describe("a lesson that closes", () => {
  const here = stage();

  it("goes from balls to cause, exercise, proof and sheet, and a week later to whether it held", async () => {
    const { pupil } = await here.server.lesson({ name: "Isa Thornley" });
    const screen = await here.page(`#/pupil/${pupil}`, "phone");
    const { page, hand } = screen;
    await page.clock.setFixedTime(new Date("2026-11-18T10:00:00Z"));
    await hand.press(hand.button("Begin a lesson"));
    await hand.reading(0);
    const lesson = /lesson\/([a-z0-9-]+)/.exec(page.url())![1]!;

    for (const [k, start] of behind.entries()) {
      await ball(screen, start, k);
      await hand.reading(k + 1);
    }
    // The next look, where the lead leg is one of them; the coach may set it without being asked, too.
    const look = page.locator(".looks li", { hasText: "lead leg" });
    if (await look.count()) await hand.press(look.getByRole("button"));
    else {
      await page.locator(".setting summary").click();
      await page.getByLabel("How it is swung").selectOption("lead_leg");
      await page.locator(".setting summary").click();
    }
    for (let k = 0; k < 3; ++k) {
      await ball(screen, 40 + 10 * k, k);
      await hand.reading(9 + k);
    }
    expect((await here.server.swings(lesson)).filter((one) => one.condition === "lead_leg")).toHaveLength(3);
    await page.locator(".words.why").first().waitFor();

    const title = await chooseFirst(page, hand);
    await page.locator(".practice .title", { hasText: title }).waitFor();
    expect(await page.locator(".cautions .short").isVisible()).toBe(true);
    for (let k = 1; k <= 8; ++k) {
      await hand.press(page.locator(".practice .one"));
      await page.locator(".practice .done", { hasText: new RegExp(`\\b${k} of \\d+$`) }).waitFor();
    }
    await hand.press(page.locator(".practice").getByRole("button", { name: "After", exact: true }));
    for (const [k, start] of ahead.entries()) {
      await ball(screen, start, k);
      await page.locator(`.proof[data-before="8"][data-after="${k + 1}"]`).waitFor();
    }
    // Balls of the exercise and after it are not in the reading.
    await hand.reading(11);
    const swings = await here.server.swings(lesson);
    expect(swings.map((one) => one.purpose)).toEqual([...Array(11).fill(""), ...Array(8).fill("exercise"), ...Array(8).fill("after")]);
    expect(new Set(swings.slice(19).map((one) => `${one.condition} ${one.ball}`))).toEqual(new Set(["normal true"]));
    const verdict = await page.locator(".proof .verdict").innerText();
    expect(verdict.length).toBeGreaterThan(20);
    expect(await page.locator(".proof svg path.after").count()).toBe(8);

    await hand.press(page.getByRole("link", { name: "Sheet for home" }));
    const picture = page.locator(".page img");
    await page.waitForFunction(() => (document.querySelector<HTMLImageElement>(".page img")?.naturalWidth ?? 0) > 300);
    expect(await picture.getAttribute("alt")).toContain(title);
    const pdf = await page.getByRole("link", { name: /^Open to print/ }).getAttribute("href");
    const reply = await fetch(new URL(pdf!, here.server.url));
    expect(reply.headers.get("content-type")).toContain("application/pdf");
    expect((await reply.text()).startsWith("%PDF")).toBe(true);

    const later = await here.page(`#/pupil/${pupil}`, "phone");
    await later.page.clock.setFixedTime(new Date("2026-11-25T10:00:00Z"));
    await later.hand.press(later.hand.button("Begin a lesson"));
    await later.page.locator('.practice [aria-pressed="true"]', { hasText: "Days later" }).waitFor();
    for (const [k, start] of ahead.entries()) {
      await ball(later, start + 3, k);
      await later.hand.reading(k + 1);
    }
    await later.page.locator(".proof dd", { hasText: /8 balls, 7 days after/ }).waitFor();
    await later.hand.press(later.page.getByRole("link", { name: "Proof and plan" }));
    await later.page.locator(".proof svg path.retention").nth(7).waitFor();
    await later.page.locator(".days li").first().waitFor();
    const calendar = await later.page.getByRole("link", { name: "For a calendar" }).getAttribute("href");
    expect(await (await fetch(new URL(calendar!, here.server.url))).text()).toContain("BEGIN:VCALENDAR");

    await later.page.goto(`${here.server.url}#/pupil/${pupil}`);
    await later.page.locator("path.span").waitFor();
    await later.page.getByText("As a table").click();
    expect(await later.page.locator("table tbody tr").count()).toBe(2);
  }, 360_000);
});

describe.each(both)("an exercise on a %s", (size) => {
  const here = stage();
  const seen = [{ column: "divot_start_mm", text: "-60" }, { column: "divot_end_mm", text: "50" }, { column: "contact", text: "fat" }];

  it("is given with its reason and another dose, and taken back without a trace", async () => {
    const { pupil, lesson } = await here.server.lesson({}, [seen, seen, seen]);
    const { page, hand } = await here.page(`#/lesson/${lesson}/exercises/feet_together`, size);
    await page.getByLabel(/^Why, in one sentence/).fill("Your balance comes first.");
    await page.getByText("Another dose").click();
    await page.getByLabel("Balls a session").fill("12");
    await hand.press(hand.button("Give this exercise"));
    await page.locator(".practice .done", { hasText: "0 of 12" }).waitFor();
    const { given } = await here.server.ask<{ given: { id: string; why: string; dose: string; lesson: string; exercise: string }[] }>("GET", `api/pupils/${pupil}/given`);
    expect(given.map((one) => [one.exercise, one.lesson, one.why, (JSON.parse(one.dose) as { balls: number }).balls])).toEqual([["feet_together", lesson, "Your balance comes first.", 12]]);
    const setting = async (): Promise<string> => (await here.server.ask<{ lesson: { condition: string } }>("GET", `api/lessons/${lesson}`)).lesson.condition;
    await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("strikewright.waits.")));
    expect(await setting()).toBe("feet_together");

    await hand.press(hand.button("Take this exercise back"));
    await page.locator(".practice").waitFor({ state: "detached" });
    // The strip goes as soon as the change is in the outbox; the server has it once the outbox is empty.
    await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("strikewright.waits.")));
    expect((await here.server.ask<{ given: [] }>("GET", `api/pupils/${pupil}/given`)).given).toEqual([]);
    expect(await setting()).toBe("normal");
  });

  it("counts balls while the server is away, and they go in with what they count as", async () => {
    const ids = await here.server.lesson({}, [seen, seen]);
    const given = await here.server.give(ids, "feet_together");
    const { page, hand } = await here.page(`#/lesson/${ids.lesson}`, size);
    await page.locator(".practice .one").waitFor();
    await hand.reading(2);
    await here.server.kill();
    for (let k = 1; k <= 3; ++k) {
      await hand.press(page.locator(".practice .one"));
      await page.locator(".practice .done", { hasText: new RegExp(`\\b${k} of`) }).waitFor();
    }
    await hand.press(page.locator(".practice").getByRole("button", { name: "After", exact: true }));
    await hand.touch("turf", [20, 0]);
    await hand.press(hand.button("Keep ball"));
    await page.locator(".practice .done", { hasText: "After 1" }).waitFor();
    await here.server.run();
    await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("strikewright.waits.")));
    const swings = await here.server.swings(ids.lesson);
    expect(swings.map((one) => [one.purpose, one.given])).toEqual([["", ""], ["", ""], ...Array(3).fill(["exercise", given]), ["after", given]]);
    await page.locator('.proof[data-after="1"]').waitFor();
  });

  it("undoes a ball that was counted, and corrects what one counts as", async () => {
    const ids = await here.server.lesson({}, [seen, seen]);
    await here.server.give(ids, "feet_together");
    const { page, hand } = await here.page(`#/lesson/${ids.lesson}`, size);
    await hand.touch("turf", [30, 0]);
    await hand.press(page.locator(".practice .one"));
    await page.locator(".practice .done", { hasText: /\b1 of/ }).waitFor();
    // What is on the pad is not of a ball that only counts, and stays.
    await page.getByText("Divot from 3 cm ahead").waitFor();
    await hand.press(hand.button(/^Undo/));
    await page.locator(".practice .done", { hasText: /\b0 of/ }).waitFor();
    await page.getByText("Divot from 3 cm ahead").waitFor();
    await hand.press(page.locator(".practice .one"));
    await page.locator(".swings .line", { hasText: "exercise" }).waitFor();
    await hand.press(page.locator(".swings .line").first());
    await hand.press(page.locator(".practice").getByRole("button", { name: "After", exact: true }));
    await hand.press(hand.button("Keep correction"));
    await page.locator(".practice .done", { hasText: "After 1" }).waitFor();
    await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("strikewright.waits.")));
    expect((await here.server.swings(ids.lesson)).map((one) => one.purpose)).toEqual(["", "", "after"]);
  });

  it("is seen by another screen at once", async () => {
    const ids = await here.server.lesson({}, [seen]);
    const { page } = await here.page(`#/lesson/${ids.lesson}`, size);
    await page.locator('.reading[data-n="1"]').waitFor();
    expect(await page.locator(".practice").count()).toBe(0);
    const given = await here.server.give(ids, "feet_together");
    await page.locator(".practice .one").waitFor();
    await here.server.ask("DELETE", `api/given/${given}`);
    await page.locator(".practice").waitFor({ state: "detached" });
  });

  it("is drawn the other way round for a left-hander, its words are not", async () => {
    for (const [hand, flipped] of [["left", true], ["right", false]] as const) {
      const { lesson } = await here.server.lesson({ hand });
      const { page } = await here.page(`#/lesson/${lesson}/exercises/feet_together`, size);
      const drawing = page.locator(".exercise img");
      await page.waitForFunction(() => (document.querySelector<HTMLImageElement>(".exercise img")?.naturalWidth ?? 0) > 0);
      // The hand is known as soon as the lesson has come.
      await page.getByRole("heading", { name: /^Give it to/ }).waitFor();
      expect(await drawing.evaluate((image) => getComputedStyle(image).transform)).toBe(flipped ? "matrix(-1, 0, 0, 1, 0, 0)" : "none");
      expect(await page.locator(".exercise ol").evaluate((list) => getComputedStyle(list).transform)).toBe("none");
    }
  });

  it("shows every one of its cautions, unfolded, in both languages", async () => {
    const { lesson } = await here.server.lesson();
    for (const language of ["English", "Deutsch"]) {
      const { exercises } = await here.server.ask<{ exercises: { name: string; cautions: string[] }[] }>("GET", `api/exercises?language=${language === "Deutsch" ? "de" : "en"}`);
      const one = exercises.find((exercise) => exercise.name === "chalk_line_no_ball")!;
      const { page, hand } = await here.page(`#/lesson/${lesson}/exercises/${one.name}`, size);
      await hand.press(hand.button(language));
      await page.locator(`.exercise[lang="${language === "Deutsch" ? "de" : "en"}"]`).waitFor();
      for (const caution of one.cautions) await page.locator(".exercise .warning li").filter({ hasText: caution }).first().waitFor();
      expect(await page.locator(".exercise details").count()).toBe(0);
    }
  });
});

describe("a pupil whose body asks for care", () => {
  const here = stage();

  it("is not given what the notes forbid, and what they allow only after asking", async () => {
    const { pupil, lesson } = await here.server.lesson({ cautions: "Sore left knee." }, [[{ column: "divot_start_mm", text: "-60" }]]);
    const { page, hand } = await here.page(`#/lesson/${lesson}/exercises`, "phone");
    await page.locator(".ranked .title").first().waitFor();
    await page.getByText(/^All \d+ that fit$/).click();
    await page.locator(".out summary").click();
    await hand.press(page.locator(".out a").first());
    await page.getByText("Not for this pupil here.").waitFor();
    await page.getByText("Sore left knee.").waitFor();
    expect(await hand.button("Give this exercise").count()).toBe(0);

    await page.goBack();
    await page.locator(".ranked .title").first().waitFor();
    await page.getByText(/^All \d+ that fit$/).click();
    const flagged = page.locator(".ranked li", { has: page.locator(".ask") }).first();
    await hand.press(flagged.locator(".title"));
    await page.getByText("Ask first.", { exact: true }).waitFor();
    await hand.press(hand.button("Give this exercise"));
    await page.waitForTimeout(300);
    expect(page.url()).toContain("/exercises/");
    await page.getByLabel(/^I asked/).check();
    await page.getByLabel(/^A note of yours/).fill("Slowly, please.");
    await hand.press(hand.button("Give this exercise"));
    await page.locator(".practice").waitFor();
    // The note is for the pupil; that it was asked about is the coach's own record.
    await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("strikewright.waits.")));
    const { given } = await here.server.ask<{ given: { exercise: string; notes: string }[] }>("GET", `api/pupils/${pupil}/given`);
    expect(given).toHaveLength(2);
    expect(given.find((one) => one.exercise)?.notes).toBe("Slowly, please.");
    expect(given.find((one) => !one.exercise)?.notes).toMatch(/: asked first\. .*body notes/);
  });
});
