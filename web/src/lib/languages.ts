// Languages in which exercises and sheets can be had.

import type { Language } from "../contract_given.ts";

export const languages: Language[] = ["en", "de"];

const names: Record<Language, string> = { en: "English", de: "Deutsch" };
export const languageSays = (language: string): string => names[language as Language] ?? language;

/** The pupil's language where sheets can be had in it, else English. */
export const sheetLanguage = (language: string): Language => languages.find((one) => one === language) ?? "en";
