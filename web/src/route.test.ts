import { describe, expect, it } from "vitest";
import { hashOf, placeOf, type Place } from "./route.ts";

describe("addresses", () => {
  it("come back to the same screen", () => {
    const places: Place[] = [
      { screen: "pupils" }, { screen: "add" }, { screen: "pupil", id: "p-1" }, { screen: "edit", id: "p-1" },
      { screen: "lesson", id: "l-1" }, { screen: "import", id: "l-1" }, { screen: "flail", lesson: null }, { screen: "flail", lesson: "l-1" }, { screen: "settings" },
    ];
    for (const place of places) expect(placeOf(hashOf(place))).toEqual(place);
  });

  it("that nobody made lead to the pupils", () => {
    for (const hash of ["", "#", "#/nowhere", "#/lesson/../x", "#/lesson/<b>", "#/pupil/"]) expect(placeOf(hash)).toEqual({ screen: "pupils" });
  });
});
