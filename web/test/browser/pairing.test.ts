import { describe, expect, it } from "vitest";
import type { Page } from "playwright-core";
import { violations } from "../axe.ts";
import { stage } from "../stage.ts";

interface Shown {
  url: string;
  code: string;
}

// As a phone on the same network sees the page: at the machine's own address, by HTTPS. A machine without a network has no
// such address, and then the server itself refuses to share: these tests fail there, they do not pass silently.
describe("a phone on the same network", () => {
  const here = stage("--share");
  const shown = (): Promise<Shown> => here.server.ask<Shown>("GET", "api/pairing");
  const enter = async (page: Page, code: string, name: string): Promise<void> => {
    await page.getByLabel("Pairing code").fill(code);
    await page.getByLabel(/^A name for this device/).fill(name);
    await page.getByRole("button", { name: "Pair" }).tap();
  };

  it("sees the pairing page and nothing of the book", async () => {
    const { lesson } = await here.server.lesson({ name: "Isa Thornley" });
    const { page } = await here.at(`${(await shown()).url}#/lesson/${lesson}`, "phone");
    await page.getByRole("heading", { name: "Pair this device" }).waitFor();
    expect(await page.locator("body").innerText()).not.toContain("Thornley");
    expect(await page.evaluate(async (path) => (await fetch(path)).status, `/api/lessons/${lesson}`)).toBe(401);
  });

  it.each(["light", "dark"] as const)("shows nothing that axe objects to, in the %s", async (theme) => {
    const { page } = await here.at((await shown()).url, "phone", theme);
    await page.getByRole("heading", { name: "Pair this device" }).waitFor();
    expect(await violations(page)).toEqual([]);
    await enter(page, "no code", "stranger");
    await page.getByRole("alert").waitFor();
    expect(await violations(page)).toEqual([]);
  });

  it("opens the lesson once it is paired, and is shut out once it is unpaired", async () => {
    const { lesson } = await here.server.lesson({ name: "Isa Thornley" });
    const { url, code } = await shown();
    const { page, hand } = await here.at(`${url}#/lesson/${lesson}`, "phone");
    await enter(page, code, "pocket phone");
    await hand.reading(0);
    await hand.touch("turf", [-40, 0]);
    await hand.press(hand.button("Keep ball"));
    await hand.reading(1);
    expect((await shown()).code).not.toBe(code);

    const laptop = await here.page("#/settings", "laptop");
    await laptop.page.getByText("pocket phone").first().waitFor();
    await laptop.hand.press(laptop.hand.button("Unpair pocket phone"));
    await laptop.page.getByText("No paired device.").waitFor();

    // What the phone enters now waits on it, and goes in when it has been paired again.
    await hand.touch("turf", [20, 0]);
    await hand.press(hand.button("Keep ball"));
    await page.getByRole("heading", { name: "Pair this device" }).waitFor();
    expect(await here.server.swings(lesson)).toHaveLength(1);
    await enter(page, (await shown()).code, "pocket phone");
    await hand.reading(2);
    expect(await here.server.swings(lesson)).toHaveLength(2);
  });

  it("is told that a code is wrong, and has to wait after five", async () => {
    const { url, code } = await shown();
    const { page } = await here.at(url, "phone");
    await page.getByRole("heading", { name: "Pair this device" }).waitFor();
    const wrong = code === "00000000" ? "11111111" : "00000000";
    for (let k = 0; k < 5; ++k) {
      const answered = page.waitForResponse((reply) => reply.url().endsWith("/api/pairing"));
      await enter(page, wrong, "stranger");
      expect((await answered).status()).toBeGreaterThanOrEqual(400);
      await page.getByRole("alert").waitFor();
    }
    const answered = page.waitForResponse((reply) => reply.url().endsWith("/api/pairing"));
    await enter(page, (await shown()).code, "stranger");
    expect((await answered).status()).toBe(429);
    expect((await here.server.ask<{ devices: { name: string }[] }>("GET", "api/devices")).devices.map((one) => one.name)).not.toContain("stranger");
  });
});
