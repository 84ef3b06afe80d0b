// The exercises that can be given, in each language: asked for once, kept for as long as the page is open.

import { look } from "./ask.ts";
import type { Catalogue, Language, Shown } from "./contract_given.ts";

const kept: Partial<Record<Language, Catalogue>> = $state({});

/** Fetches them anew; what is known already stays shown meanwhile, and where there is no answer. */
export async function fetchCatalogue(language: Language): Promise<boolean> {
  const answer = await look<Catalogue>(`/api/exercises?language=${language}`);
  if (answer.ok) kept[language] = answer.value;
  return answer.ok;
}

export const catalogueIn = (language: Language): Catalogue | undefined => kept[language];

export function exerciseCalled(name: string, language: Language = "en"): Shown | undefined {
  return kept[language]?.exercises.find((one) => one.name === name);
}
