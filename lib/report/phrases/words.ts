/** The phrases of a language in the voice of a reader: what the builders of documents speak with. */
import { EN } from './en.js';
import { ENGLISH, type Grammar, type Reader, Voice } from './voice.js';

/** Every phrase, by area; another language has the same keys and parameters. */
export type Phrases = typeof EN;

/** A phrase, or a record of phrases, with the voice in it already. */
export type Spoken<T> = T extends (params: infer P, say: Voice) => string
  ? (params: P) => string
  : T extends string
    ? T
    : { readonly [K in keyof T]: Spoken<T[K]> };

/** What a builder gets: `words.vet.title`, `words.vet.stitches({…})`, and `words.say` for bare figures. */
export type Words<A extends keyof Phrases = keyof Phrases> = Spoken<Pick<Phrases, A>> & {
  readonly say: Voice;
};

/** The phrases of a language, or the part of them that it has, for one reader. */
export function wordsIn<A extends keyof Phrases>(
  phrases: Pick<Phrases, A>,
  grammar: Grammar,
  reader: Reader,
): Words<A> {
  const say = new Voice(reader, grammar);
  return { ...(spoken(phrases, say) as object), say } as Words<A>;
}

const known = new Map<string, Words>();

/** English for a reader. */
export function wordsFor(reader: Reader): Words {
  const key = `${reader.units} ${reader.detail} ${reader.commands ?? true}`;
  const words = known.get(key) ?? wordsIn(EN, ENGLISH, reader);
  known.set(key, words);
  return words;
}

function spoken(phrase: unknown, say: Voice): unknown {
  if (typeof phrase === 'function') return (params: unknown) => phrase(params, say);
  if (Array.isArray(phrase)) return phrase.map((inner) => spoken(inner, say));
  if (typeof phrase !== 'object' || phrase === null) return phrase;
  return Object.fromEntries(Object.entries(phrase).map(([key, inner]) => [key, spoken(inner, say)]));
}
