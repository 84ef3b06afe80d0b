// A swing in one line, and the lesson as it will be when everything that waits has gone in.

import type { Entered, Lesson, Swing, Units } from "../contract.ts";
import type { Entry } from "../outbox.ts";
import { plain } from "./words.ts";
import { divotBegins, figure, say, split, word } from "./units.ts";

/** A new record's name: lower-case letters and digits, sorted by time. */
export function newId(kind: string): string {
  const noise = crypto.getRandomValues(new Uint32Array(2));
  return `${kind}-${Date.now().toString(36)}-${noise[0]!.toString(36)}${noise[1]!.toString(36)}`.slice(0, 40);
}

const side = (degrees: number): string => (degrees > 0 ? "right" : "left");

/** What was seen, in the coach's words. */
export function summary(seen: Entered[], units: Units): string {
  const parts: string[] = [];
  const told = new Set<string>();
  const tell = (columns: string[], text: string | null): void => {
    if (text === null) return;
    parts.push(text);
    columns.forEach((column) => told.add(kind(column)));
  };
  tell(["contact"], word(seen, "contact"));
  const divot = word(seen, "divot");
  const start = figure(seen, "divot_start_mm");
  const direction = figure(seen, "divot_direction_deg");
  if (divot === "none") tell(["divot"], "no divot");
  else {
    const begins = start === null ? (divot ? `${divot} divot` : null) : divotBegins(start, units);
    tell(["divot", "divot_start_mm", "divot_end_mm"], begins);
  }
  if (direction !== null) tell(["divot_direction_deg"], `pointing ${Math.abs(direction) < 0.5 ? "straight" : `${say(Math.abs(direction), "deg", units, 0)} ${side(direction)}`}`);
  const toe = figure(seen, "strike_toe_mm");
  const up = figure(seen, "strike_up_mm");
  if (toe !== null) tell(["strike_toe_mm"], `struck ${Math.abs(toe) < 1.5 ? "in the middle" : `${say(Math.abs(toe), "mm", units)} ${toe > 0 ? "toe" : "heel"}`}`);
  if (up !== null) tell(["strike_up_mm"], `${toe === null ? "struck " : ""}${say(Math.abs(up), "mm", units)} ${up < 0 ? "under the leading edge" : "up"}`);
  const started = figure(seen, "start_deg");
  const curve = figure(seen, "curve_m");
  if (word(seen, "start")) tell(["start"], `started ${plain(word(seen, "start")!)}`);
  if (word(seen, "curve")) tell(["curve"], word(seen, "curve") === "none" ? "no curve" : `curved ${plain(word(seen, "curve")!).replace("big ", "far ")}`);
  if (started !== null) tell(["start_deg"], `started ${Math.abs(started) < 0.5 ? "straight" : `${say(Math.abs(started), "deg", units, 0)} ${side(started)}`}`);
  if (curve !== null) tell(["curve_m"], Math.abs(curve) < 1 ? "no curve" : `curved ${say(Math.abs(curve), "m", units, 0)} ${side(curve)}`);
  tell(["height"], word(seen, "height") && `${word(seen, "height")} flight`);
  const rest = seen.filter(({ column }) => !told.has(kind(column))).length;
  if (rest > 0) parts.push(`${rest} more`);
  return parts.join(", ") || "nothing seen";
}

/** One name for a thing in whatever unit: "divot_start_in" and "divot_start_mm" are one, "start" and "start_deg" two. */
function kind(column: string): string {
  const [base, unit] = split(column);
  return unit === "" ? base : `${base}#`;
}

/** The swings of one lesson with what waits laid over them: what the coach has entered, wherever it is by now. */
export function overlaid(lesson: string, kept: Swing[], waiting: Entry[]): Swing[] {
  const swings = new Map(kept.map((swing) => [swing.id, swing]));
  const lay = (swing: Swing): void => {
    if (swing.lesson !== lesson) return;
    const number = swing.number || swings.get(swing.id)?.number || 1 + Math.max(0, ...[...swings.values()].map((s) => s.number));
    swings.set(swing.id, { ...swing, number });
  };
  for (const entry of waiting) {
    const id = /^\/api\/swings\/([a-z0-9-]+)$/.exec(entry.path)?.[1];
    if (id && entry.method === "DELETE") swings.delete(id);
    else if (id) lay(entry.body as Swing);
    else if (entry.path === `/api/lessons/${lesson}/swings`) (entry.body as { swings: Swing[] }).swings.forEach(lay);
  }
  return [...swings.values()].sort((a, b) => a.number - b.number);
}

/** The lesson itself with what waits laid over it; null when neither the server nor the outbox has it. */
export function overlaidLesson(id: string, kept: Lesson | null, waiting: Entry[]): Lesson | null {
  let lesson = kept;
  for (const entry of waiting) {
    if (entry.path === `/api/lessons/${id}` && entry.method === "PUT") lesson = { ...(lesson ?? {}), ...(entry.body as Lesson) };
  }
  return lesson;
}
