import { describe, expect, it } from "vitest";
import { both, stage } from "../stage.ts";

describe.each(both)("the flail on a %s", (size) => {
  const here = stage();

  it("moves another way, and leaves this pupil where he is", async () => {
    const { lesson } = await here.server.lesson({ name: "Isa Thornley" }, [[{ column: "divot_start_mm", text: "-40" }], [{ column: "divot_start_mm", text: "-20" }]]);
    const { page } = await here.page(`#/flail/${lesson}`, size);
    await page.getByRole("heading", { name: "Flail: Isa Thornley" }).waitFor();
    const ours = page.getByRole("region", { name: "This pupil" }).locator(".says");
    const other = page.getByRole("region", { name: "Another way" }).locator(".says");
    await other.waitFor();
    const before = await ours.innerText();
    expect(await other.innerText()).toBe(before);
    for (const lever of ["weight_mm", "release_ms", "height_mm", "handle_deg", "face_turn_deg"]) {
      const slider = page.locator(`#lever-${lever}`);
      // The last lever's picture has come when the next one is moved.
      await page.waitForTimeout(200);
      const there = await other.locator("..").innerHTML();
      await slider.focus();
      for (let k = 0; k < 12; ++k) await page.keyboard.press("ArrowRight");
      await page.waitForFunction((was) => document.querySelectorAll("section.way")[1]!.innerHTML !== was, there);
      expect(await slider.getAttribute("aria-valuetext")).not.toBe("as now");
    }
    expect(await ours.innerText()).toBe(before);
    await page.getByRole("button", { name: "All as now" }).click();
    await page.waitForFunction((was) => (document.querySelectorAll("section.way .says")[1] as HTMLElement).innerText === was, before);
  });

  it("keeps the pictures in sight while the last lever is moved", async () => {
    const { page } = await here.page("#/flail", size);
    await page.locator(".club").nth(1).waitFor();
    const own = page.viewportSize()!;
    for (const [width, height] of [[own.width, own.height], [360, 640], [640, 360]] as const) {
      await page.setViewportSize({ width, height });
      const lever = page.locator("#lever-face_turn_deg");
      await page.locator("h1").focus();
      await lever.focus();
      const [pictures, slider] = [(await page.locator("section.way svg").first().boundingBox())!, (await lever.boundingBox())!];
      expect(pictures.y).toBeGreaterThanOrEqual(0);
      expect(pictures.y + pictures.height).toBeLessThanOrEqual(height);
      expect(slider.y + slider.height).toBeLessThanOrEqual(height);
      const onTop = await lever.evaluate((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return document.elementFromPoint(x + width / 2, y + height / 2) === element;
      });
      expect({ width, onTop }).toEqual({ width, onTop: true });
    }
  });

  it("shows what the same noise makes of both ways", async () => {
    const { page } = await here.page("#/flail", size);
    await page.getByRole("heading", { name: "The handle leads" }).waitFor();
    await page.getByRole("heading", { name: "The wrists drive" }).waitFor();
    const spread = page.getByText(/^From ball to ball: low point ±/);
    expect(await spread.count()).toBe(2);
    const before = await spread.first().innerText();
    await page.getByLabel(/^Noise/).fill("3");
    await page.waitForFunction((was) => [...document.querySelectorAll("p.small")].some((p) => /^\s*From ball/.test(p.textContent!) && (p as HTMLElement).innerText !== was), before);
  });

  it("stands still at contact where motion is unwelcome, and can be moved by hand", async () => {
    const { page } = await here.page("#/flail", size);
    await page.getByText(/Time 0 ms from contact/).waitFor();
    const club = page.locator(".club").first();
    await club.waitFor();
    const at = await club.getAttribute("x2");
    await page.waitForTimeout(300);
    expect(await club.getAttribute("x2")).toBe(at);
    await page.locator("#flail-time").focus();
    for (let k = 0; k < 30; ++k) await page.keyboard.press("ArrowLeft");
    expect(await club.getAttribute("x2")).not.toBe(at);
  });
});
