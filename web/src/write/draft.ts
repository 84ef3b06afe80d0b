// A coach's own exercise while it is being written. Figures are texts in the coach's units, as they were typed; the
// document that it becomes is in document.ts.

import type { Units } from "../contract.ts";
import type { Catalogue, Dose, Language, Move, Shown } from "../contract_given.ts";
import { languages } from "../lib/languages.ts";
import { newId } from "../lib/swing.ts";
import { factor } from "../lib/units.ts";

export const bodyNotes = ["back", "wrist", "elbow", "shoulder", "hip", "knee", "ankle", "neck", "balance", "pregnancy", "heart", "bone", "surgery", "child", "older"] as const;
export type BodyNote = (typeof bodyNotes)[number];
/** Those that an exercise can load. */
export const bodyParts = bodyNotes.slice(0, 8);

export const rules = ["", "ask_first", "not_with"] as const;
/** With this note: nothing against it, ask first, not at all. */
export type Rule = (typeof rules)[number];

/** What goes wrong, and what to do. */
export interface Slip {
  wrong: string;
  help: string;
}

export interface Texts {
  title: string;
  purpose: string;
  cue: string;
  steps: string[];
  self_check: string[];
  errors: Slip[];
  progression: string;
  regression: string;
  cautions: string[];
  dose: string;
  alt: string;
}

export type MoveTyped = Record<keyof Move, string>;

export interface Draft {
  id: string;
  /** What was given calls it by this; "" = not named yet. */
  name: string;
  /** What it was started from; "" = nothing. */
  from: string;
  source: string;
  family: string;
  moves: MoveTyped[];
  condition: string;
  ball: boolean;
  turf: boolean;
  ground: string[];
  clubs: string[];
  kit: Record<Language, string>[];
  dose: Record<keyof Dose, string>;
  stage: string;
  load: string[];
  balance: boolean;
  jump: boolean;
  body: Record<BodyNote, Rule>;
  crowded: boolean;
  /** % of a full swing. */
  reach: string;
  words: Record<Language, Texts>;
  /** What it was started from, drawn; "" = nothing. */
  drawing: string;
  /** Does that drawing go with it? */
  drawn: boolean;
  /** In which its figures were typed. */
  units: Units;
}

export interface CauseFacts {
  name: string;
  says: string;
  /** Of the document. */
  unit: string;
  /** What a coach calls a clear change, in that unit. */
  step: number;
  plus: string;
}

/** Steps and signs are those of the program; docs/exercises.md has them. */
export const causes: CauseFacts[] = [
  { name: "weight", says: "Weight", unit: "mm", step: 20, plus: "toward the target" },
  { name: "release", says: "Release", unit: "ms", step: 10, plus: "later" },
  { name: "height", says: "Height", unit: "mm", step: 5, plus: "higher" },
  { name: "handle", says: "Handle", unit: "deg", step: 2, plus: "outward" },
  { name: "face_turn", says: "Face turn", unit: "deg", step: 2, plus: "closing" },
  { name: "plane_tilt", says: "Plane tilt", unit: "deg", step: 2, plus: "steeper" },
  { name: "speed", says: "Speed", unit: "%", step: 5, plus: "faster" },
];
export const causeOf = (name: string): CauseFacts => causes.find((one) => one.name === name) ?? causes[0]!;

/** Of a cause, as the coach types it: lengths in cm or inches. */
export const unitOf = (cause: string, units: Units): string => (causeOf(cause).unit === "mm" ? (units === "yards" ? "in" : "cm") : causeOf(cause).unit);

/** From the coach's unit to the document's. */
export const scaleOf = (cause: string, units: Units): number => factor(unitOf(cause, units), causeOf(cause).unit);

const short = (x: number): string => String(Number(x.toPrecision(4)));

/** What one may assume who knows no figures: a fifth of the way to the usual swing, and a little steadier; unsure of both. */
export function neutralMove(cause: string, units: Units): MoveTyped {
  return { cause, home: "0", home_sd: short(causeOf(cause).step / scaleOf(cause, units)), shift: "20", shift_sd: "20", scatter: "95", scatter_sd: "10" };
}

function typedMove(move: Move, units: Units): MoveTyped {
  const scale = scaleOf(move.cause, units);
  const share = (x: number): string => short(100 * x);
  return { cause: move.cause, home: short(move.home / scale), home_sd: short(move.home_sd / scale), shift: share(move.shift), shift_sd: share(move.shift_sd), scatter: share(move.scatter), scatter_sd: share(move.scatter_sd) };
}

/** The cause that an exercise of a family mostly works on. */
const usually: Record<string, string> = { ground: "weight", release: "release", face: "face_turn", path: "handle", strike: "height", flight: "release", practice: "release" };
export const usualCause = (family: string): string => usually[family] ?? "weight";

export const families = Object.keys(usually);

const noTexts = (): Texts => ({
  title: "", purpose: "", cue: "", steps: ["", "", ""], self_check: [""], errors: [{ wrong: "", help: "" }, { wrong: "", help: "" }],
  progression: "", regression: "", cautions: ["", ""], dose: "", alt: "",
});

/** Ask first with everything, until the coach knows better. */
export function freshDraft(units: Units): Draft {
  return {
    id: newId("x"), name: "", from: "", source: "common practice, no source", family: "ground", moves: [neutralMove("weight", units)],
    condition: "normal", ball: true, turf: true, ground: ["fairway", "fairway_soft", "fairway_firm", "mat", "tee"], clubs: ["hybrid", "iron", "wedge"],
    kit: [], dose: { balls: "20", sets: "2", rest_s: "60", minutes: "15", days_a_week: "3" }, stage: "blocked",
    load: [], balance: false, jump: false, body: Object.fromEntries(bodyNotes.map((note) => [note, "ask_first"])) as Record<BodyNote, Rule>,
    crowded: false, reach: "50", words: { en: noTexts(), de: noTexts() }, drawing: "", drawn: false, units,
  };
}

const slipOf = (text: string): Slip => {
  const at = text.indexOf(": ");
  return at < 0 ? { wrong: text, help: "" } : { wrong: text.slice(0, at), help: text.slice(at + 2) };
};

function textsOf(shown: Shown, always: string[]): Texts {
  return {
    title: shown.title, purpose: shown.purpose, cue: shown.cue, steps: [...shown.steps], self_check: [...shown.self_check], errors: shown.errors.map(slipOf),
    progression: shown.progression, regression: shown.regression, cautions: shown.cautions.filter((one) => !always.includes(one)), dose: shown.dose_says, alt: shown.shows,
  };
}

export type Catalogues = Record<Language, Catalogue>;

/** An exercise as a draft: the coach's own under its id and name, to be changed; any other under a new id, to start from. */
export function draftOf(name: string, in_: Catalogues, units: Units, change: boolean): Draft | null {
  const [en, de] = languages.map((one) => in_[one].exercises.find((exercise) => exercise.name === name));
  if (!en || !de) return null;
  const rule = (note: string): Rule => (en.not_with.includes(note) ? "not_with" : en.ask_first.includes(note) ? "ask_first" : "");
  const draft: Draft = {
    ...freshDraft(units),
    family: en.family, source: en.source, moves: en.moves.map((move) => typedMove(move, units)), condition: en.condition, ball: en.ball, turf: en.turf,
    ground: [...en.ground], clubs: [...en.clubs], kit: en.kit.map((thing, k) => ({ en: thing, de: de.kit[k] ?? thing })),
    dose: Object.fromEntries(Object.entries(en.dose).map(([key, value]) => [key, String(value)])) as Draft["dose"], stage: en.stage,
    load: [...en.load], balance: en.balance, jump: en.jump, body: Object.fromEntries(bodyNotes.map((note) => [note, rule(note)])) as Draft["body"],
    crowded: en.crowded, reach: short(100 * en.reach), words: { en: textsOf(en, in_.en.always), de: textsOf(de, in_.de.always) }, drawing: en.drawing, drawn: en.drawing !== "",
  };
  if (change) [draft.id, draft.name] = [en.id ?? draft.id, en.name];
  else draft.from = name;
  untranslated(draft);
  return draft;
}

/** German words that are the English ones stand there because nobody wrote others: they are left blank, and go on following. */
function untranslated(draft: Draft): void {
  const { en, de } = draft.words;
  const none = noTexts();
  for (const key of Object.keys(none) as (keyof Texts)[]) {
    if (JSON.stringify(en[key]) === JSON.stringify(de[key])) Object.assign(de, { [key]: none[key] });
  }
  for (const thing of draft.kit) if (thing.de === thing.en) thing.de = "";
}

/** Takes all words of a language out. */
export function clearWords(draft: Draft, language: Language): void {
  draft.words[language] = noTexts();
  for (const thing of draft.kit) thing[language] = "";
}

export const blank = (value: string | string[] | Slip[]): boolean =>
  typeof value === "string" ? value.trim() === "" : value.every((one) => (typeof one === "string" ? one.trim() === "" : blank(one.wrong) && blank(one.help)));

/** Are there words in this language at all? */
export const written = (draft: Draft, language: Language): boolean => Object.values(draft.words[language]).some((value) => !blank(value as string | string[] | Slip[])) || draft.kit.some((thing) => !blank(thing[language]));

export interface Bound {
  least: Rule;
  why: string;
}

const jumpForbids: BodyNote[] = ["back", "hip", "knee", "ankle", "balance", "pregnancy", "bone"];

/** Notes that the exercise itself asks to be careful with, whatever the coach thinks. */
export function bounds(draft: Draft): Partial<Record<BodyNote, Bound>> {
  const out: Partial<Record<BodyNote, Bound>> = {};
  if (draft.turf && (draft.ground.includes("mat") || draft.ground.includes("fairway_firm"))) {
    out.wrist = { least: "ask_first", why: "hard ground or a mat is struck" };
    out.elbow = out.wrist;
  }
  for (const part of draft.load) out[part as BodyNote] = { least: "ask_first", why: "it is loaded more than usual" };
  if (draft.balance) out.balance = { least: "ask_first", why: "it needs good balance" };
  if (draft.jump) for (const note of jumpForbids) out[note] = { least: "not_with", why: "the feet leave the ground" };
  return out;
}

const standsOddly = ["lead_leg", "trail_leg", "feet_together", "step"];

/** Does the way it is swung need good balance by itself? */
export const needsBalance = (draft: Draft): boolean => draft.jump || standsOddly.includes(draft.condition);

/** Makes what the coach chose agree with itself, always to the careful side. */
export function agree(draft: Draft): void {
  if (needsBalance(draft)) draft.balance = true;
  if (draft.jump) draft.crowded = false;
  for (const [note, bound] of Object.entries(bounds(draft)) as [BodyNote, Bound][]) {
    if (rules.indexOf(draft.body[note]) < rules.indexOf(bound.least)) draft.body[note] = bound.least;
  }
}
