// Chromium for tests and screenshots: Debian's own, a fresh profile, no background traffic.

import { chromium, type Browser, type BrowserContext, type Page } from "playwright-core";

export const sizes = {
  phone: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 },
  laptop: { viewport: { width: 1440, height: 900 }, hasTouch: false, isMobile: false, deviceScaleFactor: 1 },
} as const;
export type Size = keyof typeof sizes;

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      // Two cores: a process for the graphics, and one for each page, cost more than the pages.
      "--in-process-gpu",
      "--disable-software-rasterizer",
      "--renderer-process-limit=1",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

export interface Screen {
  context: BrowserContext;
  page: Page;
  /** What the page complained about: faults in the console, refused by the content policy, thrown. */
  complaints: string[];
}

export async function open(browser: Browser, url: string, size: Size, theme: "light" | "dark" = "light"): Promise<Screen> {
  const context = await browser.newContext({ ...sizes[size], colorScheme: theme, reducedMotion: "reduce", ignoreHTTPSErrors: true, locale: "en-GB" });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (message) => {
    // A server that is away is what some tests are about; the browser writes it to the console by itself.
    if (message.type() === "error" && !/Failed to load resource|net::ERR/.test(message.text())) complaints.push(message.text());
  });
  await page.goto(url);
  return { context, page, complaints };
}
