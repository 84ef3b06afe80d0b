// Whether a screen fits a thumb and its window.

import type { Page } from "playwright-core";

/** What is there to be touched and is smaller than a thumb, as short lines. */
export function tooSmall(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("button, select, summary, textarea, input:not([type=checkbox]), .check, a.button, nav a, .pupil, .lesson, .given, .title, .line")]
      .filter((one) => one.offsetParent !== null && (one.offsetHeight < 44 || one.offsetWidth < 44))
      .map((one) => `${one.tagName} ${one.textContent} ${one.offsetWidth}x${one.offsetHeight}`),
  );
}

/** By how many px a screen is wider than its window. */
export function tooWide(page: Page): Promise<number> {
  return page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - innerWidth));
}
