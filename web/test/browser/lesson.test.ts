import { describe, expect, it } from "vitest";
import { both, stage } from "../stage.ts";

const text = (seen: { column: string; text: string }[], column: string): string | undefined => seen.find((one) => one.column === column)?.text;
const divot = (mm: number): { column: string; text: string }[] => [{ column: "divot_start_mm", text: String(mm) }];

describe.each(both)("a lesson on a %s", (size) => {
  const here = stage();

  it("takes ten balls in four touches each", async () => {
    const { lesson } = await here.server.lesson();
    const { hand } = await here.page(`#/lesson/${lesson}`, size);
    await hand.reading(0);
    for (let k = 1; k <= 10; ++k) {
      hand.touches = 0;
      await hand.touch("turf", [-50 + 8 * k, 0], [80 + 5 * k, 4]);
      await hand.touch("face", [-6 + k, -18]);
      await hand.touch("flight", [-8, -100], [10 + k, -205]);
      await hand.press(hand.button("Keep ball"));
      expect(hand.touches).toBeLessThanOrEqual(4);
      await hand.reading(k);
    }
    const swings = await here.server.swings(lesson);
    expect(swings.map((one) => one.number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    for (const { seen } of swings) {
      expect(seen.map((one) => one.column).sort()).toEqual(["curve_m", "divot_direction_deg", "divot_end_mm", "divot_start_mm", "start_deg", "strike_toe_mm", "strike_up_mm"]);
    }
    expect(Math.abs(Number(text(swings[0]!.seen, "divot_start_mm")) + 42)).toBeLessThanOrEqual(1);
    expect(Math.abs(Number(text(swings[0]!.seen, "strike_toe_mm")) - 5)).toBeLessThanOrEqual(1);
  });

  it("undoes a mark, a ball and a removal", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}`, size);
    await hand.reading(0);
    await hand.touch("turf", [-60, 0]);
    await hand.touch("turf", [20, 0]);
    await page.getByText("Divot from 2 cm ahead").waitFor();
    await hand.press(hand.button(/^Undo/));
    await page.getByText("Divot from 6 cm behind").waitFor();

    await hand.press(hand.button("Keep ball"));
    await hand.reading(1);
    await hand.press(hand.button(/^Undo/));
    await hand.reading(0);
    await page.getByText("Divot from 6 cm behind").waitFor();
    expect(await here.server.swings(lesson)).toEqual([]);

    await hand.press(hand.button("Keep ball"));
    await hand.reading(1);
    const before = await here.server.swings(lesson);
    await hand.press(hand.button(/^Remove swing/));
    await hand.reading(0);
    await hand.press(hand.button(/^Undo/));
    await hand.reading(1);
    expect(await here.server.swings(lesson)).toEqual(before);
  });

  it("corrects an old swing, and the reading changes", async () => {
    const { lesson } = await here.server.lesson({}, [divot(-60), divot(-50), divot(-55)]);
    const { page, hand } = await here.page(`#/lesson/${lesson}`, size);
    const before = await hand.reading(3);
    const revision = await page.locator(".reading").getAttribute("data-revision");
    await hand.press(page.locator(".swings .line").last());
    await page.getByText("Correcting swing 1").waitFor();
    await hand.touch("turf", [70, 0]);
    await hand.press(hand.button("Keep correction"));
    await page.locator(`.reading[data-n="3"][aria-busy="false"]:not([data-revision="${revision}"])`).waitFor();
    expect(await hand.reading(3)).not.toBe(before);
    const swings = await here.server.swings(lesson);
    expect(swings).toHaveLength(3);
    expect(Math.abs(Number(text(swings[0]!.seen, "divot_start_mm")) - 70)).toBeLessThanOrEqual(1);
    expect(text(swings[1]!.seen, "divot_start_mm")).toBe("-50");

    // What it was before stands beside it; a swing that was never changed has no such list.
    const answered = page.waitForResponse((reply) => reply.url().endsWith("/changes") && reply.url().includes("/swings/"));
    await hand.press(page.locator(".swings .line").first());
    await (await answered).finished();
    await page.waitForTimeout(100);
    expect(await page.locator(".changes").count()).toBe(0);
    await hand.press(hand.button("Leave it as it was"));
    await hand.press(page.locator(".swings .line").last());
    await page.locator(".changes summary").click();
    const changes = await page.locator(".changes li").allInnerTexts();
    expect(changes).toHaveLength(2);
    expect(changes[0]).toMatch(/Changed: divot from (6|7|7\.1|6\.9) cm ahead/);
    expect(changes[1]).toContain("Added: divot from 6 cm behind");
  });

  it("is mirrored for a left-hander, the flight is not", async () => {
    const { lesson } = await here.server.lesson({ hand: "left" });
    const { hand } = await here.page(`#/lesson/${lesson}`, size);
    await hand.reading(0);
    // Toward the left of the screen is toward the target; away from the player (down) is left of it.
    await hand.touch("turf", [40, 0], [-80, 12]);
    await hand.touch("face", [12, -20]);
    await hand.touch("flight", [10, -120]);
    await hand.press(hand.button("Keep ball"));
    await hand.reading(1);
    const seen = (await here.server.swings(lesson))[0]!.seen;
    expect(Number(text(seen, "divot_start_mm"))).toBeLessThan(-35);
    expect(Number(text(seen, "divot_end_mm"))).toBeGreaterThan(75);
    expect(Number(text(seen, "divot_direction_deg"))).toBeLessThan(-4);
    expect(Number(text(seen, "strike_toe_mm"))).toBeGreaterThan(10);
    expect(Number(text(seen, "start_deg"))).toBeGreaterThan(0);
  });

  it("starts the next look, and is fed", async () => {
    const { lesson } = await here.server.lesson({}, [divot(-60), divot(-20), divot(-55)]);
    const { page, hand } = await here.page(`#/lesson/${lesson}`, size);
    await hand.reading(3);
    const looks = (await here.server.ask<{ next_look: { condition?: string; column?: string }[] }>("GET", `api/lessons/${lesson}/reading?units=metric`)).next_look;
    expect(looks.length).toBeGreaterThan(0);
    await hand.press(page.locator(".looks button").first());
    if (looks[0]!.condition) {
      await hand.touch("turf", [30, 0]);
      await hand.press(hand.button("Keep ball"));
      await hand.reading(4);
      expect((await here.server.swings(lesson))[3]!.condition).toBe(looks[0]!.condition);
    } else {
      await page.getByText("Look at what is outlined.").waitFor();
      expect(await page.locator(".lit").count()).toBeGreaterThan(0);
      await hand.touch("turf", [30, 0], [120, 4]);
      await hand.press(hand.button("Keep ball"));
      await hand.reading(4);
    }
  });

  it("keeps the setting from ball to ball, and takes a chalk line for a ball that is not there", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}`, size);
    await hand.reading(0);
    await page.locator(".setting summary").click();
    await page.getByLabel("Club", { exact: true }).selectOption("pw");
    await hand.press(hand.button("Chalk line"));
    expect(await page.locator('svg[data-part="face"]').count()).toBe(0);
    for (let k = 1; k <= 2; ++k) {
      await hand.touch("turf", [10 * k, 0]);
      await hand.press(hand.button("Keep swing"));
      await hand.reading(k);
    }
    for (const swing of await here.server.swings(lesson)) expect([swing.club, swing.ball]).toEqual(["pw", false]);
  });
});

describe("a coach of yards", () => {
  const here = stage();

  it("enters and reads inches and yards", async () => {
    await here.server.ask("PUT", "api/settings", { units: "yards", from: "usual", place: "", surface: "fairway", sure: {} });
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}`, "phone");
    await hand.reading(0);
    await hand.touch("turf", [-51, 0], [80, 0]);
    await page.getByText("Divot from 2 in behind").waitFor();
    await hand.touch("flight", [0, -110], [40, -210]);
    await page.getByText(/curved \d+ yd right/).waitFor();
    await hand.press(hand.button("Keep ball"));
    expect(await hand.reading(1)).toMatch(/\bin\b/);
    expect(await page.locator(".reading").innerText()).not.toMatch(/\d (cm|m)\b/);
    const columns = (await here.server.swings(lesson))[0]!.seen.map((one) => one.column);
    expect(columns).toContain("divot_start_in");
    expect(columns).toContain("curve_yd");
  });
});
