// What the page costs: prints size, first paint, time from the last touch to the new reading, frames of the flail, and
// the server's start and memory. Times are this machine's; run it on an idle one. npm run figures [-- SWINGS]

import { readFileSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { CDPSession, Page } from "playwright-core";
import { launch, open } from "./browser.ts";
import { HandAt } from "./hand.ts";
import { Server } from "./server.ts";

const swings = Number(process.argv[2] ?? 60);
const kTimes = 11;
const kSlower = 4;

function say(what: string, value: number, unit: string, goal: string): void {
  console.log(`${what.padEnd(58)} ${value.toFixed(value < 10 ? 1 : 0).padStart(6)} ${unit.padEnd(9)} goal ${goal}`);
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

async function slowed(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: kSlower });
  return session;
}

/** A made-up lesson: where divots begin and how far the ball goes. */
function seen(k: number): { column: string; text: string }[] {
  return [
    { column: "divot_start_mm", text: String(-40 + ((k * 37) % 60)) },
    { column: "contact", text: k % 4 === 0 ? "fat" : "clean" },
    { column: "start_deg", text: String(((k * 13) % 9) - 4) },
    { column: "carry_m", text: String(118 + ((k * 7) % 12)) },
  ];
}

async function firstPaint(url: string): Promise<number> {
  const browser = await launch();
  const screen = await open(browser, "about:blank", "phone");
  await slowed(screen.page);
  await screen.page.goto(url);
  await screen.page.getByRole("heading", { name: "Pupils" }).waitFor();
  const paint = await screen.page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]!.startTime);
  await browser.close();
  return paint;
}

/** From the touch that keeps a ball to the reading that has it. */
async function untilRead(server: Server): Promise<number> {
  const { lesson } = await server.lesson({ name: "Figure Pupil" }, Array.from({ length: swings }, (_, k) => seen(k)));
  const browser = await launch();
  const { page } = await open(browser, `${server.url}#/lesson/${lesson}`, "phone");
  const hand = new HandAt(page, "phone");
  await hand.reading(swings);
  const times: number[] = [];
  for (let k = 0; k < kTimes; ++k) {
    await hand.press(hand.button(/^Fat$/));
    const from = Date.now();
    await hand.press(hand.button("Keep ball"));
    await page.waitForFunction((n) => document.querySelector(`section.reading[data-n="${n}"][aria-busy="false"]`), swings + k + 1, { polling: "raf" });
    times.push(Date.now() - from);
  }
  await browser.close();
  return median(times);
}

/** Frames a second while a slider of the flail is moved, the flail running. */
async function framesOfFlail(server: Server): Promise<number> {
  const browser = await launch();
  const { page } = await open(browser, "about:blank", "phone");
  await page.emulateMedia({ reducedMotion: "no-preference" });
  await page.goto(`${server.url}#/flail`);
  await page.locator(".club").first().waitFor();
  await slowed(page);
  const frames = await page.evaluate(async () => {
    const slider = document.querySelector<HTMLInputElement>("#lever-release_ms")!;
    const begun = performance.now();
    let count = 0;
    while (performance.now() - begun < 3000) {
      await new Promise(requestAnimationFrame);
      ++count;
      slider.value = String(Math.round(20 * Math.sin(count / 20)));
      slider.dispatchEvent(new Event("input", { bubbles: true }));
    }
    return (1000 * count) / (performance.now() - begun);
  });
  await browser.close();
  return frames;
}

function memory(pid: number): number {
  const line = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, "utf8"));
  return Number(line![1]) / 1024;
}

const script = process.env.PAGE_SCRIPT ?? fileURLToPath(new URL("../../build/page/app.js.gz", import.meta.url));
say("script, gzipped", statSync(script).size / 1000, "kB", "< 150");
const begun = Date.now();
const server = await Server.start();
say("server: start to first answer", Date.now() - begun, "ms", "< 150");
await server.lesson();
say(`first paint, processor ${kSlower} times slower`, await firstPaint(server.url), "ms", "< 1000");
say(`last touch to new reading, ${swings} swings, median of ${kTimes}`, await untilRead(server), "ms", "< 300");
say(`flail with a slider moving, processor ${kSlower} times slower`, await framesOfFlail(server), "frames/s", ">= 50");
say("server: memory after all that", memory(server.pid), "MB", "< 60");
await server.end();
