// Touches to columns and back. Pictures are drawn for a right-hander; a left-hander's are flipped here, in one place.
//
// Turf, from above: u ahead of the ball toward the target, v away from the player (millimetres). On the screen the target
// is to the right for a right-hander, v is down for both hands. A divot's direction is as seen, right of the target +:
// that is away from a right-hander and toward a left-hander.
// Face, from the front: toe to the left for a right-hander, flipped for a left-hander; up from the leading edge.
// Flight, from behind the ball: target up, right is right for both hands.

import type { Entered, Hand, Units } from "../contract.ts";
import { entry, figure, withEntered, word } from "../lib/units.ts";

export interface Point {
  x: number;
  y: number;
}

/** +1 for a right-hander, −1 for a left-hander: what mirrors the pictures. */
export const sense = (hand: Hand): 1 | -1 => (hand === "left" ? -1 : 1);

const degrees = 180 / Math.PI;

// ---- turf ----

/** The strip's ends and half its width, millimetres. */
export const turf = { back: -250, front: 300, half: 75 };

/** Screen x (0 at the ball, right +) to ahead of the ball, and back: its own inverse. */
export const ahead = (x: number, hand: Hand): number => sense(hand) * x;

export interface Divot {
  start: number;
  end: number | null;
  direction: number | null;
}

export function divotOf(seen: Entered[]): Divot | null {
  const start = figure(seen, "divot_start_mm");
  if (start === null) return null;
  return { start, end: figure(seen, "divot_end_mm"), direction: figure(seen, "divot_direction_deg") };
}

/** A drag from where the divot began to its end, in screen millimetres. Shorter than a finger's tremble: a beginning only. */
export function divotFrom(from: Point, to: Point, hand: Hand): Divot {
  const start = ahead(from.x, hand);
  const u = ahead(to.x, hand) - start;
  const v = to.y - from.y;
  if (Math.hypot(u, v) < 15) return { start, end: null, direction: null };
  // Dragged from the end to the beginning: the mark is the same.
  if (u < 0) return divotFrom(to, from, hand);
  const out = Math.atan2(v, u) * degrees;
  // A mark that is nearly across the line has no direction that a swing could have left.
  const direction = Math.abs(out) > 45 ? null : sense(hand) * out;
  return { start, end: start + u, direction };
}

export function withDivot(seen: Entered[], divot: Divot | null, units: Units): Entered[] {
  let next = seen;
  const put = (column: string, value: number | null): void => {
    const given = value === null ? { column, text: "" } : entry(column, value, units);
    next = withEntered(next, given.column, given.text);
  };
  put("divot_start_mm", divot?.start ?? null);
  put("divot_end_mm", divot?.end ?? null);
  put("divot_direction_deg", divot?.direction ?? null);
  if (divot && word(next, "divot") === "none") next = withEntered(next, "divot", null);
  return next;
}

/** "No divot" is a sighting, too; the marks that would contradict it go. Pressed again, it is taken back. */
export function withNoDivot(seen: Entered[]): Entered[] {
  if (word(seen, "divot") === "none") return withEntered(seen, "divot", null);
  let next = withDivot(seen, null, "metric");
  for (const column of ["divot_depth_mm", "divot_toe_depth_mm", "divot_begins", "toe_heel"]) next = withEntered(next, column, null);
  return withEntered(next, "divot", "none");
}

/** Where the ends of a divot lie on the screen, millimetres from the ball; a mark of unknown direction lies along the line. */
export function divotEnds(divot: Divot, hand: Hand, fallback = 60): [Point, Point] {
  const u = (divot.end ?? divot.start + fallback) - divot.start;
  const v = u * Math.tan((sense(hand) * (divot.direction ?? 0)) / degrees);
  // The mark is drawn around the target line, so that its direction shows and its place is not invented sideways.
  return [
    { x: ahead(divot.start, hand), y: -v / 2 },
    { x: ahead(divot.start + u, hand), y: v / 2 },
  ];
}

// ---- face ----

export interface Strike {
  toe: number | null;
  up: number | null;
}

/** Screen x (0 in the middle of the grooves, right +) to toward the toe, and back: its own inverse. */
export const toward_toe = (x: number, hand: Hand): number => -sense(hand) * x;

export function strikeOf(seen: Entered[]): Strike {
  return { toe: figure(seen, "strike_toe_mm"), up: figure(seen, "strike_up_mm") };
}

export function withStrike(seen: Entered[], strike: Strike, units: Units): Entered[] {
  let next = withEntered(seen, "strike_groove", null);
  for (const [column, value] of [["strike_toe_mm", strike.toe], ["strike_up_mm", strike.up]] as const) {
    const given = value === null ? { column, text: "" } : entry(column, value, units);
    next = withEntered(next, given.column, given.text);
  }
  return next;
}

// ---- flight ----

/** How far a club usually carries, metres, from its loft: only the scale of the picture hangs on it. */
export const usualCarry = (loft_deg: number): number => Math.max(45, 220 - 2.7 * loft_deg);

/** Half the width of the fan on the ground, as a share of the usual carry. */
export const fan = { half: 0.34, far: 1.2 };

export interface Flight {
  start: number | null;
  curve: number | null;
  carry: number | null;
}

/** A touch at (side right +, along the target line), metres: the direction in which the ball started. */
export const startFrom = (at: Point): number => Math.atan2(at.x, Math.max(at.y, 1)) * degrees;

/**
 * A drag from where the ball started to where it ended, metres from the ball. Without the distance, the end says only how
 * far beside the start direction the ball was at its usual carry.
 */
export function flightFrom(from: Point, to: Point, usual_m: number, far: boolean): Flight {
  const start = startFrom(from);
  const moved = Math.hypot(to.x - from.x, to.y - from.y);
  if (moved < 0.06 * usual_m) return { start, curve: null, carry: null };
  const range = Math.max(1, Math.hypot(to.x, to.y));
  const carry = far ? range : usual_m;
  const curve = carry * Math.sin(Math.atan2(to.x, Math.max(to.y, 1)) - start / degrees);
  return { start, curve, carry: far ? carry : null };
}

export function flightOf(seen: Entered[]): Flight {
  return { start: figure(seen, "start_deg"), curve: figure(seen, "curve_m"), carry: figure(seen, "carry_m") };
}

export function withFlight(seen: Entered[], flight: Flight, units: Units): Entered[] {
  let next = seen;
  for (const [column, value] of [["start_deg", flight.start], ["curve_m", flight.curve], ["carry_m", flight.carry]] as const) {
    const given = value === null ? { column, text: "" } : entry(column, value, units);
    next = withEntered(next, given.column, given.text);
  }
  return next;
}

/** Where the ball ended, metres: side (right +) and along the target line. */
export function landing(flight: Flight, usual_m: number): Point | null {
  if (flight.start === null) return null;
  const carry = flight.carry ?? usual_m;
  const bent = Math.asin(Math.max(-0.95, Math.min(0.95, (flight.curve ?? 0) / carry)));
  const angle = flight.start / degrees + bent;
  return { x: carry * Math.sin(angle), y: carry * Math.cos(angle) };
}

/** A pointer's place in an SVG's own coordinates. */
export function placeIn(svg: SVGSVGElement, event: { clientX: number; clientY: number }): Point {
  const matrix = svg.getScreenCTM();
  if (!matrix) return { x: 0, y: 0 };
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  return { x: point.x, y: point.y };
}
