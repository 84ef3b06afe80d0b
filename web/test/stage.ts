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
  /** The same at another address of the server. */
  at(url: string, size: Size, theme?: "light" | "dark"): Promise<Screen & { hand: HandAt }>;
}

export function stage(...options: string[]): Stage {
  const screens: Screen[] = [];
  const here = {} as Stage;
  beforeAll(async () => {
    here.server = await Server.start(...options);
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
  here.page = (hash, size, theme) => here.at(here.server.url + hash, size, theme);
  here.at = async (url, size, theme = "light") => {
    const screen = await open(here.browser, url, size, theme);
    screens.push(screen);
    screen.page.setDefaultTimeout(10_000);
    return { ...screen, hand: new HandAt(screen.page, size) };
  };
  return here;
}

export const both: Size[] = ["phone", "laptop"];
