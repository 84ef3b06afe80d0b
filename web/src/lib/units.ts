// Lengths and speeds as people say them. Inside, millimetres and metres; at the edge, the coach's units.

import type { Entered, Units } from "../contract.ts";

const lengths_mm: Record<string, number> = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8, yd: 914.4 };
const speeds_mps: Record<string, number> = { mps: 1, kmh: 1 / 3.6, mph: 0.44704 };

/** A column's name without its unit, and the unit: "divot_start_in" -> ["divot_start", "in"]. */
export function split(column: string): [string, string] {
  const at = column.lastIndexOf("_");
  const unit = column.slice(at + 1);
  return at > 0 && (unit in lengths_mm || unit in speeds_mps || unit === "deg" || unit === "rpm") ? [column.slice(0, at), unit] : [column, ""];
}

/** Is this column a length that `units` writes in another unit? */
export function columnIn(column: string, units: Units): string {
  const [base, unit] = split(column);
  if (units === "metric" || unit === "") return column;
  if (unit === "mps" || unit === "kmh") return `${base}_mph`;
  if (unit === "mm" || unit === "cm") return `${base}_in`;
  if (unit === "m") return base === "apex" ? `${base}_ft` : `${base}_yd`;
  return column;
}

/** The figure that was entered for `column`, whatever unit it was entered in, in the unit of `column`; null = not seen. */
export function figure(seen: Entered[], column: string): number | null {
  const [base, unit] = split(column);
  for (const entered of seen) {
    const [otherBase, otherUnit] = split(entered.column);
    if (otherBase !== base || (unit === "") !== (otherUnit === "")) continue;
    const value = Number(entered.text);
    if (entered.text.trim() === "" || !Number.isFinite(value)) return null;
    return value * factor(otherUnit, unit);
  }
  return null;
}

export function factor(from: string, to: string): number {
  if (from === to) return 1;
  if (from in lengths_mm && to in lengths_mm) return lengths_mm[from]! / lengths_mm[to]!;
  if (from in speeds_mps && to in speeds_mps) return speeds_mps[from]! / speeds_mps[to]!;
  return 1;
}

/** The word that was entered for a word column; null = not seen. */
export function word(seen: Entered[], column: string): string | null {
  return seen.find((entered) => entered.column === column)?.text || null;
}

/** `seen` with one thing changed; null or "" takes it out. Another unit's column of the same thing goes. */
export function withEntered(seen: Entered[], column: string, text: string | null): Entered[] {
  const base = split(column)[0];
  const at = seen.findIndex((entered) => entered.column === column);
  const rest = seen.filter((entered) => split(entered.column)[0] !== base || isOther(entered.column, column));
  if (text === null || text === "") return rest;
  if (at < 0) return [...rest, { column, text }];
  return seen.flatMap((entered, k) =>
    k === at ? [{ column, text }] : split(entered.column)[0] === base && !isOther(entered.column, column) ? [] : [entered],
  );
}

/** "start" (a word) and "start_deg" (a figure) share a base and are two different columns. */
function isOther(one: string, other: string): boolean {
  return (split(one)[1] === "") !== (split(other)[1] === "");
}

/** Decimals that a touch is worth, by unit. */
const worth: Record<string, number> = { mm: 0, cm: 1, m: 1, in: 1, yd: 1, ft: 0, deg: 1 };

/** A figure in `column`'s unit as an entry in the coach's units. */
export function entry(column: string, value: number, units: Units): Entered {
  const target = columnIn(column, units);
  const unit = split(target)[1];
  const decimals = split(column)[0].startsWith("strike") && unit === "in" ? 2 : (worth[unit] ?? 1);
  const text = (value * factor(split(column)[1], unit)).toFixed(decimals);
  return { column: target, text: Number(text) === 0 ? "0" : String(Number(text)) };
}

const says: Record<string, string> = { mm: "mm", cm: "cm", m: "m", in: "in", yd: "yd", ft: "ft", deg: "°", mps: "m/s", mph: "mph", kmh: "km/h", rpm: "rpm" };

/** A figure with its unit, as it is said: lengths on the turf in cm, on the face in mm, in the air in m. */
export function say(value: number, unit: string, units: Units, decimals?: number): string {
  let shown = value;
  let in_ = unit;
  if (units === "yards") in_ = split(columnIn(`x_${unit}`, units))[1] || unit;
  shown *= factor(unit, in_);
  const places = decimals ?? (in_ === "in" || in_ === "deg" || in_ === "cm" ? 1 : 0);
  const text = shown.toFixed(places).replace(/^-(0(?:\.0+)?)$/, "$1").replace("-", "\u2212");
  return in_ === "deg" ? `${text}°` : `${text} ${says[in_] ?? in_}`;
}

/** Where along the target line: "4 cm behind", "at the ball". */
export function along(mm: number, units: Units): string {
  const size = units === "yards" ? say(Math.abs(mm), "mm", units, 1) : say(Math.abs(mm) / 10, "cm", units, Math.abs(mm) < 95 ? 1 : 0);
  if (Math.abs(mm) < 2.5) return "at the ball";
  return mm > 0 ? `${size.replace(".0", "")} ahead` : `${size.replace(".0", "")} behind`;
}

/** The same as a sentence needs it where no ball was named: "4 cm ahead of the ball", "at the ball". */
export function fromBall(mm: number, units: Units): string {
  return along(mm, units).replace(/ahead$/, "ahead of the ball").replace(/behind$/, "behind the ball");
}

/** Where a divot began: "divot from 4 cm behind", "divot at the ball". */
export function divotBegins(mm: number, units: Units): string {
  return `divot from ${along(mm, units)}`.replace("from at", "at");
}
