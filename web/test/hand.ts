// A hand at the page: touches the pad's pictures with a finger or a mouse, and counts.

import type { Locator, Page } from "playwright-core";
import type { Size } from "./browser.ts";

export class HandAt {
  touches = 0;

  constructor(
    private readonly page: Page,
    private readonly size: Size,
  ) {}

  private async at(part: string, x: number, y: number): Promise<{ x: number; y: number }> {
    const svg = this.page.locator(`svg[data-part="${part}"]`);
    await svg.evaluate((element) => element.scrollIntoView({ block: "center" }));
    return svg.evaluate((element, [u, v]) => {
      const place = new DOMPoint(u, v).matrixTransform((element as unknown as SVGSVGElement).getScreenCTM()!);
      return { x: place.x, y: place.y };
    }, [x, y] as const);
  }

  /** Touches a picture in its own coordinates, and draws to another place where one is given. */
  async touch(part: "turf" | "face" | "flight", from: [number, number], to: [number, number] = from): Promise<void> {
    const a = await this.at(part, ...from);
    const b = await this.at(part, ...to);
    ++this.touches;
    if (this.size === "laptop") {
      await this.page.mouse.move(a.x, a.y);
      await this.page.mouse.down();
      await this.page.mouse.move((a.x + b.x) / 2, (a.y + b.y) / 2);
      await this.page.mouse.move(b.x, b.y);
      await this.page.mouse.up();
      return;
    }
    const session = await this.page.context().newCDPSession(this.page);
    const send = (type: "touchStart" | "touchMove" | "touchEnd", points: { x: number; y: number }[]): Promise<unknown> =>
      session.send("Input.dispatchTouchEvent", { type, touchPoints: points });
    await send("touchStart", [a]);
    for (let k = 1; k <= 4; ++k) await send("touchMove", [{ x: a.x + ((b.x - a.x) * k) / 4, y: a.y + ((b.y - a.y) * k) / 4 }]);
    await send("touchEnd", []);
    await session.detach();
  }

  async press(what: Locator): Promise<void> {
    ++this.touches;
    if (this.size === "phone") await what.tap();
    else await what.click();
  }

  button(name: string | RegExp): Locator {
    return this.page.getByRole("button", { name });
  }

  /** Waits for the reading of so many swings. */
  async reading(swings: number): Promise<string> {
    const reading = this.page.locator(`section.reading[data-n="${swings}"][aria-busy="false"]`);
    await reading.waitFor();
    return reading.innerText();
  }
}
