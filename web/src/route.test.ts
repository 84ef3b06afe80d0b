import { describe, expect, it } from "vitest";
import { hashOf, placeOf, type Place } from "./route.ts";

describe("addresses", () => {
  it("come back to the same screen", () => {
    const places: Place[] = [
      { screen: "pupils" }, { screen: "add" }, { screen: "pupil", id: "p-1" }, { screen: "edit", id: "p-1" },
      { screen: "lesson", id: "l-1" }, { screen: "import", id: "l-1" }, { screen: "sheet", id: "l-1" }, { screen: "given", id: "g-1" },
      { screen: "exercises", id: "l-1" }, { screen: "exercise", id: "l-1", name: "towel_behind_ball" }, { screen: "write", id: "l-1", from: "" }, { screen: "write", id: "l-1", from: "towel_behind_ball" }, { screen: "change", id: "l-1", name: "my_towel" }, { screen: "flail", lesson: null }, { screen: "flail", lesson: "l-1" }, { screen: "settings" },
    ];
    for (const place of places) expect(placeOf(hashOf(place))).toEqual(place);
  });

  it("of an exercise that cannot be called so lead to the list", () => {
    expect(placeOf("#/lesson/l-1/exercises/<b>")).toEqual({ screen: "exercises", id: "l-1" });
    expect(placeOf("#/lesson/l-1/write/<b>")).toEqual({ screen: "write", id: "l-1", from: "" });
    expect(placeOf("#/lesson/l-1/change/<b>")).toEqual({ screen: "lesson", id: "l-1" });
  });

  it("that nobody made lead to the pupils", () => {
    for (const hash of ["", "#", "#/nowhere", "#/lesson/../x", "#/lesson/<b>", "#/pupil/"]) expect(placeOf(hash)).toEqual({ screen: "pupils" });
  });
});
