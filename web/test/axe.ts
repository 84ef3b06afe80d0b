// What axe objects to on a page.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What axe finds, as short lines. Evaluated by the browser's debugger, which the content policy does not hold back. */
export async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const runner = (window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { target: unknown; failureSummary?: string }[] }[] }> } }).axe;
    const found = await runner.run();
    return found.violations.flatMap((one) => one.nodes.map((node) => `${one.id}: ${String(node.target)} ${node.failureSummary ?? ""}`));
  });
}
