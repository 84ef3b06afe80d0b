import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { violations } from "../axe.ts";
import { tooSmall, tooWide } from "../fit.ts";
import { both, stage } from "../stage.ts";

/** Goes on with Tab, or another key, until the focus is on what is wanted. */
function tabIn(page: Page): (wanted: string, key?: string) => Promise<void> {
  return async (wanted, key = "Tab") => {
    for (let k = 0; k < 120; ++k) {
      if (await page.evaluate((selector) => document.activeElement?.matches(selector) ?? false, wanted)) return;
      await page.keyboard.press(key);
    }
    throw new Error(`${key} never reached ${wanted}`);
  };
}

const seen = [
  { column: "divot_start_mm", text: "-40" },
  { column: "divot_end_mm", text: "70" },
  { column: "strike_toe_mm", text: "4" },
  { column: "contact", text: "clean" },
];

describe.each(both)("every screen on a %s", (size) => {
  const here = stage();

  /** What a screen is blamed for: by axe in the light and in the dark, by a thumb, and for being too wide. */
  const blamed = async (page: Page, hash: string): Promise<object> => {
    const ink = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).color);
    const [light, day] = [await violations(page), await ink()];
    await page.emulateMedia({ colorScheme: "dark" });
    const [dark, night] = [await violations(page), await ink()];
    await page.emulateMedia({ colorScheme: "light" });
    expect(night).not.toBe(day);
    return { hash, light, dark, small: await tooSmall(page), wide: await tooWide(page) };
  };
  const nothing = (hash: string): object => ({ hash, light: [], dark: [], small: [], wide: 0 });

  it("has nothing that axe objects to, by day and by night, buttons that a thumb can hit, and nothing to scroll sideways", async () => {
    const first = await here.page("", size);
    await first.page.locator("h1").waitFor();
    expect(await blamed(first.page, "")).toEqual(nothing(""));

    const { pupil, lesson } = await here.server.lesson({ name: "Isa Thornley" }, [seen, seen, seen]);
    const given = await here.server.give({ pupil, lesson }, "feet_together");
    const counted = { lesson, club: "7i", condition: "normal", surface: "fairway", ball: true, seen, given };
    for (let k = 0; k < 5; ++k) await here.server.ask("PUT", `api/swings/${lesson}-${k}`, { id: `${lesson}-${k}`, ...counted, purpose: k < 2 ? "exercise" : "after" });
    /** What has to be there before a screen is whole. */
    const whole: Record<string, string> = {
      [`#/pupil/${pupil}`]: "path.span",
      [`#/lesson/${lesson}`]: ".proof svg",
      [`#/lesson/${lesson}/exercises`]: ".ranked svg",
      [`#/lesson/${lesson}/exercises/feet_together`]: ".exercise img",
      [`#/lesson/${lesson}/sheet`]: ".page img.drawn",
      [`#/given/${given}`]: ".days li",
    };
    for (const hash of [...Object.keys(whole), "#/", "#/add", `#/pupil/${pupil}/edit`, `#/lesson/${lesson}/import`, `#/flail/${lesson}`, "#/flail", "#/settings"]) {
      const { page } = await here.page(hash, size);
      await page.locator("main h1").waitFor();
      if (whole[hash]) await page.locator(whole[hash]).first().waitFor();
      if (hash === `#/lesson/${lesson}`) await page.locator('.reading[data-n="3"]').waitFor();
      if (whole[hash]) for (const fold of await page.locator("main summary").all()) await fold.click();
      if (hash.startsWith("#/flail")) await page.getByRole("heading", { name: "The wrists drive" }).waitFor();
      if (hash.endsWith("import")) await page.getByLabel("File").setInputFiles({ name: "a.csv", mimeType: "text/csv", buffer: Buffer.from("divot_start_mm,other\n-42,1\n") }).then(() => page.getByText("The first rows").waitFor());
      expect(await blamed(page, hash)).toEqual(nothing(hash));
      await page.context().close();
    }
  }, 240_000);

  it("has exercises, proof and sheet that fit a narrow phone and a wide desk", async () => {
    const ids = await here.server.lesson({}, [seen, seen]);
    const given = await here.server.give(ids, "feet_together");
    for (const hash of [`#/lesson/${ids.lesson}/exercises`, `#/lesson/${ids.lesson}/exercises/feet_together`, `#/lesson/${ids.lesson}/sheet`, `#/given/${given}`]) {
      const { page } = await here.page(hash, size);
      await page.locator(".ranked svg, .exercise img, .page img.drawn").first().waitFor();
      for (const [width, height] of [[360, 640], [640, 360], [1920, 1080]] as const) {
        await page.setViewportSize({ width, height });
        expect({ hash, width, wide: await tooWide(page) }).toEqual({ hash, width, wide: 0 });
      }
      await page.context().close();
    }
  });

  it("fits a narrow phone", async () => {
    const { lesson } = await here.server.lesson({}, [seen]);
    const { page } = await here.page(`#/lesson/${lesson}`, size);
    for (const [width, height] of [[360, 640], [640, 360], [1920, 1080]] as const) {
      await page.setViewportSize({ width, height });
      await page.locator('.reading[data-n="1"]').waitFor();
      expect(await tooWide(page)).toBe(0);
      const pad = await page.locator('svg[data-part="turf"]').boundingBox();
      expect(pad!.width).toBeGreaterThan(200);
    }
  });
});

describe("the keyboard alone", () => {
  const here = stage();

  it("runs a whole lesson", async () => {
    const { page } = await here.page("", "laptop");
    const press = (...keys: string[]): Promise<void> => keys.reduce((done, key) => done.then(() => page.keyboard.press(key)), Promise.resolve());
    const tabTo = tabIn(page);
    await page.getByText("The book is empty").waitFor();
    await tabTo('a[href="#/add"]');
    await press("Enter");
    await page.getByLabel("Name").waitFor();
    await tabTo("#p-name");
    await page.keyboard.type("Isa Thornley");
    await press("Enter");
    await page.getByRole("button", { name: "Begin a lesson" }).waitFor();
    await tabTo(".begin");
    await press("Enter");
    await page.locator('.reading[data-n="0"]').waitFor();

    await tabTo('svg[data-part="turf"]');
    await press("ArrowLeft", "ArrowLeft", "ArrowLeft", "Enter", ...Array(12).fill("ArrowRight"), "Enter");
    await page.getByText("Divot from 3 cm behind, to 9 cm ahead, straight").waitFor();
    await tabTo('svg[data-part="face"]');
    await press("ArrowLeft", "Enter");
    await page.getByText("4 mm to the toe, 20 mm up").waitFor();
    await tabTo('svg[data-part="flight"]');
    await press("Enter", "ArrowUp", "ArrowUp", "ArrowRight", "Enter");
    await page.getByText(/^Started straight, curved \d+ m right/).waitFor();
    await tabTo(".contact button");
    await press("Space");
    await tabTo(".bar .main");
    await press("Enter");
    await page.locator('.reading[data-n="1"][aria-busy="false"]').waitFor();

    await tabTo(".swings .line");
    await press("Enter");
    await page.getByText("Correcting swing 1").waitFor();
    await tabTo('svg[data-part="turf"]');
    await press("Delete");
    await page.getByText("Divot: not seen").waitFor();
    await tabTo(".bar .main");
    await press("Enter");
    await page.getByText("Correcting swing 1").waitFor({ state: "hidden" });
    await tabTo(".looks button");
    await press("Enter");
    await page.getByText(/^Next look:/).waitFor();
  });
});

describe("the keyboard alone, to close a lesson", () => {
  const here = stage();

  it("chooses an exercise, gives it and counts its balls", async () => {
    const { lesson } = await here.server.lesson({}, [seen, seen, seen]);
    const { page } = await here.page(`#/lesson/${lesson}`, "laptop");
    const tabTo = tabIn(page);
    await page.locator('.reading[data-n="3"]').waitFor();
    await tabTo(`a[href="#/lesson/${lesson}/exercises"]`);
    await page.keyboard.press("Enter");
    await page.locator(".ranked .title").first().waitFor();
    await tabTo(".ranked .title");
    await page.keyboard.press("Enter");
    await page.locator(".give:enabled").waitFor();
    if (await page.getByLabel(/^I asked/).count()) {
      await tabTo(".asked input");
      await page.keyboard.press("Space");
    }
    await tabTo(".give");
    await page.keyboard.press("Enter");
    await page.locator(".practice").waitFor();
    await tabTo(".practice .one");
    await page.keyboard.press("Space");
    await page.locator(".practice .done", { hasText: /\b1 of/ }).waitFor();
    await page.keyboard.press("Space");
    await page.locator(".practice .done", { hasText: /\b2 of/ }).waitFor();
    await tabTo(".cautions summary", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.locator(".cautions li").first().waitFor();
    await tabTo(".switch button:nth-child(3)");
    await page.keyboard.press("Enter");
    await page.getByText("Next swings: after").waitFor();
    expect((await here.server.swings(lesson)).map((one) => one.purpose)).toEqual(["", "", "", "exercise", "exercise"]);
  });
});

describe("text that looks like a script", () => {
  const here = stage();
  const bad = `<img src=x onerror="window.hit=1"><script>window.hit=1</script>'"&`;

  it("stays text in every field and on every screen", async () => {
    const { pupil, lesson } = await here.server.lesson({ name: bad }, [seen]);
    await here.server.ask("PUT", `api/pupils/${pupil}`, { id: pupil, name: bad, hand: "right", skill: "club", notes: bad, cautions: bad });
    await here.server.ask("PUT", `api/lessons/${lesson}`, { id: lesson, pupil, place: bad, notes: bad, club: "7i", surface: "fairway", condition: "normal", ball: true });
    const given = await here.server.give({ pupil, lesson }, "feet_together", { why: bad, notes: bad });
    const settings = await here.server.ask<object>("GET", "api/settings");
    await here.server.ask("PUT", "api/settings", { ...settings, place: bad });
    for (const hash of ["#/", `#/pupil/${pupil}`, `#/pupil/${pupil}/edit`, `#/lesson/${lesson}`, `#/lesson/${lesson}/import`, `#/lesson/${lesson}/exercises`, `#/lesson/${lesson}/sheet`, `#/given/${given}`, `#/flail/${lesson}`, "#/settings"]) {
      const { page } = await here.page(hash, "laptop");
      // Somewhere on every screen the text has arrived, in a field or beside one.
      await page.waitForFunction(() => document.body.innerText.includes("onerror") || [...document.querySelectorAll<HTMLInputElement>("input, textarea")].some((one) => one.value.includes("onerror")));
      expect(await page.evaluate(() => [(window as unknown as { hit?: number }).hit, document.querySelectorAll('main img[src="x"], main script').length])).toEqual([undefined, 0]);
      await page.context().close();
    }
    const { page } = await here.page(`#/pupil/${pupil}`, "laptop");
    await page.locator("main h1", { hasText: "onerror" }).waitFor();
    expect(await page.locator("main h1").innerText()).toBe(bad);
  });
});
