import { describe, expect, it } from "vitest";
import { matches } from "./search.ts";

describe("finding by words", () => {
  const texts = ["Trail leg, then lead leg", "Two marks in the turf", "Handtuch für später"];
  it("finds beginnings of words, in any order and case", () => {
    expect(matches("LEAD tra", texts)).toBe(true);
    expect(matches("", texts)).toBe(true);
    expect(matches("  fur ", texts)).toBe(true);
  });
  it("finds neither the middle of a word nor what is only half there", () => {
    expect(matches("ead", texts)).toBe(false);
    expect(matches("lead towel", texts)).toBe(false);
  });
});
