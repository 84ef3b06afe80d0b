// The form's state: the draft, the language in which it is written, what is wrong with it, what this device keeps of it.

import type { Language } from "../contract_given.ts";
import { kept } from "../state.svelte.ts";
import { freshDraft, type Draft, type Texts } from "./draft.ts";
import type { Issue } from "./document.ts";

export const idOf = (path: string): string => `w-${path.replaceAll(".", "-")}`;

/** The folds of the form, and the fields within them. */
const folds = { where: ["kit", "ground", "clubs", "condition", "ball", "turf", "crowded", "reach", "drawing"], dose: ["dose", "dose_says", "stage"], body: ["body", "load", "balance", "jump"], moves: ["moves"] };
export type Fold = keyof typeof folds;

export class Writing {
  draft: Draft;
  language: Language = $state("en");
  issues: Issue[] = $state([]);
  open: Record<Fold, boolean> = $state({ where: false, dose: false, body: false, moves: false });

  constructor(draft: Draft, language: Language) {
    this.draft = $state(draft);
    this.language = language;
  }

  get texts(): Texts {
    return this.draft.words[this.language];
  }

  private concerns = (issue: Issue, path: string): boolean => issue.path === path && (!issue.language || issue.language === this.language);

  /** What is wrong with a field; "" = nothing that is known. */
  wrong(path: string): string {
    return this.issues.find((issue) => this.concerns(issue, path))?.says ?? "";
  }

  /** The coach is at it: what was said of a field, and of those within it, is no longer shown. */
  touched(path: string): void {
    this.issues = this.issues.filter((issue) => !(this.concerns(issue, path) || issue.path.startsWith(`${path}.`)));
  }

  /** Brings the field of an issue onto the screen: its language, its fold. */
  show(issue: Issue): void {
    if (issue.language) this.language = issue.language;
    const [first = ""] = issue.path.split(".");
    for (const [fold, fields] of Object.entries(folds)) if (fields.includes(first)) this.open[fold as Fold] = true;
  }
}

const shelfKey = (key: string): string => `strikewright.draft.${key}`;

/** A draft that was left unfinished on this device. */
export function keptDraft(key: string): Draft | null {
  try {
    const draft = JSON.parse(kept.getItem(shelfKey(key)) ?? "null") as Draft | null;
    return draft && draft.words?.en && draft.words.de ? { ...freshDraft(draft.units), ...draft } : null;
  } catch {
    return null;
  }
}

/** @returns false where this browser keeps nothing more */
export function keepDraft(key: string, draft: Draft): boolean {
  try {
    kept.setItem(shelfKey(key), JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

export function dropDraft(key: string): void {
  kept.removeItem(shelfKey(key));
}
