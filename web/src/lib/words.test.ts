import { afterEach, describe, expect, it, vi } from "vitest";
import type { Words } from "../contract.ts";
import { clubSays, day, fileColumnSays, headingSays, lookSays, partOf, rowSays, skillSays, waitingSays } from "./words.ts";

const words = { conditions: [{ name: "lead_leg", says: "weight on the lead leg" }] } as unknown as Words;

describe("what is waiting", () => {
  it("says nothing when nothing waits", () => {
    expect(waitingSays([], false, true)).toBe("");
  });

  it("names one entry, counts several, and says where they are", () => {
    expect(waitingSays([{ says: "swing 4" }], false, true)).toBe("Waiting for the server: swing 4; kept on this device.");
    expect(waitingSays([{ says: "swing 4" }, { says: "swing 5" }], false, true)).toBe("Waiting for the server: 2 entries, the newest: swing 5; kept on this device.");
  });

  it("warns when the browser keeps nothing", () => {
    expect(waitingSays([{ says: "swing 4" }], false, false)).toContain("do not close it");
  });
});

describe("the next look", () => {
  it("says a condition in the server's words, with its time", () => {
    expect(lookSays({ look: "condition", name: "lead_leg", condition: "lead_leg", swings: 5, seconds: 150 }, words)).toBe("5 swings, weight on the lead leg: about 3 minutes.");
  });

  it("says what to look at", () => {
    expect(lookSays({ look: "column", name: "divot_direction_deg", column: "divot_direction_deg", swings: 1, seconds: 12 }, words)).toBe("1 swing, looking at the divot direction: about 12 seconds.");
    expect(lookSays({ look: "column", name: "toe_heel", column: "toe_heel", swings: 5, seconds: 75 }, words)).toBe("5 swings, looking at the deeper side of the divot: about 75 seconds.");
  });

  it("says a file's columns with their units, and where a fault is", () => {
    expect(["divot_start_mm", "strike_toe_in", "start_deg", "start", "toe_heel", "club"].map(fileColumnSays)).toEqual([
      "divot start, mm", "strike across the face, in", "start direction, degrees", "start direction, in words", "deeper side of the divot", "club",
    ]);
    expect(["file:2:6, divot", "file:1:1", "text"].map(rowSays)).toEqual(["Row 2, divot", "Row 1", "text"]);
  });

  it("knows on which part of the pad a column is", () => {
    expect(partOf("divot_direction_deg")).toBe("turf");
    expect(partOf("strike_groove")).toBe("face");
    expect(partOf("curve")).toBe("flight");
    expect(partOf("contact")).toBe("contact");
    expect(partOf("shaft_lean_deg")).toBe("numbers");
  });
});

describe("clubs and skills", () => {
  it("are said as people say them", () => {
    expect(clubSays("7i")).toBe("7-iron");
    expect(clubSays("pw")).toBe("pitching wedge");
    expect(clubSays("driver")).toBe("driver");
    expect(headingSays("7i, left-handed, 12 swings")).toBe("7-iron, left-handed, 12 swings");
    expect(headingSays("pw, all of its swings")).toBe("Pitching wedge, all of its swings");
    expect(headingSays("Nothing seen yet")).toBe("Nothing seen yet");
    expect(skillSays("+2")).toBe("handicap +2");
    expect(skillSays("county")).toBe("county");
  });
});

describe("a day", () => {
  afterEach(() => vi.unstubAllGlobals());

  it.each([
    [["en-GB"], "7 Nov 2026"],
    [["en-US", "en"], "Nov 7, 2026"],
    [["de"], "7. Nov. 2026"],
    [["en-US@posix", "fr"], "7 nov. 2026"],
  ])("is written as %s does, in one piece", (languages, says) => {
    vi.stubGlobal("navigator", { languages });
    expect(day("2026-11-07T11:01:30Z")).toBe(says.replaceAll(" ", "\u00a0"));
  });

  it("that is none stays as it came", () => {
    expect(day("soon")).toBe("soon");
  });
});
