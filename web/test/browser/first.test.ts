import { describe, expect, it } from "vitest";
import { both, stage } from "../stage.ts";

describe.each(both)("an empty book on a %s", (size) => {
  const here = stage();

  it("leads from the first start to the first reading", async () => {
    const { page, hand } = await here.page("", size);
    await page.getByRole("heading", { name: "The book is empty" }).waitFor();
    expect(await page.getByRole("navigation").count()).toBe(0);
    expect(await page.locator("main").getByRole("link").or(page.locator("main").getByRole("button")).count()).toBe(2);

    await page.getByRole("link", { name: "Enter a first pupil" }).click();
    await page.getByLabel("Name").fill("Isa Thornley");
    await page.getByRole("button", { name: "Keep" }).click();
    await page.getByRole("button", { name: "Begin a lesson" }).click();
    expect(await hand.reading(0)).toContain("No swing yet");

    await hand.touch("turf", [-40, 0], [90, 6]);
    await hand.press(hand.button("Keep ball"));
    const said = await hand.reading(1);
    expect(said).toMatch(/low point/i);
    expect(await page.locator(".reading svg[role=img]").count()).toBeGreaterThanOrEqual(4);
  });
});

describe("an empty book", () => {
  const here = stage();

  it("takes the invented pupils once they are asked for", async () => {
    const { page } = await here.page("", "laptop");
    await page.getByRole("button", { name: /invented/ }).click();
    await page.locator(".pupil").nth(2).waitFor();
    expect(await page.locator(".pupil").count()).toBe(3);
  });
});
