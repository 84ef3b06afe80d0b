// What every browser test stands on: one server and one browser a file, a page a test, no complaint left unheard.

import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect } from "vitest";
import { launch, open, type Screen, type Size } from "./browser.ts";
import { HandAt } from "./hand.ts";
import { Server } from "./server.ts";

export interface Stage {
  server: Server;
  browser: Browser;
  /** A page of its own on a place of the server. */
  page(hash: string, size: Size, theme?: "light" | "dark"): Promise<Screen & { hand: HandAt }>;
}

export function stage(): Stage {
  const screens: Screen[] = [];
  const here = {} as Stage;
  beforeAll(async () => {
    here.server = await Server.start();
    here.browser = await launch();
  });
  afterEach(async () => {
    for (const screen of screens.splice(0)) {
      const { complaints } = screen;
      await screen.context.close();
      expect(complaints).toEqual([]);
    }
  });
  afterAll(async () => {
    await here.browser?.close();
    await here.server?.end();
  });
  here.page = async (hash, size, theme = "light") => {
    const screen = await open(here.browser, here.server.url + hash, size, theme);
    screens.push(screen);
    screen.page.setDefaultTimeout(10_000);
    return { ...screen, hand: new HandAt(screen.page, size) };
  };
  return here;
}

export const both: Size[] = ["phone", "laptop"];
