import { describe, expect, it } from "vitest";
import type { Change, Phase, Proof, ProofPoint } from "../contract_given.ts";
import { drawn, frame, stepFor } from "./proof.ts";

const spread = (mean: number) => ({ mean, p10: mean - 1, p90: mean + 1 });
const change = (before: number, moved: number, n = 8): Change => ({
  verdict: "probably", before_balls: 8, after_balls: n, before: spread(before), change: spread(moved), improvement: spread(moved), p_improved: 0.9, p_worth: 0.8,
  p_worse: 0, evidence: 5, scatter_ratio: spread(1), p_steadier: 0.5, forecast: null,
});
let made = 0;
const ball = (phase: Phase, value: number | null, more: Partial<ProofPoint> = {}): ProofPoint => ({
  swing: `s-${made++}`, number: made, lesson: "l-1", day: "2026-05-04", phase, value, sd: value === null ? null : 0.5, other_club: false, ...more,
});
const proof = (points: ProofPoint[], more: Partial<Proof> = {}): Proof => ({
  given: "g-1", exercise: "towel_behind_ball", title: "", quantity: "low point", unit: "cm", plus: "ahead of the ball", minus: "behind the ball", wish: { from: 1, to: 4 },
  smallest_worth: 1, counted: { baseline: 2, exercise: 24, after: 1, retention: 0, transfer: 0, pressure: 0 }, dose_balls: 24, says: [], session: change(-4, 5),
  retention: null, transfer: null, pressure: null, points, single_case: null, ...more,
});
const points = [ball("baseline", -5), ball("baseline", -3), ball("exercise", null), ball("after", 2)];

describe("the picture of a proof", () => {
  it("lays the balls under one another in their order, more to the right", () => {
    const picture = drawn(proof(points), "right");
    expect(picture.groups.map((group) => [group.phase, group.n, group.balls.length])).toEqual([["baseline", 2, 2], ["exercise", 24, 0], ["after", 1, 1]]);
    const balls = picture.groups.flatMap((group) => group.balls);
    expect(balls.map((one) => one.value)).toEqual([-5, -3, 2]);
    expect(balls.every((one, k) => k === 0 || one.y > balls[k - 1]!.y)).toBe(true);
    expect(balls[0]!.x).toBeLessThan(balls[1]!.x);
    expect(balls[1]!.x).toBeLessThan(picture.zero);
    expect(balls[2]!.x).toBeGreaterThan(picture.zero);
    expect([picture.left, picture.right]).toEqual(["behind the ball", "ahead of the ball"]);
    for (const one of balls) {
      expect(one.from).toBeGreaterThanOrEqual(frame.left);
      expect(one.to).toBeLessThanOrEqual(frame.right);
    }
  });

  it("is flipped for a left-hander where it lies along the target line, and only there", () => {
    const right = drawn(proof(points), "right");
    const left = drawn(proof(points), "left");
    expect(left.zero).toBeCloseTo(frame.left + frame.right - right.zero);
    expect(left.groups[0]!.balls[0]!.x).toBeCloseTo(frame.left + frame.right - right.groups[0]!.balls[0]!.x);
    expect(left.right).toBe("behind the ball");
    const path = { quantity: "path", unit: "°", plus: "in to out", minus: "out to in" };
    expect(drawn(proof(points, path), "left")).toEqual(drawn(proof(points, path), "right"));
  });

  it("shows where the level after the exercise lies: the level before and what changed", () => {
    const picture = drawn(proof(points), "right");
    const [before, , after] = picture.groups;
    const perCm = (picture.zero - before!.level!.x) / 4;
    expect(after!.level!.x).toBeCloseTo(picture.zero + perCm, 6);
    expect(after!.level!.from).toBeCloseTo(picture.zero, 6);
    expect(picture.groups[1]!.level).toBeNull();
  });

  it("draws no level where nothing was compared", () => {
    const alone = proof(points.slice(0, 2), { session: change(-4, 0, 0), counted: { baseline: 2, exercise: 0, after: 0, retention: 0, transfer: 0, pressure: 0 } });
    expect(drawn(alone, "right").groups.map((group) => [group.phase, group.level !== null])).toEqual([["baseline", true]]);
  });

  it("leaves balls of the other club before it out, and those that tell nothing", () => {
    const picture = drawn(proof([...points, ball("baseline", 40, { other_club: true })]), "right");
    expect(picture.groups[0]!.balls).toHaveLength(2);
  });

  it("keeps an open wish within the picture", () => {
    const picture = drawn(proof(points, { wish: { from: 1, to: null } }), "right");
    expect(picture.wish!.to).toBeCloseTo(frame.right);
    expect(drawn(proof(points, { wish: { from: null, to: null } }), "right").wish).toBeNull();
  });

  it("stands even where all values are one, or none is there", () => {
    for (const given of [[ball("baseline", 0, { sd: 0 })], []]) {
      const picture = drawn(proof(given, { wish: { from: null, to: null }, session: change(0, 0, 0) }), "right");
      expect(Number.isFinite(picture.zero) && Number.isFinite(picture.height)).toBe(true);
    }
  });
});

describe("marks of a scale", () => {
  it("are 1, 2 or 5 of a decade, four to nine of them", () => {
    for (const range of [0.013, 0.7, 3, 8, 12, 40, 99, 1234]) {
      const step = stepFor(range);
      expect(range / step).toBeGreaterThan(3.1);
      expect(range / step).toBeLessThanOrEqual(8.0001);
      expect([1, 2, 5]).toContain(Math.round(step / 10 ** Math.floor(Math.log10(step * 1.0001))));
    }
  });
});
