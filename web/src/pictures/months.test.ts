import { describe, expect, it } from "vitest";
import { bars, dayNumber, panel, sheet, timeScale } from "./months.ts";

const given = (id: string, title: string, from: string, to: string | null) => ({ id, exercise: id, title, from, to });

describe("the months", () => {
  const days = ["2026-01-01", "2026-02-01", "2026-04-01"].map(dayNumber);
  const x = timeScale(days);

  it("lie by their days, within the picture", () => {
    const at = days.map(x);
    expect(at[0]!).toBeGreaterThan(sheet.left);
    expect(at[2]!).toBeLessThan(sheet.right);
    expect((at[1]! - at[0]!) / (at[2]! - at[0]!)).toBeCloseTo(31 / 90);
    expect(x(days[2]! + 50)).toBe(at[2]);
    expect(timeScale([5])(5)).toBe((sheet.left + sheet.right) / 2);
  });

  it("show what was given as long as it was done, to the last day where it still is", () => {
    const [one, two] = bars([given("a", "Towel", "2026-01-01", "2026-02-01"), given("b", "Step", "2026-02-01", null)], x, days[2]!);
    expect([one!.from, one!.to, one!.open]).toEqual([x(days[0]!), x(days[1]!), false]);
    expect([two!.from, two!.to, two!.open]).toEqual([x(days[1]!), x(days[2]!), true]);
    // They touch on the day of the change: each has a lane of its own.
    expect([one!.lane, two!.lane]).toEqual([0, 1]);
  });

  it("let no title run over another or out of the picture", () => {
    const long = "Trail leg, lead leg: compare the marks";
    const all = bars([given("a", long, "2026-01-01", "2026-02-01"), given("b", "Towel behind the ball", "2026-03-31", null), given("c", long, "2026-04-01", null)], x, days[2]!);
    expect(all[0]!.title_ends).toBe(false);
    expect(all.slice(1).map((one) => [one.title_at, one.title_ends])).toEqual([[sheet.right, true], [sheet.right, true]]);
    expect(new Set(all.map((one) => one.lane)).size).toBe(3);
  });
});

describe("a panel", () => {
  const spread = (p10: number, mean: number, p90: number) => ({ mean, p10, p90 });

  it("holds all intervals and nothing, more on top", () => {
    const { y, ticks } = panel([spread(-4, -2, -1), spread(-1, 1, 3)], 10, 130);
    for (const value of [-4, 0, 3]) {
      expect(y(value)).toBeGreaterThanOrEqual(10);
      expect(y(value)).toBeLessThanOrEqual(130);
    }
    expect(y(3)).toBeLessThan(y(-4));
    expect(ticks).toContain(0);
    expect(ticks.every((tick) => y(tick) >= 10 && y(tick) <= 130)).toBe(true);
  });

  it("begins at nothing where all is above it", () => {
    expect(panel([spread(1, 2, 3)], 0, 60).y(0)).toBe(60);
    expect(panel([spread(0, 0, 0)], 0, 60).ticks.length).toBeGreaterThan(0);
  });
});
