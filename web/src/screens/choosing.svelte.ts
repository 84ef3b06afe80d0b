// What one needs to choose an exercise in a lesson: the lesson, what would help most, and all there are.

import { look } from "../ask.ts";
import { fetchCatalogue } from "../catalogue.svelte.ts";
import type { Fault, LessonFile } from "../contract.ts";
import type { Language, Ranking } from "../contract_given.ts";
import { shared, tellFault } from "../state.svelte.ts";

export class Choosing {
  file: LessonFile | null = $state(null);
  ranking: Ranking | null = $state(null);
  /** The language of its titles and cautions. */
  rankedIn: Language = $state("en");
  /** Why there is no ranking. */
  trouble: Fault | null = $state(null);
  missing = $state(false);

  constructor(readonly lesson: string) {}

  async fetch(language: Language): Promise<void> {
    const catalogue = fetchCatalogue(language);
    const file = await look<LessonFile>(`/api/lessons/${this.lesson}`);
    if (file.ok) this.file = file.value;
    else {
      this.missing = file.status === 404;
      tellFault(file);
    }
    await catalogue;
    await this.rank(language);
  }

  async rank(language: Language): Promise<void> {
    const answer = await look<Ranking>(`/api/lessons/${this.lesson}/exercises?units=${shared.settings.units}&language=${language}`);
    if (answer.ok) [this.ranking, this.rankedIn] = [answer.value, language];
    this.trouble = answer.ok ? null : answer.fault;
  }
}
