// The lesson on the desk: what the pad holds, what has been kept, what can be undone, what the reading says.

import { away, look } from "../ask.ts";
import type { Club, Entered, Lesson, LessonFile, Pupil, Reading, Swing } from "../contract.ts";
import { newId, overlaid, overlaidLesson, summary } from "../lib/swing.ts";
import { bladeOf, isWood } from "../pictures/face.ts";
import { usualCarry } from "../pad/geometry.ts";
import { Practice } from "./practice.svelte.ts";
import type { Purpose } from "../contract_given.ts";
import { counting, purposeSays } from "../lib/given.ts";
import { drain, keep, outbox, shared, tell, tellFault } from "../state.svelte.ts";

interface Step {
  says: string;
  undo: () => void;
}

export type Setting = Pick<Lesson, "club" | "condition" | "surface" | "ball">;

export class Desk {
  lesson: Lesson | null = $state(null);
  pupil: Pupil | null = $state(null);
  kept: Swing[] = $state([]);
  /** What the pad holds: a new ball, or the swing that is being corrected. */
  seen: Entered[] = $state([]);
  /** The swing that is open for correction. */
  open: Swing | null = $state(null);
  reading: Reading | null = $state(null);
  /** Is a newer reading on its way? */
  working = $state(false);
  /** Parts of the pad that the next look asks for. */
  lit: string[] = $state([]);
  far = $state(false);
  missing = $state("");
  past: Step[] = $state([]);
  /** The exercise that runs in this lesson. */
  readonly practice: Practice = new Practice(this);

  /** The pad as it was before a swing was opened. */
  private aside: Entered[] = [];
  private again = false;
  private turn = 0;

  constructor(readonly id: string) {}

  swings: Swing[] = $derived.by(() => overlaid(this.id, this.kept, shared.waiting));
  setting: Setting = $derived(this.open ?? this.lesson ?? { club: "7i", condition: "normal", surface: "fairway", ball: true });
  club: Club | undefined = $derived(shared.words?.clubs.find((club) => club.name === this.setting.club));
  blade = $derived(this.club?.blade ?? bladeOf(this.setting.club));
  wood = $derived(this.club?.family ? ["driver", "wood", "hybrid"].includes(this.club.family) : isWood(this.setting.club));
  usual = $derived(usualCarry(this.club?.loft_deg ?? 34));

  /** The lesson and its reading, from the server; laid over it, what waits. */
  async fetch(): Promise<void> {
    await this.fetchFile();
    if (this.lesson) await Promise.all([this.read(), this.practice.fetch()]);
  }

  private async fetchFile(): Promise<void> {
    const turn = ++this.turn;
    const answer = await look<LessonFile>(`/api/lessons/${this.id}`);
    if (turn !== this.turn) return;
    if (!answer.ok) return this.fetchFromOutbox(answer.status);
    this.lesson = overlaidLesson(this.id, answer.value.lesson, outbox.waiting());
    this.pupil = answer.value.pupil;
    this.kept = answer.value.swings;
    this.missing = "";
  }

  /** News of this lesson from another screen; news of what was sent from here is known already. */
  async heard(revision: number): Promise<void> {
    if (!this.lesson || revision > this.lesson.revision || revision > (this.reading?.revision ?? 0)) await this.fetch();
    else await this.practice.refresh();
  }

  /** A lesson that was begun while the server was away is known only to the outbox. */
  private async fetchFromOutbox(status: number): Promise<void> {
    this.lesson ??= overlaidLesson(this.id, null, outbox.waiting());
    if (this.lesson) {
      const file = await look<{ pupil: Pupil }>(`/api/pupils/${this.lesson.pupil}`);
      if (file.ok) this.pupil = file.value.pupil;
    }
    if (!this.pupil) this.missing = status === away ? "The server does not answer, and this lesson has not been seen on this page." : "This lesson is not in the book.";
  }

  /** One reading at a time; a change meanwhile asks for one more. */
  async read(): Promise<void> {
    if (this.working) {
      this.again = true;
      return;
    }
    this.working = true;
    do {
      this.again = false;
      const answer = await look<Reading>(`/api/lessons/${this.id}/reading?units=${shared.settings.units}`);
      if (answer.ok && !answer.remembered) this.reading = answer.value;
      else if (!answer.ok && answer.status !== away && answer.status !== 404) tellFault(answer);
    } while (this.again);
    this.working = false;
  }

  // ---- the pad ----

  mark = (seen: Entered[]): void => {
    const before = this.seen;
    this.step("the last mark", () => (this.seen = before));
    this.seen = seen;
  };

  keepBall(): void {
    this.keepSwing(this.seen);
    this.seen = [];
  }

  /** A ball of the exercise of which nothing was looked at: it only counts. What is on the pad stays there. */
  countBall(): void {
    this.keepSwing([]);
  }

  private keepSwing(seen: Entered[]): void {
    if (!this.lesson) return;
    const { club, condition, surface, ball } = this.lesson;
    const swing = this.practice.mark({ id: newId("s"), lesson: this.id, number: 0, club, condition, surface, ball, at: new Date().toISOString(), seen });
    const number = 1 + Math.max(0, ...this.swings.map((one) => one.number));
    this.step(`swing ${number}`, () => {
      if (seen.length) this.seen = seen;
      void this.send("DELETE", swing, `swing ${number} taken back`);
    });
    const counts = swing.purpose ? `, ${purposeSays(swing.purpose)} ${this.practice.counts[swing.purpose] + 1}` : "";
    tell(`Swing ${number} kept${counts}: ${summary(seen, shared.settings.units)}`);
    void this.send("PUT", swing, `swing ${number}`);
  }

  /** The last ball's sightings on the pad again. */
  sameAsBefore(): void {
    const last = this.swings.at(-1);
    if (last) this.mark(last.seen.map((entered) => ({ ...entered })));
  }

  // ---- swings that have been kept ----

  correct(swing: Swing): void {
    if (!this.open) this.aside = this.seen;
    this.open = { ...swing };
    this.seen = swing.seen;
    this.past = this.past.filter((step) => !step.says.startsWith("the last mark"));
    tell(`Swing ${swing.number} is open`);
  }

  closeOpen(): void {
    this.open = null;
    this.seen = this.aside;
    this.aside = [];
    this.past = this.past.filter((step) => !step.says.startsWith("the last mark"));
  }

  closeOpenIfAny(): void {
    if (this.open) this.closeOpen();
  }

  keepCorrection(): void {
    if (!this.open) return;
    const before = this.swings.find((swing) => swing.id === this.open!.id);
    const after: Swing = { ...this.open, seen: this.seen };
    this.closeOpen();
    if (before) this.step(`the correction of swing ${after.number}`, () => void this.send("PUT", before, `swing ${after.number} as before`));
    tell(`Swing ${after.number} corrected`);
    void this.send("PUT", after, `swing ${after.number} corrected`);
  }

  remove(swing: Swing): void {
    if (this.open?.id === swing.id) this.closeOpen();
    this.step(`the removal of swing ${swing.number}`, () => void this.send("PUT", swing, `swing ${swing.number} put back`));
    tell(`Swing ${swing.number} removed`);
    void this.send("DELETE", swing, `swing ${swing.number} removed`);
  }

  private async send(method: "PUT" | "DELETE", swing: Swing, says: string): Promise<void> {
    const path = `/api/swings/${swing.id}`;
    // Shown at once, whether or not the server is there; its own list replaces this one as soon as it comes.
    this.kept = overlaid(this.id, this.kept, [{ key: "", method, path, says, body: swing }]);
    const done = await keep({ method, path, says, ...(method === "PUT" ? { body: $state.snapshot(swing) } : {}) });
    if (!done) return;
    // The reading first: the proof reads every ball by itself, and may take longer.
    void this.read().then(() => (this.practice.now ? this.practice.prove() : undefined));
    await this.fetchFile();
  }

  // ---- how the next swings are made ----

  set(change: Partial<Setting>): void {
    if (this.open) {
      this.open = { ...this.open, ...change };
      return;
    }
    if (!this.lesson) return;
    const before = this.setting;
    const back = Object.fromEntries(Object.keys(change).map((key) => [key, before[key as keyof Setting]]));
    this.step("the change of setting", () => this.putLesson(back));
    this.putLesson(change);
  }

  /** What the next swings count as, and so how they are made; or what the open swing counted as. */
  countAs(purpose: Purpose): void {
    if (this.open) {
      this.open = counting(this.open, this.practice.now?.id ?? this.open.given ?? "", purpose);
      return;
    }
    if (!this.lesson) return;
    const [before, was] = [this.practice.purpose, this.setting];
    const way = this.practice.how(purpose);
    this.step(`the switch to “${purposeSays(purpose)}”`, () => {
      this.practice.switchTo(before);
      this.putLesson({ condition: was.condition, ball: was.ball });
    });
    this.practice.switchTo(purpose);
    if (way.condition !== was.condition || way.ball !== was.ball) this.putLesson(way);
    tell(`Next swings: ${purposeSays(purpose)}`);
  }

  async endExercise(): Promise<void> {
    const { title } = this.practice;
    await this.practice.end();
    this.set({ condition: "normal", ball: true });
    tell(`Ended: ${title}`);
  }

  putLesson(change: Partial<Lesson>): void {
    if (!this.lesson) return;
    this.lesson = { ...this.lesson, ...change };
    void keep({ method: "PUT", path: `/api/lessons/${this.id}`, says: "the lesson's setting", body: $state.snapshot(this.lesson) });
  }

  // ---- undo ----

  private step(says: string, undo: () => void): void {
    this.past.push({ says, undo });
  }

  undo(): void {
    const step = this.past.pop();
    if (!step) return;
    step.undo();
    tell(`Undone: ${step.says}`);
  }

  async sendWaiting(): Promise<void> {
    if (await drain()) await this.fetch();
  }
}
