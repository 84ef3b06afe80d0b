import { describe, expect, it } from "vitest";
import { both, stage } from "../stage.ts";

describe.each(both)("pupils on a %s", (size) => {
  const here = stage();

  it("are found by a part of the name, and changed", async () => {
    await here.server.lesson({ name: "Isa Thornley" });
    await here.server.lesson({ name: "Bram Ferrier", hand: "left" });
    const { page, hand } = await here.page("", size);
    await page.getByLabel("Search by name").fill("ferr");
    await page.getByText("Isa Thornley").waitFor({ state: "hidden" });
    await hand.press(page.getByText("Bram Ferrier"));
    await hand.press(page.getByRole("link", { name: "Change" }));
    await page.getByLabel("Skill", { exact: true }).selectOption("handicap");
    await page.getByLabel(/^Handicap/).fill("14");
    await page.getByLabel(/^Height/).fill("181");
    await page.getByLabel(/^Cautions/).fill("Left knee.");
    await hand.press(hand.button("Keep"));
    await page.getByText("Left-handed, handicap 14, 181 cm tall").waitFor();
    await page.getByText("Left knee.").waitFor();
  });

  it("are told what is wrong with what was entered, and nothing is kept of it", async () => {
    const { page, hand } = await here.page("#/add", size);
    await page.getByLabel("Name").fill("Nobody Yet");
    await page.getByLabel(/^Height/).fill("900");
    await hand.press(hand.button("Keep"));
    await page.getByRole("alert").waitFor();
    expect((await here.server.ask<{ pupils: unknown[] }>("GET", "api/pupils?search=Nobody&most=5&skip=0")).pupils).toEqual([]);
    await page.getByLabel(/^Height/).fill("170");
    await hand.press(hand.button("Keep"));
    await page.getByRole("heading", { name: "Nobody Yet" }).waitFor();
  });

  it("lose a lesson only when it is asked for twice", async () => {
    const { pupil, lesson } = await here.server.lesson({ name: "Hale Corrigan" }, [[{ column: "contact", text: "fat" }]]);
    const { page, hand } = await here.page(`#/lesson/${lesson}`, size);
    await hand.reading(1);
    await page.getByText("Remove this lesson").click();
    await hand.press(hand.button("Remove the lesson"));
    await hand.press(hand.button("Leave it"));
    expect(await here.server.swings(lesson)).toHaveLength(1);
    await hand.press(hand.button("Remove the lesson"));
    await hand.press(hand.button("Remove for good"));
    await page.getByText("The lesson is removed, with 1 swing.").waitFor();
    await page.getByRole("heading", { name: "Hale Corrigan" }).waitFor();
    await page.getByText("No lesson yet.").waitFor();
    await expect(here.server.ask("GET", `api/lessons/${lesson}`)).rejects.toThrow("404");
    await here.server.ask("GET", `api/pupils/${pupil}`);
  });

  it("are erased only when the name is typed", async () => {
    const { pupil } = await here.server.lesson({ name: "Wren Tolley" }, [[{ column: "contact", text: "fat" }]]);
    const { page, hand } = await here.page(`#/pupil/${pupil}`, size);
    await page.getByText("Erase this pupil").click();
    const erase = hand.button("Erase for good");
    expect(await erase.isDisabled()).toBe(true);
    await page.getByLabel(/^The pupil's name/).fill("Wren");
    expect(await erase.isDisabled()).toBe(true);
    await page.getByLabel(/^The pupil's name/).fill("Wren Tolley");
    await hand.press(erase);
    await page.getByText("Erased, with 1 lesson and 1 swing.").waitFor();
    await expect(here.server.ask("GET", `api/pupils/${pupil}`)).rejects.toThrow("404");
  });
});
