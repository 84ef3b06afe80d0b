// What the server and the page agree on about exercises, what was given, its proof, the plan and the sheet:
// docs/contract.md, as types.

export const purposes = ["", "baseline", "exercise", "after", "retention", "transfer", "pressure"] as const;
/** What a swing was hit for; "" = for nothing but the reading. */
export type Purpose = (typeof purposes)[number];

export type Language = "en" | "de";

/** A figure with its 80 % interval. */
export interface Spread {
  mean: number;
  p10: number;
  p90: number;
}

export interface Dose {
  balls: number;
  sets: number;
  rest_s: number;
  minutes: number;
  days_a_week: number;
}

/** An exercise as it may be shown: never without its cautions. */
export interface Shown {
  name: string;
  own: boolean;
  id: string | null;
  family: string;
  source: string;
  title: string;
  purpose: string;
  cue: string;
  steps: string[];
  self_check: string[];
  errors: string[];
  progression: string;
  regression: string;
  cautions: string[];
  dose_says: string;
  /** What the drawing shows, for whoever cannot see it. */
  shows: string;
  /** SVG text for a right-hander, without letters; "" = none. */
  drawing: string;
  kit: string[];
  condition: string;
  ball: boolean;
  turf: boolean;
  stage: string;
  dose: Dose;
  ground: string[];
  clubs: string[];
  load: string[];
  balance: boolean;
  jump: boolean;
  not_with: string[];
  ask_first: string[];
  crowded: boolean;
  /** Share of the full swing's length. */
  reach: number;
  moves: Move[];
}

/** What a dose is assumed to do to a cause; the units are those of docs/exercises.md. */
export interface Move {
  cause: string;
  home: number;
  home_sd: number;
  shift: number;
  shift_sd: number;
  scatter: number;
  scatter_sd: number;
}

/** May the pupil be given it: freely, after asking, not at all. */
export type Permission = "free" | "flagged" | "hidden";

export interface Catalogue {
  language: Language;
  /** The cautions that hold for every exercise. */
  always: string[];
  exercises: Shown[];
}

export interface Ranked {
  name: string;
  title: string;
  purpose: string;
  own: boolean;
  permission: Exclude<Permission, "hidden">;
  reasons: string[];
  /** The cause through which most of the gain comes. */
  by: string;
  by_says: string;
  gain_m: Spread;
  fewer_bad: Spread;
  score_m: Spread;
  probability_gain: number;
  probability_best: number;
  says: string;
  learned: { times: number; pupils: number; says: string } | null;
  /** Its own, what this pupil's body asks for, then those of every exercise. */
  cautions: string[];
}

export interface Ranking {
  lesson: string;
  club: string | null;
  rests_on_prior: boolean;
  says: string[];
  now: { distance_m: Spread; bad_share: Spread } | null;
  ranked: Ranked[];
  left_out: { name: string; title: string; reasons: string[] }[];
  second_first: string[];
  /** Of every exercise. */
  cautions: string[];
}

export interface Given {
  id: string;
  pupil: string;
  lesson: string;
  /** Its name; "" = a note. */
  exercise: string;
  at: string;
  notes: string;
  /** A Dose as JSON; "" = as the exercise says. */
  dose: string;
  cause: string;
  why: string;
  ended_at: string;
  /** The sheet handed over, as JSON; "" = none. */
  sheet: string;
  /** What it asks of this pupil, as the server says; left out where it could not be asked yet. */
  permission?: Permission;
  reasons?: string[];
  cautions?: string[];
}

export type Verdict = "not_yet" | "no_change_seen" | "probably" | "yes" | "worse";

export interface Change {
  verdict: Verdict;
  before_balls: number;
  after_balls: number;
  before: Spread;
  change: Spread;
  improvement: Spread;
  p_improved: number;
  p_worth: number;
  p_worse: number;
  evidence: number;
  scatter_ratio: Spread;
  p_steadier: number;
  forecast: { balls: number; beyond: boolean } | null;
}

export interface Later {
  held: "nothing_seen" | "not_yet" | "probably" | "yes" | "lost";
  days: number;
  /** Transfer: were there balls of that club before? */
  own_baseline: boolean;
  change: Change;
}

export type Phase = Exclude<Purpose, "">;

export interface ProofPoint {
  swing: string;
  number: number;
  lesson: string;
  day: string;
  phase: Phase;
  /** Before, with the club of the transfer's balls. */
  other_club: boolean;
  /** null: what was seen tells next to nothing of it. */
  value: number | null;
  sd: number | null;
}

export interface SingleCase {
  nap: number;
  nap_low: number;
  nap_high: number;
  tau: number;
  tau_u: number;
  tau_bc: number;
  pnd: number;
  pand: number;
  pem: number;
  ird: number;
  says: string;
}

export interface Proof {
  given: string;
  exercise: string;
  title: string;
  /** "low point", and the unit of all its values: "cm", "in", "°". */
  quantity: string;
  unit: string;
  /** Which way more and less are, in words: "ahead", "behind". */
  plus: string;
  minus: string;
  wish: { from: number | null; to: number | null };
  smallest_worth: number;
  counted: Record<Phase, number>;
  dose_balls: number | null;
  /** Sentences; the first is the verdict. */
  says: string[];
  session: Change;
  retention: Later | null;
  transfer: Later | null;
  pressure: Later | null;
  points: ProofPoint[];
  single_case: SingleCase | null;
}

export interface PlanSession {
  id: string;
  day: string;
  order: "blocked" | "serial" | "random";
  exercise_balls: number;
  sets: number;
  other_balls: number;
  clubs: number;
  minutes: number;
  self_test: boolean;
  says: string;
}

export interface Plan {
  given: string;
  today: string;
  next_lesson: string;
  sessions: PlanSession[];
  weeks: { from: string; to: string; balls: number; at_most: number }[];
  target: { of: number; now: number | null; goal: number };
  junior: boolean;
  /** What the pupil hits a week now was not known. */
  weekly_now_assumed: boolean;
}

export interface Progress {
  club: string | null;
  unit: string;
  lessons: { lesson: string; day: string; low_point: Spread | null; scatter: Spread | null; result_m: Spread | null; n: number }[];
  given: { id: string; exercise: string; title: string; from: string; to: string | null }[];
}
