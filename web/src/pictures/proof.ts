// Where things lie in the picture of a proof: the balls as a row of marks seen from above, the first at the top, less on
// the left and more on the right; a left-hander's low point is flipped, because the target is on the other side.

import type { Hand } from "../contract.ts";
import type { Change, Phase, Proof, ProofPoint, Spread } from "../contract_given.ts";

export const frame = { width: 340, left: 10, right: 330, top: 34, row: 10, head: 17 };

export interface Ball {
  point: ProofPoint;
  value: number;
  x: number;
  /** Ends of one standard deviation to both sides. */
  from: number;
  to: number;
  y: number;
}

export interface Group {
  phase: Phase;
  /** All that counted, read or not. */
  n: number;
  balls: Ball[];
  top: number;
  bottom: number;
  /** Where the level lies, 80 % sure. */
  level: { x: number; from: number; to: number } | null;
}

export interface Drawn {
  groups: Group[];
  height: number;
  zero: number;
  wish: { from: number; to: number } | null;
  ticks: { value: number; x: number }[];
  /** What stands at the left and the right end. */
  left: string;
  right: string;
}

const order: Phase[] = ["baseline", "exercise", "after", "retention", "transfer", "pressure"];

/** A value along the target line, whose picture a left-hander sees from the other side. */
export const alongTarget = (proof: Proof): boolean => proof.plus.startsWith("ahead");

function levelOf(proof: Proof, phase: Phase): Spread | null {
  const changed = (change: Change | undefined): Spread | null =>
    change && change.before_balls > 0 && change.after_balls > 0
      ? { mean: change.before.mean + change.change.mean, p10: change.before.mean + change.change.p10, p90: change.before.mean + change.change.p90 }
      : null;
  if (phase === "baseline") return proof.session.before_balls > 1 ? proof.session.before : null;
  if (phase === "after") return changed(proof.session);
  return phase === "exercise" ? null : changed(proof[phase]?.change);
}

/** Steps of 1, 2 or 5 that give four to nine marks. */
export function stepFor(range: number): number {
  const raw = range / 8;
  const size = 10 ** Math.floor(Math.log10(raw));
  return size * ([1, 2, 5].find((k) => k * size >= raw) ?? 10);
}

export function drawn(proof: Proof, hand: Hand): Drawn {
  const read = proof.points.filter((point): point is ProofPoint & { value: number; sd: number } => point.value !== null && !point.other_club);
  const wished = [proof.wish.from, proof.wish.to].filter((x): x is number => x !== null);
  const levels = order.map((phase) => levelOf(proof, phase));
  const all = [...read.flatMap((one) => [one.value - one.sd, one.value + one.sd]), ...levels.flatMap((one) => (one ? [one.p10, one.p90] : [])), ...wished, 0];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const room = Math.max(high - low, 1e-9) * 0.05;
  const flip = hand === "left" && alongTarget(proof);
  const x = (value: number): number => {
    const share = Math.max(0, Math.min(1, (value - low + room) / (high - low + 2 * room)));
    return frame.left + (flip ? 1 - share : share) * (frame.right - frame.left);
  };
  let y = frame.top;
  const groups = order.flatMap((phase, k): Group[] => {
    const mine = read.filter((one) => one.phase === phase);
    const n = proof.counted[phase];
    if (n === 0 && mine.length === 0) return [];
    const top = y;
    y += frame.head;
    const balls = mine.map((point): Ball => {
      y += frame.row;
      return { point, value: point.value, x: x(point.value), from: x(point.value - point.sd), to: x(point.value + point.sd), y: y - frame.row / 2 };
    });
    y += balls.length ? 5 : 0;
    const level = levels[k];
    return [{ phase, n: Math.max(n, mine.length), balls, top, bottom: y, level: level ? { x: x(level.mean), from: x(level.p10), to: x(level.p90) } : null }];
  });
  const step = stepFor(high - low + 2 * room);
  const first = Math.ceil((low - room) / step);
  const ticks = Array.from({ length: Math.max(0, Math.floor((high + room) / step) - first + 1) }, (_, k) => (first + k) * step).map((value) => ({ value, x: x(value) }));
  const wish = wished.length === 0 ? null : { from: proof.wish.from === null ? x(low - room) : x(proof.wish.from), to: proof.wish.to === null ? x(high + room) : x(proof.wish.to) };
  return { groups, height: y + 26, zero: x(0), wish, ticks, left: flip ? proof.plus : proof.minus, right: flip ? proof.minus : proof.plus };
}
