import { describe, expect, it } from "vitest";
import { along, columnIn, entry, factor, figure, fromBall, say, split, withEntered, word } from "./units.ts";

describe("columns and their units", () => {
  it("finds the unit in a column's name, and none in a word's", () => {
    expect(split("divot_start_mm")).toEqual(["divot_start", "mm"]);
    expect(split("divot_begins")).toEqual(["divot_begins", ""]);
    expect(split("spin_rpm")).toEqual(["spin", "rpm"]);
  });

  it("reads a figure in whatever unit it was entered", () => {
    expect(figure([{ column: "divot_start_in", text: "-2" }], "divot_start_mm")).toBeCloseTo(-50.8);
    expect(figure([{ column: "curve_yd", text: "10" }], "curve_m")).toBeCloseTo(9.144);
    expect(figure([{ column: "club_speed_mph", text: "80" }], "club_speed_mps")).toBeCloseTo(35.76, 2);
  });

  it("does not take a word for a figure of the same name", () => {
    const seen = [{ column: "start", text: "left" }];
    expect(figure(seen, "start_deg")).toBeNull();
    expect(word(seen, "start")).toBe("left");
  });

  it("takes nonsense and blanks for not seen", () => {
    expect(figure([{ column: "curve_m", text: "far" }], "curve_m")).toBeNull();
    expect(figure([{ column: "curve_m", text: " " }], "curve_m")).toBeNull();
  });

  it("writes turf in inches, flight in yards and speed in miles an hour for a coach of yards", () => {
    expect(columnIn("divot_start_mm", "yards")).toBe("divot_start_in");
    expect(columnIn("carry_m", "yards")).toBe("carry_yd");
    expect(columnIn("apex_m", "yards")).toBe("apex_ft");
    expect(columnIn("ball_speed_mps", "yards")).toBe("ball_speed_mph");
    expect(columnIn("start_deg", "yards")).toBe("start_deg");
    expect(columnIn("carry_m", "metric")).toBe("carry_m");
  });

  it("comes back from an entry within half of its last digit", () => {
    for (const [column, value, slack] of [["divot_start_mm", -63, 1.3], ["strike_toe_mm", 4, 0.13], ["curve_m", -7.3, 0.05]] as const) {
      expect(Math.abs(figure([entry(column, value, "yards")], column)! - value)).toBeLessThan(slack);
    }
  });

  it("never writes a minus before nothing", () => {
    expect(entry("curve_m", -0.01, "metric").text).toBe("0");
  });

  it("knows the factors between units, and none between kinds", () => {
    expect(factor("yd", "m")).toBeCloseTo(0.9144);
    expect(factor("mps", "mph")).toBeCloseTo(2.2369, 3);
    expect(factor("deg", "m")).toBe(1);
  });
});

describe("entering", () => {
  it("replaces a thing in its place, whatever unit it had", () => {
    const seen = [{ column: "divot_start_in", text: "-2" }, { column: "contact", text: "fat" }];
    expect(withEntered(seen, "divot_start_mm", "-40")).toEqual([{ column: "contact", text: "fat" }, { column: "divot_start_mm", text: "-40" }]);
    expect(withEntered(seen, "contact", "thin")[1]).toEqual({ column: "contact", text: "thin" });
  });

  it("keeps the word start beside the figure start_deg", () => {
    const seen = withEntered([{ column: "start", text: "left" }], "start_deg", "-3");
    expect(seen).toHaveLength(2);
    expect(withEntered(seen, "start", null)).toEqual([{ column: "start_deg", text: "-3" }]);
  });
});

describe("saying", () => {
  it("says where along the line", () => {
    expect(along(-42, "metric")).toBe("4.2 cm behind");
    expect(along(-42, "yards")).toBe("1.7 in behind");
    expect(along(120, "metric")).toBe("12 cm ahead");
    expect(along(1, "metric")).toBe("at the ball");
    expect(fromBall(-42, "metric")).toBe("4.2 cm behind the ball");
    expect(fromBall(50.8, "yards")).toBe("2 in ahead of the ball");
    expect(fromBall(-1, "metric")).toBe("at the ball");
  });

  it("uses a true minus and the coach's unit", () => {
    expect(say(-3.26, "deg", "metric")).toBe("\u22123.3°");
    expect(say(100, "m", "yards", 0)).toBe("109 yd");
    expect(say(-0.01, "deg", "metric")).toBe("0.0°");
  });
});
