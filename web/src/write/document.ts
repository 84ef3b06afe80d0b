// A draft as the document that the server keeps, what is still missing in it, and where a fault of the server belongs.

import type { Fault } from "../contract.ts";
import type { Dose, Language, Move } from "../contract_given.ts";
import { languages } from "../lib/languages.ts";
import { blank, bodyNotes, causeOf, scaleOf, unitOf, type Draft, type Slip, type Texts } from "./draft.ts";

/** Something wrong with one field. Paths: "title", "steps.2", "dose.balls", "moves.0.home", "ground". */
export interface Issue {
  path: string;
  says: string;
  /** The language in which it stands; left out where it has none. */
  language?: Language;
}

type Words = Exclude<keyof Texts, "dose">;
const words: Words[] = ["title", "purpose", "cue", "steps", "self_check", "errors", "regression", "progression", "cautions", "alt"];

const other = (language: Language): Language => (language === "en" ? "de" : "en");

/** Where one language is blank, the other stands for it. */
const standing = (draft: Draft, key: Words, language: Language): Language => (blank(draft.words[language][key]) && !blank(draft.words[other(language)][key]) ? other(language) : language);

const filled = (lines: string[]): string[] => lines.map((line) => line.trim()).filter((line) => line !== "");
const joined = (slip: Slip): string => (blank(slip.help) ? slip.wrong.trim() : `${slip.wrong.trim()}: ${slip.help.trim()}`);

/** The dose as a sentence, for whoever writes none. */
export function doseSays(dose: Draft["dose"], language: Language): string {
  const { balls, sets, rest_s, days_a_week: days } = dose;
  if (language === "en") {
    const rest = Number(sets) > 1 && Number(rest_s) > 0 ? `, ${rest_s} seconds of rest between` : "";
    return `${balls} swings${Number(sets) > 1 ? ` in ${sets} sets` : ""}${rest}, on ${days} ${Number(days) === 1 ? "day" : "days"} a week.`;
  }
  const rest = Number(sets) > 1 && Number(rest_s) > 0 ? `, dazwischen ${rest_s} Sekunden Pause` : "";
  return `${balls} Schwünge${Number(sets) > 1 ? ` in ${sets} Sätzen` : ""}${rest}, an ${days} ${Number(days) === 1 ? "Tag" : "Tagen"} der Woche.`;
}

function textsIn(draft: Draft, language: Language): Record<string, unknown> {
  const text = (key: Words): string => (draft.words[standing(draft, key, language)][key] as string).trim();
  const lines = (key: "steps" | "self_check" | "cautions"): string[] => filled(draft.words[standing(draft, key, language)][key]);
  return {
    title: text("title"), purpose: text("purpose"), cue: text("cue"), steps: lines("steps"), self_check: lines("self_check"),
    errors: filled(draft.words[standing(draft, "errors", language)].errors.map(joined)),
    progression: text("progression"), regression: text("regression"), cautions: lines("cautions"),
    dose: draft.words[language].dose.trim() || doseSays(draft.dose, language),
    // Without a drawing there is nothing to say about it; what the exercise is for stands there.
    alt: draft.drawn && text("alt") ? text("alt") : text("purpose"),
  };
}

const number = (text: string): number => (text.trim() === "" ? NaN : Number(text.trim().replace(",", ".")));
const exact = (x: number): number => Number(x.toPrecision(8));

function moveIn(draft: Draft, k: number): Move {
  const move = draft.moves[k]!;
  const scale = scaleOf(move.cause, draft.units);
  const share = (text: string): number => exact(number(text) / 100);
  return { cause: move.cause, home: exact(number(move.home) * scale), home_sd: exact(number(move.home_sd) * scale), shift: share(move.shift), shift_sd: share(move.shift_sd), scatter: share(move.scatter), scatter_sd: share(move.scatter_sd) };
}

/** The document of docs/exercises.md. */
export function documentOf(draft: Draft): Record<string, unknown> {
  const withRule = (rule: string): string[] => bodyNotes.filter((note) => draft.body[note] === rule);
  return {
    name: draft.name, source: draft.source, family: draft.family, moves: draft.moves.map((_, k) => moveIn(draft, k)), moves_mark: "assumption",
    condition: draft.condition, ball: draft.ball, turf: draft.turf, ground: draft.ground, clubs: draft.clubs,
    kit: things(draft).map((thing) => ({ en: thing.en.trim() || thing.de.trim(), de: thing.de.trim() || thing.en.trim() })),
    dose: Object.fromEntries(Object.entries(draft.dose).map(([key, text]) => [key, number(text)])),
    stage: draft.stage, load: draft.load, balance: draft.balance, jump: draft.jump, not_with: withRule("not_with"), ask_first: withRule("ask_first"),
    crowded: draft.crowded, needs: { reach: exact(number(draft.reach) / 100) },
    words: Object.fromEntries(languages.map((language) => [language, textsIn(draft, language)])),
    ...(draft.drawn ? { drawing: draft.drawing } : {}),
  };
}

const things = (draft: Draft): Record<Language, string>[] => draft.kit.filter((thing) => !blank(thing.en) || !blank(thing.de));

/** A name that the server takes, made of the title's letters; another one where it is taken. */
export function nameFrom(title: string, taken: string[]): string {
  const spelt = title.toLowerCase().replaceAll("ä", "ae").replaceAll("ö", "oe").replaceAll("ü", "ue").replaceAll("ß", "ss");
  const letters = spelt.normalize("NFD").replace(/\p{M}/gu, "").replace(/[^a-z]+/g, "_").replace(/^_+|_+$/g, "").slice(0, 34).replace(/_+$/, "");
  const first = letters.length >= 3 ? letters : `own_${letters || "exercise"}`;
  const ends = ["", ..."bcdefghijklmnopqrstuvwxyz"].map((end) => (end ? `${first}_${end}` : first));
  return ends.find((one) => !taken.includes(one)) ?? `${first}_again`;
}

export interface Figure {
  path: string;
  text: string;
  low: number;
  high: number;
  unit: string;
  whole: boolean;
}

const doseLimits: Record<keyof Dose, [number, number]> = { balls: [4, 60], sets: [1, 10], rest_s: [0, 300], minutes: [3, 40], days_a_week: [1, 6] };

/** Every figure of the form with its limits, in the coach's units. */
export function figuresOf(draft: Draft): Figure[] {
  const dose = (Object.keys(doseLimits) as (keyof Dose)[]).map((key) => ({ path: `dose.${key}`, text: draft.dose[key], low: doseLimits[key][0], high: doseLimits[key][1], unit: "", whole: true }));
  const moves = draft.moves.flatMap((move, k) => {
    const far = Number(((4 * causeOf(move.cause).step) / scaleOf(move.cause, draft.units)).toPrecision(3));
    const unit = unitOf(move.cause, draft.units);
    const of = (key: keyof Move, low: number, high: number, in_ = "%"): Figure => ({ path: `moves.${k}.${key}`, text: move[key], low, high, unit: in_, whole: false });
    return [of("home", -far, far, unit), of("home_sd", 0, far, unit), of("shift", 0, 100), of("shift_sd", 0, 50), of("scatter", 30, 150), of("scatter_sd", 0, 50)];
  });
  return [...dose, { path: "reach", text: draft.reach, low: 0, high: 100, unit: "%", whole: false }, ...moves];
}

const unitSays = (unit: string): string => (unit === "deg" ? "°" : unit ? ` ${unit}` : "");

function figureIssue({ path, text, low, high, unit, whole }: Figure): Issue[] {
  const value = number(text);
  if (value >= low && value <= high && (!whole || Number.isInteger(value))) return [];
  const found = text.trim() === "" ? "Nothing here." : `Found “${text.trim()}”.`;
  return [{ path, says: `${found} Needed: ${whole ? "a whole number" : "a number"} from ${String(low).replace("-", "\u2212")} to ${high}${unitSays(unit)}.` }];
}

const least: Partial<Record<Words, [number, string]>> = {
  steps: [3, "steps"], self_check: [1, "way to check oneself"], errors: [2, "things that go wrong"], cautions: [2, "cautions of its own"],
};
const asks: Partial<Record<Words, string>> = {
  title: "Give it a title.", purpose: "Say what it is for.", cue: "Say what the pupil hears.", progression: "Say how it becomes harder.", regression: "Say how it becomes easier.",
};

/**
 * What the coach still has to write, in the order of the form. The server judges the rest.
 * @param titles  those of all other exercises
 */
export function gaps(draft: Draft, language: Language, titles: Record<Language, string[]>): Issue[] {
  const out: Issue[] = [];
  for (const key of words.slice(0, -1)) {
    const in_ = standing(draft, key, language);
    const value = draft.words[in_][key];
    const [few, of] = least[key] ?? [0, ""];
    if (typeof value === "string") {
      if (blank(value)) out.push({ path: key, says: asks[key] ?? "Say something here.", language: in_ });
    } else {
      const there = value.filter((one) => !blank([one] as string[] | Slip[])).length;
      const empty = value.findIndex((one) => blank([one] as string[] | Slip[]));
      if (there < few) out.push({ path: `${key}.${Math.max(0, empty)}`, says: `${there === 0 ? "None" : `Only ${there}`} so far: at least ${few} ${of} ${few === 1 ? "is" : "are"} needed.`, language: in_ });
    }
  }
  for (const in_ of languages) {
    draft.words[in_].errors.forEach((slip, k) => {
      if (blank(slip.wrong) !== blank(slip.help)) out.push({ path: `errors.${k}`, says: "Both are needed: what goes wrong, and what to do.", language: in_ });
    });
    const title = draft.words[in_].title.trim();
    if (title && titles[in_].includes(title)) out.push({ path: "title", says: `There is an exercise called “${title}”: give yours another title.`, language: in_ });
  }
  if (draft.ground.length === 0) out.push({ path: "ground", says: "Choose one ground at least." });
  if (draft.clubs.length === 0) out.push({ path: "clubs", says: "Choose one kind of club at least." });
  return [...out, ...figuresOf(draft).flatMap(figureIssue)];
}

/** The line of the form in which the document's k-th line stands: empty ones are left out of the document. */
function lineAt(lines: (string | Slip)[], k: number): number {
  const there = lines.flatMap((line, at) => (blank([line] as string[] | Slip[]) ? [] : [at]));
  return there[k] ?? Math.max(0, lines.length - 1);
}

/** Where a fault of the server belongs in the form. */
export function issueOf(fault: Fault, draft: Draft): Issue {
  const says = `Found ${fault.found}; expected ${fault.expected}.`;
  const path = fault.place.replace(/^document: exercise,? ?/, "");
  const word = /^words\.(en|de)\.([a-z_]+)(?:\[([0-9]+)\])?/.exec(path);
  if (word) {
    const key = word[2] as keyof Texts;
    const language = key === "dose" ? (word[1] as Language) : standing(draft, key, word[1] as Language);
    if (key === "alt" && !draft.drawn) return { path: "purpose", says, language: standing(draft, "purpose", word[1] as Language) };
    const lines = draft.words[language][key];
    return { path: Array.isArray(lines) ? `${key}.${lineAt(lines, Number(word[3] ?? lines.length))}` : key === "dose" ? "dose_says" : key, says, language };
  }
  const kit = /^kit\[([0-9]+)\]\.(en|de)/.exec(path);
  if (kit) {
    const at = draft.kit.indexOf(things(draft)[Number(kit[1])]!);
    const language = kit[2] as Language;
    return { path: `kit.${Math.max(0, at)}`, says, language: blank(draft.kit[at]?.[language] ?? "") ? other(language) : language };
  }
  if (path === "name") return { path: "title", says: "Another exercise goes by this name: give yours another title." };
  if (path.startsWith("drawing")) return { path: "drawing", says };
  if (path === "ask_first" || path === "not_with") return { path: "body", says };
  if (path === "needs.reach") return { path: "reach", says };
  return { path: path.replace(/\[([0-9]+)\]/g, ".$1"), says };
}
