import { english } from './english.ts';

/**
 * Every sentence a person reads, by key. A language is one file that has the same keys: `english` is the first,
 * and its shape is the type that any other has to fill.
 */
export type Words = typeof english;

export const languages = { en: english } as const;
export type Language = keyof typeof languages;

export function wordsIn(language: Language): Words {
  return languages[language];
}
