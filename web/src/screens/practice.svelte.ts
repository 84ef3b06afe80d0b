// The exercise that runs in a lesson: which one, what the next swing counts as, what its proof says.

import { look } from "../ask.ts";
import { exerciseCalled, fetchCatalogue } from "../catalogue.svelte.ts";
import type { Lesson, Swing } from "../contract.ts";
import type { Given, Proof, Purpose, Shown } from "../contract_given.ts";
import { choices, counted, counting, doseOf, howSwung, overlaidGiven, plainBefore, purposeAtStart, runningIn, type Counts } from "../lib/given.ts";
import { keep, outbox, shared } from "../state.svelte.ts";

/** What it needs of the desk. */
export interface Bench {
  readonly lesson: Lesson | null;
  readonly swings: Swing[];
  readonly kept: Swing[];
}

export class Practice {
  private kept: Given[] = $state([]);
  /** What the coach has switched to; null = as the last swing. */
  private switched: { given: string; purpose: Purpose } | null = $state(null);
  proof: Proof | null = $state(null);
  private working = false;
  private again = false;

  constructor(private readonly bench: Bench) {}

  /** Everything given to the pupil, oldest first. */
  all: Given[] = $derived.by(() => (this.bench.lesson ? overlaidGiven(this.bench.lesson.pupil, this.kept, shared.waiting) : []));
  now: Given | null = $derived.by(() => (this.bench.lesson ? runningIn(this.bench.lesson, this.all) : null));
  exercise: Shown | undefined = $derived(this.now ? exerciseCalled(this.now.exercise) : undefined);
  title: string = $derived(this.exercise?.title ?? this.now?.exercise.replaceAll("_", " ") ?? "");
  counts: Counts = $derived.by(() => counted(this.bench.swings, this.now?.id ?? ""));
  /** Balls before: those that were hit as such, and the plain ones of the lesson in which it was given. */
  before: number = $derived.by(() => {
    const here = this.now?.lesson === this.bench.lesson?.id ? plainBefore(this.bench.swings, this.now?.id ?? "") : 0;
    return this.counts.baseline + here;
  });
  dose: number = $derived(this.now ? (doseOf(this.now, this.exercise)?.balls ?? 0) : 0);

  /** What has been done of it in all lessons, as far as this page knows. */
  private done = $derived.by(() => {
    const proven = this.proof?.given === this.now?.id ? this.proof?.counted : undefined;
    return { exercise: Math.max(this.counts.exercise, proven?.exercise ?? 0), after: Math.max(this.counts.after, proven?.after ?? 0) };
  });
  choices: Purpose[] = $derived.by(() => (this.now && this.bench.lesson ? choices(this.now, this.bench.lesson, this.done) : []));
  purpose: Purpose = $derived.by(() => {
    const { now } = this;
    if (!now || !this.bench.lesson) return "";
    if (this.switched?.given === now.id && this.choices.includes(this.switched.purpose)) return this.switched.purpose;
    return purposeAtStart(now, this.bench.lesson, this.bench.swings, this.choices);
  });

  /** Was nothing of it done yet, so that it can be taken back as if it had never been given? */
  untouched: boolean = $derived.by(() => this.done.exercise + this.done.after === 0 && this.now?.lesson === this.bench.lesson?.id);

  /** What the proof says first, once something of the exercise has been done. */
  said: string = $derived.by(() => (this.proof && this.proof.given === this.now?.id && this.done.exercise + this.done.after > 0 ? (this.proof.says[0] ?? "") : ""));

  switchTo(purpose: Purpose): void {
    if (this.now) this.switched = { given: this.now.id, purpose };
  }

  /** How the next swings are made when they count as `purpose`. */
  how = (purpose: Purpose): { condition: string; ball: boolean } => howSwung(purpose, this.exercise, this.bench.swings, this.now?.id ?? "");

  /** A new swing with what it counts as. */
  mark = (swing: Swing): Swing => counting(swing, this.now?.id ?? "", this.purpose);

  async fetch(): Promise<void> {
    await this.fetchGiven();
    await this.prove();
  }

  /** After news from elsewhere: the proof is asked for anew only where another exercise runs. */
  async refresh(): Promise<void> {
    await this.fetchGiven();
    if (this.proof?.given !== this.now?.id) await this.prove();
  }

  private async fetchGiven(): Promise<void> {
    const pupil = this.bench.lesson?.pupil;
    if (!pupil) return;
    const answer = await look<{ given: Given[] }>(`/api/pupils/${pupil}/given`);
    if (answer.ok) this.kept = answer.value.given;
    if (this.now && !this.exercise) await fetchCatalogue("en");
  }

  /** One proof at a time; a ball meanwhile asks for one more. */
  async prove(): Promise<void> {
    if (this.working) {
      this.again = true;
      return;
    }
    this.working = true;
    do {
      this.again = false;
      const id = this.now?.id;
      const answer = id ? await look<Proof>(`/api/given/${id}/proof?units=${shared.settings.units}`) : null;
      if (answer?.ok) this.proof = answer.value;
      else if (this.proof?.given !== id) this.proof = null;
    } while (this.again);
    this.working = false;
  }

  /** Keeps a change of what was given; other screens see it at once. */
  async put(given: Given, says: string): Promise<void> {
    await keep({ method: "PUT", path: `/api/given/${given.id}`, body: given, says });
    await this.fetch();
  }

  async end(): Promise<void> {
    if (this.now) await this.put({ ...$state.snapshot(this.now), ended_at: new Date().toISOString() }, `the end of ${this.title}`);
  }

  /** As if it had never been given: the swings before it are plain ones again. */
  async takeBack(): Promise<void> {
    const { now } = this;
    const lesson = this.bench.lesson;
    if (!now || !lesson) return;
    const marked = this.bench.swings.filter((swing) => swing.given === now.id).map((swing) => counting($state.snapshot(swing), "", ""));
    if (marked.length) outbox.add({ method: "PUT", path: `/api/lessons/${lesson.id}/swings`, body: { swings: marked }, says: "swings that no longer count" });
    await keep({ method: "DELETE", path: `/api/given/${now.id}`, says: `${this.title} taken back` });
    await this.fetch();
  }
}
