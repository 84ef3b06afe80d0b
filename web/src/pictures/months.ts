// Where things lie in the picture of the months: lessons by their day, figures in panels under one another, and what was
// given as bars beneath them.

import type { Progress, Spread } from "../contract_given.ts";
import { stepFor } from "./proof.ts";

export const sheet = { width: 340, left: 44, right: 330 };

export const dayNumber = (iso: string): number => Math.round(Date.parse(`${iso.slice(0, 10)}T00:00:00Z`) / 86_400_000);

/** Days to the picture's width; one day alone lies in the middle. */
export function timeScale(days: number[]): (day: number) => number {
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const [from, to] = [sheet.left + 14, sheet.right - 14];
  return (day) => (last === first ? (from + to) / 2 : from + ((Math.max(first, Math.min(last, day)) - first) / (last - first)) * (to - from));
}

export interface Panel {
  y: (value: number) => number;
  ticks: number[];
}

/** A panel from `top` to `bottom` that holds all intervals and nothing, the larger value on top. */
export function panel(spreads: Spread[], top: number, bottom: number): Panel {
  const low = Math.min(0, ...spreads.map((one) => one.p10));
  const high = Math.max(0, ...spreads.map((one) => one.p90));
  const room = (high - low || 1) * 0.08;
  const [least, most] = [low < 0 ? low - room : 0, high + room];
  const step = stepFor((most - least) * (bottom - top < 90 ? 2 : 1));
  const first = Math.ceil(least / step);
  return {
    y: (value) => bottom - ((value - least) / (most - least)) * (bottom - top),
    ticks: Array.from({ length: Math.floor(most / step) - first + 1 }, (_, k) => (first + k) * step),
  };
}

export interface Bar {
  id: string;
  title: string;
  from: number;
  to: number;
  /** Where its title stands: from its beginning, or up to the picture's right end where there is no room. */
  title_at: number;
  title_ends: boolean;
  /** Is it still being done? */
  open: boolean;
  lane: number;
}

/** Width of a letter of the titles, on average. */
const letter = 5.8;

/** What was given as bars, each in the first lane where it and its title have room. */
export function bars(given: Progress["given"], x: (day: number) => number, last: number): Bar[] {
  const ends: number[] = [];
  return given.map((one) => {
    const from = x(dayNumber(one.from));
    const to = Math.max(from + 5, x(one.to ? dayNumber(one.to) : last));
    const wide = letter * one.title.length;
    const title_ends = from + wide > sheet.right;
    const begins = title_ends ? Math.min(from, sheet.right - wide) : from;
    let lane = ends.findIndex((end) => end < begins - 4);
    if (lane < 0) lane = ends.push(0) - 1;
    ends[lane] = Math.max(to + 5, title_ends ? sheet.right : from + wide);
    return { id: one.id, title: one.title, from, to, title_at: title_ends ? sheet.right : from, title_ends, open: one.to === null, lane };
  });
}
