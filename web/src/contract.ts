// What the server and the page agree on: docs/contract.md, as types. Names and units are the server's.

import type { Given, Purpose } from "./contract_given.ts";

export type { Given };
export type Hand = "right" | "left";
export type Units = "metric" | "yards";

export interface Fault {
  place: string;
  found: string;
  expected: string;
}

export interface About {
  version: string;
  book: string;
  empty: boolean;
  shared: boolean;
  at_home: boolean;
}

export interface Column {
  name: string;
  dimension: string;
  says: string;
  /** Is it the name that its kind goes by, not the same in another unit? */
  main?: boolean;
  unit?: string;
  words?: string[];
  /** The ordinary spread of such a look, in the column's unit. */
  sure?: number;
  /** What comes to it, as a share of the figure itself. */
  share?: number;
}

export interface Club {
  name: string;
  says: string;
  loft_deg: number;
  family?: string;
  blade?: FaceBlade;
}

export interface Words {
  clubs: Club[];
  surfaces: string[];
  conditions: { name: string; says: string }[];
  skills: string[];
  columns: Column[];
}

export interface Settings {
  units: Units;
  from: "usual" | "best";
  place: string;
  surface: string;
  sure: Record<string, string>;
}

export interface Pupil {
  id: string;
  name: string;
  hand: Hand;
  skill: string;
  height_m: number | null;
  birth_year: number | null;
  notes: string;
  cautions: string;
  bag: string;
  made_at: string;
  /** Of what the pupil is given to read: "en", "de". */
  language: string;
  /** The adult who answers for the pupil, and for what; "" = none noted. */
  guardian: string;
  /** Days: "2026-11-25", or "". */
  consent_at: string;
  next_lesson_at: string;
  /** Balls a week that the pupil has time for. */
  weekly_balls: number | null;
}

export interface PupilLine {
  pupil: Pupil;
  lessons: number;
  swings: number;
  last_lesson_at: string;
}

export interface Lesson {
  id: string;
  pupil: string;
  begun_at: string;
  place: string;
  notes: string;
  club: string;
  condition: string;
  surface: string;
  ball: boolean;
  revision: number;
}

/** One thing seen: a column of the sightings file, its unit in the name, and the text as it was entered. */
export interface Entered {
  column: string;
  text: string;
}

export interface Swing {
  id: string;
  lesson: string;
  number: number;
  club: string;
  condition: string;
  surface: string;
  ball: boolean;
  at: string;
  seen: Entered[];
  /** The exercise given that it was a part of, and what for; left out = none. */
  given?: string;
  purpose?: Purpose;
}

export interface SwingChange {
  number: number;
  at: string;
  who: string;
  what: string;
  seen: Entered[];
  club: string;
  condition: string;
  surface: string;
  ball: boolean;
  hit_at: string;
}

export interface Estimate {
  mean: number;
  p10: number;
  p90: number;
  sd?: number;
}

export interface LessonLine {
  lesson: Lesson;
  swings: number;
  reading: Summary | null;
  given: Given[];
}

export interface PupilFile {
  pupil: Pupil;
  lessons: LessonLine[];
}

export interface LessonFile {
  lesson: Lesson;
  pupil: Pupil;
  swings: Swing[];
}

export interface SaidWords {
  kind: "pattern" | "why" | "health";
  heading: string;
  paragraphs: string[];
}

export interface Conflict {
  swing: number;
  id: string;
  number: number;
  columns: string[];
  text: string;
  likelier_slip?: string | null;
}

export interface NextLook {
  look: "condition" | "column";
  name: string;
  swings: number;
  seconds: number;
  condition?: string;
  column?: string;
  columns?: string[];
}

/** The little of a reading that a timeline shows. */
export interface Summary {
  patterns: { club: string; condition: string; hand: Hand; n: number; low_point_mm: Estimate; low_point_scatter_mm: Estimate }[];
}

export interface DivotMark {
  id: string;
  number: number;
  start_mm: number | null;
  end_mm: number | null;
  direction_deg: number | null;
  depth_mm: number | null;
}

export interface FaceBlade {
  length_mm: number;
  height_mm: number;
  grooves: number;
  first_groove_mm: number;
  groove_spacing_mm: number;
}

/** How the club passes in the middle of a pattern: for the flail, which alone knows what is in it. */
export type Pass = Record<string, number>;

export interface Picture {
  club: string;
  condition: string;
  hand: Hand;
  ball: boolean;
  n: number;
  pass: Pass;
  strip: { cloud: [number, number][]; low_point_mm: Estimate; divots: DivotMark[] };
  side: {
    arc: [number, number][];
    arcs: [number, number][][];
    handle: { lead_mm: number; height_mm: number };
    shaft_lean_deg: Estimate;
    attack_deg: Estimate;
    low_point_mm: Estimate;
    low_point_depth_mm: Estimate;
  };
  above: {
    cloud: [number, number][];
    path_deg: Estimate;
    face_deg: Estimate;
    face_to_path_deg: Estimate;
    plane_direction_deg: Estimate;
  };
  face: {
    cloud: [number, number][];
    marks: { id: string; number: number; toe_mm: number | null; up_mm: number | null }[];
    blade: FaceBlade;
  };
  sure: Sure[];
}

export interface Sure {
  key: string;
  says: string;
  unit: string;
  mean: number;
  p10: number;
  p90: number;
  seen: number;
}

export interface Reading {
  lesson: string;
  revision: number;
  n: number;
  ids: string[];
  numbers: number[];
  words: SaidWords[];
  conflicts: Conflict[];
  next_look: NextLook[];
  pictures: Picture[];
}

export interface Preview {
  columns: { theirs: string; ours: string; guessed: boolean }[];
  rows: string[][];
  swings: Swing[];
  faults: Fault[];
}

export const levers = ["weight_mm", "release_ms", "height_mm", "handle_deg", "face_turn_deg", "plane_tilt_deg", "speed_mps"] as const;
export type Lever = (typeof levers)[number];
export type Moved = Partial<Record<Lever, number>>;

export interface FlailAsked {
  hand: Hand;
  skill: string;
  club: string;
  units: Units;
  pass?: Pass;
  moved: Moved;
  noise: number;
}

export interface Frame {
  t_ms: number;
  hub: [number, number];
  hands: [number, number];
  head: [number, number];
}

export interface FlailPicture {
  frames: Frame[];
  arc: [number, number][];
  contact: Record<string, number>;
  plan: { path_deg: number; face_deg: number; plane_direction_deg: number };
  ball: { carry_m: number; start_deg: number; curve_m: number; apex_m: number } | null;
  missed?: string | null;
  moved: Moved;
  reach: Partial<Record<Lever, [number, number]>>;
  says: string[];
}

export interface Way {
  way: "handle_led" | "wrist_driven";
  says: string;
  n: number;
  sd: { low_point_mm: number; strike_up_mm: number; start_deg: number; curve_m: number; carry_m: number };
  strip: [number, number][];
  face: [number, number][];
  flight: [number, number][];
}

export interface Pairing {
  shared: boolean;
  url?: string;
  code?: string;
  code_ends_at?: string;
  fingerprint?: string;
  qr?: number[][];
}

export interface Device {
  id: string;
  name: string;
  paired_at: string;
  seen_at: string;
  this: boolean;
}
