/** What the card is said in. */
import { ES, SPANISH } from '../phrases/es.js';
import { type Words, wordsFor, wordsIn } from '../phrases/words.js';
import type { Units } from '../quantities.js';

/** Languages that the card speaks. */
export const CARD_LANGUAGES = ['en', 'es'] as const;
export type CardLanguage = (typeof CARD_LANGUAGES)[number];

export type CardWords = Words<'card' | 'setup'>;

export function cardWords(language: CardLanguage, units: Units): CardWords {
  const reader = { units, detail: 'full' } as const;
  return language === 'es' ? wordsIn(ES, SPANISH, reader) : wordsFor(reader);
}
