// The server's names as people say them.

import type { NextLook, Words } from "../contract.ts";
import { split } from "./units.ts";

export const plain = (name: string): string => name.replaceAll("_", " ");

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export function conditionSays(words: Words | null, name: string): string {
  return words?.conditions.find((condition) => condition.name === name)?.says ?? plain(name);
}

export function clubSays(name: string): string {
  const number = /^([0-9]+)(i|w|h)$/.exec(name);
  if (number) return `${number[1]}-${{ i: "iron", w: "wood", h: "hybrid" }[number[2]!]}`;
  return { pw: "pitching wedge", gw: "gap wedge", sw: "sand wedge", lw: "lob wedge" }[name] ?? name;
}

/** A reading's heading begins with the club's name: "7i, 12 swings" -> "7-iron, 12 swings". */
export function headingSays(heading: string): string {
  const [club = "", ...rest] = heading.split(", ");
  return [capital(clubSays(club)), ...rest].join(", ");
}

/** Columns as a label or a sentence names them, where the column's own name would be short of words. */
const columns: Record<string, string> = {
  start: "start direction",
  divot: "depth of the divot",
  divot_begins: "beginning of the divot",
  toe_heel: "deeper side of the divot",
  strike_toe: "strike across the face",
  strike_up: "strike up the face",
  strike_groove: "groove of the strike",
  attack: "attack angle",
  path: "club path",
  face: "face angle",
  loft: "delivered loft",
};
export const columnSays = (column: string): string => {
  const base = split(column)[0];
  return columns[base] ?? plain(base);
};

const unitWords: Record<string, string> = { deg: "degrees", mps: "m/s", kmh: "km/h" };

/** A column of a file with its unit: "divot start, mm"; that it is said in words, where its name is a figure's, too. */
export const fileColumnSays = (column: string): string => {
  const unit = split(column)[1];
  return columnSays(column) + (unit ? `, ${unitWords[unit] ?? unit}` : column in { start: 0, curve: 0 } ? ", in words" : "");
};

/** Where in a file a fault is, as a table's reader counts: "file:2:6, divot" -> "Row 2, divot". */
export const rowSays = (place: string): string => place.replace(/^file:(\d+):\d+(, )?/, "Row $1$2");

/** Columns that a part of the pad enters; what is on no part is among the numbers. */
export const parts: Record<string, string[]> = {
  turf: ["divot_start_mm", "divot_end_mm", "divot_direction_deg", "divot_begins"],
  face: ["strike_toe_mm", "strike_up_mm", "strike_groove"],
  flight: ["start_deg", "curve_m", "carry_m", "start", "curve"],
  contact: ["contact"],
  height: ["height", "apex_m"],
};

export function partOf(column: string): string {
  const base = split(column);
  for (const [part, columns] of Object.entries(parts)) {
    if (columns.some((one) => split(one)[0] === base[0] && (split(one)[1] === "") === (base[1] === ""))) return part;
  }
  return "numbers";
}

export const looksAt = (look: NextLook): string[] => look.columns ?? (look.column ? [look.column] : []);

/** The next look as a sentence. */
export function lookSays(look: NextLook, words: Words | null): string {
  const seconds = Math.round(look.seconds);
  const time = seconds >= 90 ? `about ${Math.round(seconds / 60)} minutes` : `about ${seconds} seconds`;
  const swings = look.swings > 0 ? `${look.swings} ${look.swings === 1 ? "swing" : "swings"}` : "Some swings";
  if (look.condition) return `${swings}, ${conditionSays(words, look.condition)}: ${time}.`;
  const at = looksAt(look).map(columnSays).join(" and ");
  return look.swings > 0 ? `${swings}, looking at the ${at}: ${time}.` : `Look at the ${at}: ${time}.`;
}

/** The handicap or band in words. */
export const skillSays = (skill: string): string => (/^[+0-9]/.test(skill) ? `handicap ${skill}` : skill);

/** A day as the browser's language writes it, in one piece: no line breaks within. */
export const day = (iso: string): string => dated(iso, { day: "numeric", month: "short", year: "numeric" });

/** The same day with its name, without the year: "Thu 3 Dec". */
export const weekday = (iso: string): string => dated(iso, { weekday: "short", day: "numeric", month: "short" });

/** The same with the time. */
export const moment = (iso: string): string => dated(iso, { dateStyle: "medium", timeStyle: "short" });

function dated(iso: string, form: Intl.DateTimeFormatOptions): string {
  const date = new Date(iso);
  return Number.isNaN(date.getTime()) ? iso : date.toLocaleString(languages(), form).replace(/\s/g, "\u00a0");
}

/** The browser's languages that dates can be written in; some name theirs as no standard does. */
function languages(): string[] {
  return (globalThis.navigator?.languages ?? []).filter((one) => /^[a-z]{2,3}(-[a-z0-9]{2,8})*$/i.test(one));
}

export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** What is waiting, as a sentence; "" when nothing waits. */
export function waitingSays(waiting: { says: string }[], online: boolean, lasting: boolean): string {
  if (waiting.length === 0) return "";
  const what = waiting.length === 1 ? waiting[0]!.says : `${waiting.length} entries, the newest: ${waiting.at(-1)!.says}`;
  const where = lasting ? "kept on this device" : "kept only while this page is open: do not close it";
  return online ? `Going in: ${what}.` : `Waiting for the server: ${what}; ${where}.`;
}
