import { describe, expect, it } from "vitest";
import { both, stage } from "../stage.ts";

// Invented. One column has our name, one is named otherwise, one is of no use here.
const table = "divot_start_mm;Mark toe;weather\n-42;6;dry\n-10;-3;dry\n25;;wet\n";

describe.each(both)("a file of swings on a %s", (size) => {
  const here = stage();

  it("comes in with the mapping that is chosen", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}/import`, size);
    await page.getByLabel("File").setInputFiles({ name: "range.csv", mimeType: "text/csv", buffer: Buffer.from(table) });
    await page.getByLabel("“Mark toe”").selectOption("strike_toe_mm");
    await page.getByLabel(/“weather”/).selectOption("");
    await hand.press(hand.button("Take 3 swings into the lesson"));
    await hand.reading(3);
    const swings = await here.server.swings(lesson);
    expect(swings.map((one) => one.seen.find((entered) => entered.column === "divot_start_mm")?.text)).toEqual(["-42", "-10", "25"]);
    expect(swings.map((one) => one.seen.find((entered) => entered.column === "strike_toe_mm")?.text)).toEqual(["6", "-3", undefined]);
  });

  it("comes in once, however often it is taken", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}/import`, size);
    await page.getByLabel("File").setInputFiles({ name: "range.csv", mimeType: "text/csv", buffer: Buffer.from("divot_start_mm\n-42\n") });
    await hand.press(hand.button("Take 1 swing into the lesson"));
    await hand.reading(1);
    await page.goBack();
    await page.goForward();
    await hand.reading(1);
    expect(await here.server.swings(lesson)).toHaveLength(1);
  });

  it("says what is in the way, and takes nothing", async () => {
    const { lesson } = await here.server.lesson();
    const { page } = await here.page(`#/lesson/${lesson}/import`, size);
    await page.getByLabel("File").setInputFiles({ name: "range.csv", mimeType: "text/csv", buffer: Buffer.from("divot_start_mm\n-42\nfar\n") });
    await page.getByText(/^Row 3, divot_start_mm: found .*far/).waitFor();
    await page.getByText(/choose another column above/).waitFor();
    expect(await page.getByRole("button", { name: /^Take/ }).count()).toBe(0);
    expect(await here.server.swings(lesson)).toEqual([]);
  });
});
