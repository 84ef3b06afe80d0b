import { describe, expect, it } from "vitest";
import { stage } from "../stage.ts";

const kills = Number(process.env.STRIKEWRIGHT_KILLS ?? 10);

/** A small generator with a seed: the same story every time. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
}

describe("a server that goes away", () => {
  const here = stage();

  it(`loses and doubles nothing when it is killed ${kills} times while balls go in`, async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}`, "phone");
    await hand.reading(0);
    const random = chance(41);
    const entered: number[] = [];
    const ball = async (): Promise<void> => {
      const start = -150 + entered.length;
      entered.push(start);
      await hand.touch("turf", [start, 0]);
      // A touch falls on a point of the screen: the millimetre that the page says is the one that must arrive.
      await hand.press(hand.button("Keep ball"));
    };
    for (let k = 0; k < kills; ++k) {
      if (random() < 0.5) await ball();
      const late = random() * 120;
      const killed = new Promise((done) => setTimeout(done, late)).then(() => here.server.kill());
      await ball();
      if (random() < 0.5) await ball();
      await killed;
      if (random() < 0.5) await ball();
      await here.server.run();
    }
    await hand.reading(entered.length);
    await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("strikewright.waits.")));
    const starts = (await here.server.swings(lesson)).map((one) => Number(one.seen[0]!.text));
    expect(starts).toHaveLength(entered.length);
    for (const [k, start] of starts.entries()) expect(Math.abs(start - entered[k]!)).toBeLessThanOrEqual(1);
  }, 30_000 + 8000 * kills);

  it("is said to be away, with what is waiting; and nothing waits after it came back", async () => {
    const { lesson } = await here.server.lesson();
    const { page, hand } = await here.page(`#/lesson/${lesson}`, "phone");
    await hand.reading(0);
    await here.server.kill();
    await hand.touch("turf", [30, 0]);
    await hand.press(hand.button("Keep ball"));
    await page.getByText("Waiting for the server: swing 1; kept on this device.").waitFor();
    await page.locator(".swings .waits").waitFor();
    await hand.touch("turf", [40, 0]);
    await hand.press(hand.button("Keep ball"));
    await page.getByText(/2 entries, the newest: swing 2/).waitFor();
    await here.server.run();
    await hand.reading(2);
    await page.getByText("Waiting for the server").waitFor({ state: "hidden" });
    expect((await here.server.swings(lesson)).map((one) => one.number)).toEqual([1, 2]);
  });

  it("keeps a lesson that was begun while it was away", async () => {
    const { pupil } = await here.server.lesson();
    const { page, hand } = await here.page(`#/pupil/${pupil}`, "phone");
    await page.getByRole("button", { name: "Begin a lesson" }).waitFor();
    await here.server.kill();
    await hand.press(hand.button("Begin a lesson"));
    await hand.touch("turf", [30, 0]);
    await hand.press(hand.button("Keep ball"));
    await page.getByText(/Waiting for the server: 2 entries/).waitFor();
    await here.server.run();
    await hand.reading(1);
    const file = await here.server.ask<{ lessons: { swings: number }[] }>("GET", `api/pupils/${pupil}`);
    expect(file.lessons.map((line) => line.swings).sort()).toEqual([0, 1]);
  });
});

describe("two devices in one lesson", () => {
  const here = stage();

  it("see each other's balls, corrections and readings", async () => {
    const { lesson } = await here.server.lesson();
    const phone = await here.page(`#/lesson/${lesson}`, "phone");
    const laptop = await here.page(`#/lesson/${lesson}`, "laptop");
    await Promise.all([phone.hand.reading(0), laptop.hand.reading(0)]);
    await phone.hand.touch("turf", [-40, 0]);
    await phone.hand.press(phone.hand.button("Keep ball"));
    await laptop.hand.reading(1);
    await laptop.page.getByText("divot from 4 cm behind").waitFor();
    await laptop.hand.touch("turf", [20, 0]);
    await laptop.hand.press(laptop.hand.button("Keep ball"));
    await phone.hand.reading(2);
    await laptop.hand.press(laptop.hand.button("Remove swing 1"));
    await phone.hand.reading(1);
    expect((await here.server.swings(lesson)).map((one) => one.number)).toEqual([2]);
  });

  it("lose nothing when both enter at once", async () => {
    const { lesson } = await here.server.lesson();
    const phone = await here.page(`#/lesson/${lesson}`, "phone");
    const laptop = await here.page(`#/lesson/${lesson}`, "laptop");
    await Promise.all([phone.hand.reading(0), laptop.hand.reading(0)]);
    const five = async ({ hand }: typeof phone): Promise<void> => {
      for (let k = 1; k <= 5; ++k) {
        await hand.touch("turf", [10 * k, 0]);
        await hand.press(hand.button("Keep ball"));
      }
    };
    await Promise.all([five(phone), five(laptop)]);
    await Promise.all([phone.hand.reading(10), laptop.hand.reading(10)]);
    expect((await here.server.swings(lesson)).map((one) => one.number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  });
});
