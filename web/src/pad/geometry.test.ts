import { describe, expect, it } from "vitest";
import { figure, word } from "../lib/units.ts";
import {
  ahead, divotEnds, divotFrom, divotOf, flightFrom, flightOf, landing, strikeOf, toward_toe, withDivot, withFlight, withNoDivot, withStrike,
} from "./geometry.ts";

describe("the turf strip", () => {
  it("has the target to the right for a right-hander, to the left for a left-hander", () => {
    expect(ahead(40, "right")).toBe(40);
    expect(ahead(40, "left")).toBe(-40);
  });

  it("reads a drag away from the player as right for a right-hander and left for a left-hander", () => {
    const right = divotFrom({ x: -50, y: 0 }, { x: 50, y: 10 }, "right");
    expect(right.start).toBeCloseTo(-50);
    expect(right.end).toBeCloseTo(50);
    expect(right.direction).toBeCloseTo(5.71, 2);
    const left = divotFrom({ x: 50, y: 0 }, { x: -50, y: 10 }, "left");
    expect([left.start, left.end]).toEqual([-50, 50]);
    expect(left.direction).toBeCloseTo(-5.71, 2);
  });

  it("is the same mark when it is dragged from its end to its beginning", () => {
    expect(divotFrom({ x: 50, y: 10 }, { x: -50, y: 0 }, "right")).toEqual(divotFrom({ x: -50, y: 0 }, { x: 50, y: 10 }, "right"));
  });

  it("takes a tap for a beginning only", () => {
    expect(divotFrom({ x: -30, y: 2 }, { x: -28, y: 3 }, "right")).toEqual({ start: -30, end: null, direction: null });
  });

  it("claims no direction for a mark across the line", () => {
    expect(divotFrom({ x: 0, y: -30 }, { x: 10, y: 30 }, "right").direction).toBeNull();
  });

  it("comes back from the columns to the same place on the screen, for both hands and units", () => {
    for (const hand of ["right", "left"] as const) {
      for (const units of ["metric", "yards"] as const) {
        const divot = divotFrom({ x: -40, y: 0 }, { x: 90, y: 8 }, hand);
        const again = divotOf(withDivot([], divot, units))!;
        expect(Math.abs(again.start - divot.start)).toBeLessThan(1.3);
        expect(Math.abs(again.direction! - divot.direction!)).toBeLessThan(0.06);
        const [a, b] = divotEnds(again, hand);
        expect(Math.sign(b.x - a.x)).toBe(hand === "right" ? 1 : -1);
        expect(b.y - a.y).toBeCloseTo(hand === "right" ? 8 : -8, 0);
      }
    }
  });

  it("lets no divot and a divot not stand together", () => {
    const none = withNoDivot(withDivot([], { start: -20, end: 60, direction: 2 }, "metric"));
    expect(none).toEqual([{ column: "divot", text: "none" }]);
    const marked = withDivot(none, { start: -20, end: null, direction: null }, "metric");
    expect(word(marked, "divot")).toBeNull();
    expect(withNoDivot(none)).toEqual([]);
  });
});

describe("the clubface", () => {
  it("has the toe to the left for a right-hander, to the right for a left-hander", () => {
    expect(toward_toe(-12, "right")).toBe(12);
    expect(toward_toe(12, "left")).toBe(12);
  });

  it("comes back from the columns, and takes the groove's number out", () => {
    const seen = withStrike([{ column: "strike_groove", text: "3" }], { toe: -7, up: 18 }, "metric");
    expect(strikeOf(seen)).toEqual({ toe: -7, up: 18 });
    expect(seen.some((entered) => entered.column === "strike_groove")).toBe(false);
    expect(strikeOf(withStrike([], { toe: -7, up: 18 }, "yards")).toe).toBeCloseTo(-7, 0);
  });
});

describe("the flight", () => {
  it("reads start and curve as seen: right is right", () => {
    const flight = flightFrom({ x: -5, y: 60 }, { x: 10, y: 128 }, 128, false);
    expect(flight.start).toBeCloseTo(-4.76, 2);
    expect(flight.curve).toBeGreaterThan(0);
    expect(flight.carry).toBeNull();
  });

  it("takes a tap for a start only", () => {
    expect(flightFrom({ x: 5, y: 60 }, { x: 5.5, y: 61 }, 128, false).curve).toBeNull();
  });

  it("keeps the distance only when it is meant", () => {
    expect(flightFrom({ x: 0, y: 40 }, { x: 30, y: 110 }, 128, true).carry).toBeCloseTo(114, 0);
  });

  it("draws the end where it was dragged to", () => {
    const to = { x: -22, y: 105 };
    const again = landing(flightFrom({ x: 4, y: 50 }, to, 128, true), 128)!;
    expect(again.x).toBeCloseTo(to.x, 6);
    expect(again.y).toBeCloseTo(to.y, 6);
  });

  it("comes back from the columns in yards", () => {
    const seen = withFlight([], { start: -3, curve: 9, carry: 120 }, "yards");
    expect(figure(seen, "curve_m")).toBeCloseTo(9, 1);
    expect(flightOf(seen).carry).toBeCloseTo(120, 0);
    expect(seen.map((entered) => entered.column)).toEqual(["start_deg", "curve_yd", "carry_yd"]);
  });
});
