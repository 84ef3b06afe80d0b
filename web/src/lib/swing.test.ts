import { webcrypto } from "node:crypto";
import { describe, expect, it } from "vitest";
import type { Lesson, Swing } from "../contract.ts";
import type { Entry } from "../outbox.ts";
import { newId, overlaid, overlaidLesson, summary } from "./swing.ts";

// Browsers have it; Node.js 18 does not by itself.
globalThis.crypto ??= webcrypto as Crypto;

const swing = (id: string, number: number, lesson = "l-1"): Swing => ({
  id, lesson, number, club: "7i", condition: "normal", surface: "fairway", ball: true, at: "", seen: [],
});
let made = 0;
const entry = (method: "PUT" | "DELETE", path: string, body?: unknown): Entry => ({ key: `k${made++}`, method, path, body, says: "" });

describe("the summary of a swing", () => {
  it("says what was seen in the coach's words", () => {
    const seen = [
      { column: "divot_start_mm", text: "-62" },
      { column: "divot_direction_deg", text: "-6" },
      { column: "contact", text: "fat" },
      { column: "curve_m", text: "8" },
    ];
    expect(summary(seen, "metric")).toBe("fat, divot from 6.2 cm behind, pointing 6° left, curved 8 m right");
    expect(summary(seen, "yards")).toContain("2.4 in behind");
  });

  it("counts what it has no words for, in any unit", () => {
    expect(summary([{ column: "club_speed_mph", text: "80" }, { column: "toe_heel", text: "toe" }, { column: "start_deg", text: "2" }], "metric")).toBe("started 2° right, 2 more");
    expect(summary([{ column: "divot_start_in", text: "-2" }], "metric")).toBe("divot from 5.1 cm behind");
  });

  it("says what was seen only in words", () => {
    expect(summary([{ column: "start", text: "far_left" }, { column: "curve", text: "big_right" }], "metric")).toBe("started far left, curved far right");
    expect(summary([{ column: "curve", text: "none" }], "metric")).toBe("no curve");
  });

  it("says that a divot began at the ball, a strike low on the face", () => {
    expect(summary([{ column: "divot_start_mm", text: "1" }], "metric")).toBe("divot at the ball");
    expect(summary([{ column: "strike_up_mm", text: "-2" }], "metric")).toBe("struck 2 mm under the leading edge");
    expect(summary([{ column: "strike_toe_mm", text: "4" }, { column: "strike_up_mm", text: "16" }], "metric")).toBe("struck 4 mm toe, 16 mm up");
  });

  it("says that nothing was seen", () => {
    expect(summary([], "metric")).toBe("nothing seen");
  });
});

describe("a lesson with what waits laid over it", () => {
  it("adds, replaces and removes in the order of entry", () => {
    const kept = [swing("s-1", 1), swing("s-2", 2)];
    const waiting = [
      entry("PUT", "/api/swings/s-3", swing("s-3", 0)),
      entry("DELETE", "/api/swings/s-1"),
      entry("PUT", "/api/swings/s-2", { ...swing("s-2", 2), club: "pw" }),
      entry("PUT", "/api/swings/s-4", swing("s-4", 0)),
    ];
    const all = overlaid("l-1", kept, waiting);
    expect(all.map((one) => [one.id, one.number])).toEqual([["s-2", 2], ["s-3", 3], ["s-4", 4]]);
    expect(all[0]!.club).toBe("pw");
  });

  it("leaves other lessons' swings out", () => {
    expect(overlaid("l-1", [], [entry("PUT", "/api/swings/s-9", swing("s-9", 0, "l-2"))])).toEqual([]);
  });

  it("lays several swings that wait together over what is there", () => {
    const several = { swings: [{ ...swing("s-1", 1), purpose: "baseline", given: "g-1" }, swing("s-7", 0), swing("s-8", 0, "l-2")] };
    const all = overlaid("l-1", [swing("s-1", 1), swing("s-2", 2)], [entry("PUT", "/api/lessons/l-1/swings", several)]);
    expect(all.map((one) => [one.id, one.number, one.purpose])).toEqual([["s-1", 1, "baseline"], ["s-2", 2, undefined], ["s-7", 3, undefined]]);
    expect(overlaid("l-2", [], [entry("PUT", "/api/lessons/l-1/swings", several)])).toEqual([]);
  });

  it("shows a swing that has gone in and still waits once", () => {
    expect(overlaid("l-1", [swing("s-1", 1)], [entry("PUT", "/api/swings/s-1", swing("s-1", 0))])).toHaveLength(1);
  });

  it("knows a lesson that only the outbox has", () => {
    const lesson = { id: "l-9", pupil: "p-1", club: "7i" } as Lesson;
    expect(overlaidLesson("l-9", null, [entry("PUT", "/api/lessons/l-9", lesson)])?.pupil).toBe("p-1");
    expect(overlaidLesson("l-9", null, [])).toBeNull();
  });
});

describe("names of records", () => {
  it("are 1 to 40 of a-z 0-9 - and differ", () => {
    const names = new Set(Array.from({ length: 500 }, () => newId("s")));
    expect(names.size).toBe(500);
    for (const name of names) expect(name).toMatch(/^[a-z0-9-]{1,40}$/);
  });
});
