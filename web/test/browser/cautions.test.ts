import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { both, stage } from "../stage.ts";

interface Told {
  permission: string;
  reasons: string[];
  cautions: string[];
}

const seen = [{ column: "divot_start_mm", text: "-40" }];

/** Looks at the strip at every change of the page: how often did a cue stand in it without a caution? */
async function watch(page: Page): Promise<() => Promise<{ cues: number; bare: number }>> {
  await page.evaluate(() => {
    const counted = { cues: 0, bare: 0 };
    (window as unknown as { strip: typeof counted }).strip = counted;
    new MutationObserver(() => {
      for (const cue of document.querySelectorAll(".practice .cue")) {
        ++counted.cues;
        const care = cue.closest(".practice")!.querySelectorAll(".cautions .short, .cautions li");
        if ([...care].filter((one) => (one.textContent ?? "").length > 10).length < 3) ++counted.bare;
      }
    }).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
  });
  return () => page.evaluate(() => (window as unknown as { strip: { cues: number; bare: number } }).strip);
}

describe.each(both)("the strip of a lesson on a %s", (size) => {
  const here = stage();

  it("shows what concerns this pupil, unfolded, as the server tells it", async () => {
    const ids = await here.server.lesson({ name: "Isa Thornley", cautions: "A sore wrist.", birth_year: new Date().getFullYear() - 14 }, [seen]);
    const given = await here.server.give(ids, "towel_behind_ball");
    const told = await here.server.ask<Told>("GET", `api/given/${given}`);
    expect(told.permission).toBe("flagged");
    const { page } = await here.page(`#/lesson/${ids.lesson}`, size);
    const concerns = page.locator(".practice .concerns");
    await concerns.waitFor();
    // Nobody has to unfold anything to read them.
    for (const words of ["Isa Thornley: ask first.", "The body notes speak of the wrist.", "For the adult: stay close by", "Because of what you told about your body"]) await concerns.getByText(words).waitFor();
    // Struck from a mat there is one reason more, as soon as the lesson says so.
    const { lesson } = await here.server.ask<{ lesson: object }>("GET", `api/lessons/${ids.lesson}`);
    await here.server.ask("PUT", `api/lessons/${ids.lesson}`, { ...lesson, surface: "mat" });
    await concerns.getByText("It strikes a hard ground or a mat.").waitFor();
  });

  it("never shows an exercise without its cautions, whichever it is", async () => {
    const ids = await here.server.lesson({ cautions: "A sore wrist." }, [seen]);
    const { exercises } = await here.server.ask<{ exercises: { name: string; title: string; cue: string }[] }>("GET", "api/exercises");
    expect(exercises.length).toBeGreaterThanOrEqual(20);
    const given = await here.server.give(ids, exercises[0]!.name);
    const { page } = await here.page("", size);
    await page.locator("main h1").waitFor();
    // From before the lesson opens: also while it does, nothing may stand there bare.
    const counted = await watch(page);
    await page.evaluate((hash) => (location.hash = hash), `#/lesson/${ids.lesson}`);
    const strip = page.locator(".practice");
    for (const { name, title, cue } of exercises) {
      const told = await here.server.ask<Told>("PUT", `api/given/${given}`, { ...ids, id: given, exercise: name });
      await strip.locator(".title", { hasText: title }).waitFor();
      await strip.locator(".cue", { hasText: cue }).waitFor();
      const text = (await strip.textContent()) ?? "";
      expect({ name, lacks: [...told.reasons, ...told.cautions].filter((one) => !text.includes(one)) }).toEqual({ name, lacks: [] });
    }
    const { cues, bare } = await counted();
    expect(cues).toBeGreaterThanOrEqual(exercises.length);
    expect(bare).toBe(0);
  });

  it("shows no cue of an exercise that the page cannot know, but every caution that the server tells", async () => {
    const ids = await here.server.lesson({ cautions: "A sore wrist." }, [seen]);
    const given = await here.server.give(ids, "towel_behind_ball");
    const told = await here.server.ask<Told>("GET", `api/given/${given}`);
    const { page } = await here.page("", size);
    await page.route("**/api/exercises?*", (route) => route.abort());
    await page.goto(`${here.server.url}#/lesson/${ids.lesson}`);
    await page.locator(".practice .cautions").waitFor();
    expect(await page.locator(".practice .cue").count()).toBe(0);
    await page.locator(".practice .cautions li").last().waitFor();
    const text = (await page.locator(".practice").textContent()) ?? "";
    expect([...told.reasons, ...told.cautions].filter((one) => !text.includes(one))).toEqual([]);
  });

  it("tells not to begin where no caution can be known at all", async () => {
    const ids = await here.server.lesson({}, [seen]);
    await here.server.give(ids, "towel_behind_ball");
    const { page } = await here.page("", size);
    await page.route("**/api/exercises?*", (route) => route.abort());
    await page.route("**/api/pupils/*/given", async (route) => {
      const reply = await route.fetch();
      const { given } = (await reply.json()) as { given: Partial<Told>[] };
      await route.fulfill({ json: { given: given.map(({ permission: _, reasons: __, cautions: ___, ...rest }) => rest) } });
    });
    await page.goto(`${here.server.url}#/lesson/${ids.lesson}`);
    await page.getByText("Do not begin it without them.").waitFor();
    expect(await page.locator(".practice .cue, .practice .cautions").count()).toBe(0);
  });

  it("shows the cautions of an exercise given while the server is away", async () => {
    const ids = await here.server.lesson({ cautions: "A sore wrist." }, [seen]);
    const { page, hand } = await here.page(`#/lesson/${ids.lesson}/exercises/towel_behind_ball`, size);
    await page.locator(".give:enabled").waitFor();
    await here.server.kill();
    await page.getByLabel(/^I asked/).check();
    await hand.press(hand.button("Give this exercise"));
    await page.locator(".practice .concerns", { hasText: "The body notes speak of the wrist." }).waitFor();
    expect(await page.locator(".practice .cautions li").count()).toBeGreaterThan(5);
    await here.server.run();
    await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("strikewright.waits.")));
  });
});
