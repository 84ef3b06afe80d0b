// An exercise that was given: which one runs, what the next swing counts as, how many there have been.

import type { Hand, Lesson, Swing, Units } from "../contract.ts";
import { purposes, type Dose, type Given, type Phase, type Proof, type Purpose, type Shown, type Spread } from "../contract_given.ts";
import type { Entry } from "../outbox.ts";
import { say } from "./units.ts";

/** What is given to a pupil with what waits laid over it, in order of time; notes are left out. */
export function overlaidGiven(pupil: string, kept: Given[], waiting: Entry[]): Given[] {
  const all = new Map(kept.map((one) => [one.id, one]));
  for (const entry of waiting) {
    const id = /^\/api\/given\/([a-z0-9-]+)$/.exec(entry.path)?.[1];
    if (!id) continue;
    if (entry.method === "DELETE") all.delete(id);
    else if ((entry.body as Given).pupil === pupil) all.set(id, entry.body as Given);
  }
  return [...all.values()].filter((one) => one.exercise !== "").sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
}

/** The one that is being done: the newest that has not ended. */
export const running = (all: Given[]): Given | null => all.filter((one) => !one.ended_at).at(-1) ?? null;

/** The one that is being done in this lesson: given in it or before it. An older lesson knows nothing of it. */
export const runningIn = (lesson: Lesson, all: Given[]): Given | null => running(all.filter((one) => one.lesson === lesson.id || one.at <= lesson.begun_at));

export type Counts = Record<Phase, number>;

/** How many swings count as what for `given`. */
export function counted(swings: Swing[], given: string): Counts {
  const counts: Counts = { baseline: 0, exercise: 0, after: 0, retention: 0, transfer: 0, pressure: 0 };
  for (const swing of swings) if (swing.given === given && swing.purpose) ++counts[swing.purpose];
  return counts;
}

/**
 * What the next swing may count as, in the order of a lesson. In the lesson in which it was given, and wherever it was
 * not done yet, that is before, exercise, after; later, whether it held.
 */
export function choices(given: Given, lesson: Lesson, done: Pick<Counts, "exercise" | "after">): Purpose[] {
  const first = given.lesson === lesson.id || done.exercise + done.after === 0;
  return first ? ["baseline", "exercise", "after", ""] : ["retention", "transfer", "pressure", "exercise", ""];
}

/** What the next swing counts as where nobody has said so: as the last one that counted, else what comes first. */
export function purposeAtStart(given: Given, lesson: Lesson, swings: Swing[], among: Purpose[]): Purpose {
  const last = swings.filter((swing) => swing.given === given.id).at(-1)?.purpose;
  if (among.includes("retention")) return last && among.includes(last) ? last : "retention";
  if (!last) return given.lesson === lesson.id && swings.length > 0 ? "exercise" : "baseline";
  // What was hit before the exercise was given is the "before" of it: the exercise comes next.
  return last === "baseline" ? "exercise" : among.includes(last) ? last : "";
}

export interface HowSwung {
  condition: string;
  ball: boolean;
}

/** How a swing of this purpose is made: those of the exercise as it says, all others as those before it. */
export function howSwung(purpose: Purpose, exercise: Shown | undefined, swings: Swing[], given: string): HowSwung {
  if (purpose === "exercise" && exercise) return { condition: exercise.condition, ball: exercise.ball };
  const before = swings.find((swing) => swing.given === given && swing.purpose === "baseline");
  return before ? { condition: before.condition, ball: before.ball } : { condition: "normal", ball: true };
}

/** Plain swings count as "before", too, if they come before all that was done of the exercise; with the club of most of them. */
export function plainBefore(swings: Swing[], given: string): number {
  const first = swings.find((swing) => swing.given === given && swing.purpose && swing.purpose !== "baseline")?.number ?? Infinity;
  const clubs = new Map<string, number>();
  for (const { club, condition, number, given: of } of swings) {
    if (!of && condition === "normal" && number < first) clubs.set(club, (clubs.get(club) ?? 0) + 1);
  }
  return Math.max(0, ...clubs.values());
}

/** A swing with what it counts as, "" = nothing; the members are left out then, as on a swing that never counted. */
export function counting(swing: Swing, given: string, purpose: Purpose): Swing {
  const { given: _, purpose: __, ...plain } = swing;
  return given && purpose ? { ...plain, given, purpose } : plain;
}

/** The dose as it was given, else as the exercise says; null where neither is known. */
export function doseOf(given: Pick<Given, "dose">, exercise: Shown | undefined): Dose | null {
  const usual = exercise?.dose ?? null;
  if (!given.dose) return usual;
  try {
    const said = JSON.parse(given.dose) as Partial<Dose>;
    return usual || typeof said.balls === "number" ? { balls: 0, sets: 1, rest_s: 0, minutes: 0, days_a_week: 0, ...usual, ...said } : null;
  } catch {
    return usual;
  }
}

export interface Care {
  /** What concerns this pupil: why it is not free, and what the body or the age asks for. */
  concerns: string[];
  /** The exercise's own and those of every exercise; never empty. */
  cautions: string[];
  /** Was it held against the pupil's notes and the ground? */
  held: boolean;
}

/**
 * What has to be heeded while an exercise is done; null where no caution is known: then nothing of it may be shown.
 * @param usual    its cautions without any pupil, in the language shown
 * @param foreign  the same in other languages
 */
export function careOf(given: Pick<Given, "permission" | "reasons" | "cautions">, usual: string[], foreign: string[] = []): Care | null {
  const said = given.cautions ?? [];
  // Where the usual ones are not known, the pupil's cannot be told apart: they stand among all that the server tells.
  const own = said.filter((one) => !usual.includes(one) && !foreign.includes(one));
  if (said.length + usual.length === 0) return null;
  const held = given.permission !== undefined;
  return usual.length ? { concerns: [...(given.reasons ?? []), ...own], cautions: usual, held } : { concerns: given.reasons ?? [], cautions: said, held };
}

/** "balls 3 of 24", "swings 3" without a ball or a dose. */
export function ballsSay(done: number, of: number, ball: boolean): string {
  return `${ball ? "balls" : "swings"} ${done}${of > 0 ? ` of ${of}` : ""}`;
}

const purposeWords: Record<Purpose, string> = {
  "": "nothing",
  baseline: "before",
  exercise: "exercise",
  after: "after",
  retention: "days later",
  transfer: "other club",
  pressure: "under pressure",
};
export const purposeSays = (purpose: Purpose): string => purposeWords[purpose];

export const asPurpose = (text: string | undefined): Purpose => purposes.find((one) => one === text) ?? "";

/** A drawing as a picture's address: nothing in it can run or reach out. */
export const drawingUrl = (svg: string): string => `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;

/** Drawings are made for right-handers. */
export const flipped = (hand: Hand): boolean => hand === "left";

/** For the coach's record of an exercise that was given after asking: what was asked about. */
export const askedFirst = (title: string, reasons: string[]): string => [`${title}: asked first.`, ...reasons.map((reason) => reason.replace(/ Ask first\.$/, ""))].join(" ").slice(0, 900);

/** May the pupil be under 18 this year? Not known: no. */
export const maybeJunior = (birthYear: number | null, year: number): boolean => birthYear !== null && year - birthYear <= 18;

/** A figure as short as it can be: 12, 1.5, −0.25. */
export const numberSays = (x: number): string => String(Number(Math.abs(x) >= 10 ? x.toFixed(0) : x.toPrecision(2))).replace("-", "\u2212");

const oneUp = (x: number, unit: string): string => `${(Math.abs(x) < 0.05 ? 0 : Math.abs(x)).toFixed(1)}${unit === "°" ? "°" : ` ${unit}`}`;

/** Where a quantity lies: "2.1 cm ahead of the ball". */
export function placeSays(x: number, proof: Pick<Proof, "unit" | "plus" | "minus">): string {
  return Math.abs(x) < 0.05 ? `0${proof.unit === "°" ? "°" : ` ${proof.unit}`}` : `${oneUp(x, proof.unit)} ${x > 0 ? proof.plus : proof.minus}`;
}

/** The same with its 80 % interval. */
export const spanSays = (spread: Spread, proof: Pick<Proof, "unit" | "plus" | "minus">): string =>
  `${placeSays(spread.mean, proof)} (80 % sure between ${placeSays(spread.p10, proof)} and ${placeSays(spread.p90, proof)})`;

/** One scale for all gains that stand under one another: metres to 0..1, nothing among them. */
export function gainScale(gains: Spread[]): (metres: number) => number {
  const low = Math.min(0, ...gains.map((one) => one.p10));
  const high = Math.max(0, ...gains.map((one) => one.p90));
  const range = high - low || 1;
  return (metres) => Math.max(0, Math.min(1, (metres - low) / range));
}

/** "1.4 m nearer the target, 80 % sure between 0.2 m farther and 2.6 m nearer". */
export function gainSays(gain: Spread, units: Units): string {
  const metres = (m: number): string => say(m, "m", units, 1);
  const [low, high, nought] = [Math.abs(gain.p10), Math.abs(gain.p90), 0].map(metres);
  // An end that is shown as 0 lies on the other's side.
  const bothSides = gain.p10 < 0 && gain.p90 > 0 && low !== nought && high !== nought;
  // Two ends on one side share their unit.
  const bare = (text: string): string => text.replace(/\s\S+$/u, "");
  const oneSide = gain.p10 + gain.p90 < 0 ? `${bare(high)} and ${low} farther` : `${bare(low)} and ${high} nearer`;
  const between = bothSides ? `${low} farther and ${high} nearer` : oneSide;
  return `${metres(Math.abs(gain.mean))} ${gain.mean < 0 ? "farther from" : "nearer"} the target, 80 % sure between ${between}`;
}

/** A chance as people say it. */
export const percent = (share: number): string => `${Math.round(100 * share)} %`;

const familyWords: Record<string, string> = {
  ground: "Where the turf is met",
  release: "The wrists and their release",
  face: "The clubface",
  path: "The club’s way",
  strike: "The strike on the face",
  flight: "The flight",
  practice: "Ways of practising",
};
export const familySays = (family: string): string => familyWords[family] ?? family;
