import { describe, expect, it } from 'vitest';
import { EN } from '../../../lib/report/phrases/en.js';
import { ES, SPANISH } from '../../../lib/report/phrases/es.js';
import { GLOSSARY } from '../../../lib/report/phrases/glossary.js';
import { ENGLISH, type Grammar, type Reader, Voice } from '../../../lib/report/phrases/voice.js';
import { FORBIDDEN, forbiddenIn } from '../../forbidden-words.js';
import { paperAt } from '../../papers.js';
import * as examples from './examples.js';

const PAPERS = ['README.md', 'cli/README.md'].map((path) => paperAt(path).text);

/** Every language with the part of the catalog that it has. */
const LANGUAGES: readonly { name: string; phrases: Record<string, unknown>; grammar: Grammar }[] = [
  { name: 'English', phrases: EN, grammar: ENGLISH },
  { name: 'Spanish', phrases: ES, grammar: SPANISH },
];

const READERS: readonly Reader[] = (['mm', 'in'] as const).flatMap((units) =>
  (['short', 'full'] as const).flatMap((detail) =>
    [true, false].map((commands) => ({ units, detail, commands })),
  ),
);

interface Rendered {
  readonly key: string;
  readonly text: string;
}

/** Every phrase of a catalog on every example of its parameters. */
function* rendered(phrases: unknown, given: unknown, say: Voice, key: string): Generator<Rendered> {
  if (typeof phrases === 'string') yield { key, text: phrases };
  else if (typeof phrases === 'function')
    for (const params of (given ?? []) as readonly unknown[]) yield { key, text: phrases(params, say) };
  else
    for (const [name, inner] of Object.entries(phrases as object))
      yield* rendered(inner, (given as Record<string, unknown> | undefined)?.[name], say, `${key}.${name}`);
}

const all = LANGUAGES.flatMap(({ name, phrases, grammar }) =>
  READERS.flatMap((reader) =>
    [...rendered(phrases, examples, new Voice(reader, grammar), name)].map((one) => ({ ...one, reader })),
  ),
);

describe('every phrase, in every language, unit and detail', () => {
  it('has examples for each area', () => {
    expect(Object.keys(EN).filter((area) => !Object.hasOwn(examples, area))).toEqual([]);
    for (const { name, phrases } of LANGUAGES)
      for (const area of Object.keys(phrases))
        expect(
          all.some(({ key }) => key.startsWith(`${name}.${area}.`)),
          `${name}.${area}`,
        ).toBe(true);
    expect(all.length).toBeGreaterThan(4 * 700);
  });

  it('says something, and nothing that went wrong', () => {
    for (const { key, text } of all) {
      expect(typeof text, key).toBe('string');
      expect(text, key).not.toMatch(/undefined|NaN|Infinity|null|\[object| {2}/);
      expect(text, key).not.toMatch(/\.\.|,,|;;| [,;:]| \.(?!\w)/);
    }
  });

  it('uses no word that is not said', () => {
    for (const { key, text } of all) expect(forbiddenIn(text), key).toEqual([]);
  });

  it('names no command to whoever has no terminal, in what a page shows', () => {
    const ON_PAGES = /\.(advice|common|findings|page|picture|proof|relay|reply|resew|risk|setup|vet)\./;
    // What tells of all columns at once takes a command of its own, and is on no page.
    const NOT_THERE = /\.advice\.(relayWith|morePlans)$|\.vet\.(moreAdvice|listAll)$/;
    const shown = all.filter(
      ({ key, reader }) => !reader.commands && ON_PAGES.test(key) && !NOT_THERE.test(key),
    );
    expect(shown.length).toBeGreaterThan(1000);
    for (const { key, text } of shown) expect(text, key).not.toMatch(/\blieflat [a-z]|--[a-z]/);
  });

  it('puts the asked-for system first wherever it gives both', () => {
    for (const { key, text, reader } of all) {
      const [first, second] = reader.units === 'mm' ? ['mm', 'in'] : ['in', 'mm'];
      for (const [pair] of text.matchAll(/[\d.]+ (?:mm|in) \([\d.]+ (?:mm|in)\)/g))
        expect(pair, key).toMatch(new RegExp(`^[\\d.]+ ${first} \\([\\d.]+ ${second}\\)$`));
    }
  });

  it('makes whole sentences of facts and orders', () => {
    const sentences = all.filter(({ key, text }) => /\.(fact|todo)$/.test(key) && text !== '');
    expect(sentences.length).toBeGreaterThan(100);
    for (const { key, text } of sentences) expect(text, key).toMatch(/^[A-Z0-9].*\.$/);
  });

  it('tells what is odd about a file in no word of programmers', () => {
    const told = all.filter(({ key }) => /\.findings\.file\./.test(key));
    expect(told.length).toBeGreaterThan(100);
    for (const { key, text } of told)
      expect(text, key).not.toMatch(/\b(bytes?|bits?|records?|fields?|formats?|LF|CR)\b|\b0x|\bhexa/i);
  });

  it('names a kind of finding in four words at most', () => {
    const names = all.filter(({ key }) => /findings\.[a-z-]+\.name(s\.|$)/.test(key));
    expect(names.length).toBeGreaterThan(100);
    for (const { key, text } of names) {
      expect(text.split(' ').length, key).toBeLessThanOrEqual(4);
      expect(text, key).toMatch(/^[a-z]/);
    }
  });
});

describe('the glossary', () => {
  it('has each thing once, by a name that phrases or papers use', () => {
    const names = GLOSSARY.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    const said = [...all.map(({ text }) => text), ...PAPERS].join('\n').toLowerCase();
    const unsaid = names.filter((name) => !said.includes(name.replace(/^(top|color) /, '')));
    expect(unsaid).toEqual([]);
    for (const { name, meaning } of GLOSSARY) expect(forbiddenIn(`${name}: ${meaning}`)).toEqual([]);
  });
});

describe('the list of forbidden words', () => {
  it('finds each of them, and leaves file kinds and ids alone', () => {
    expect(FORBIDDEN.length).toBeGreaterThan(9);
    const text =
      'The Goods were foreseen and foretold, dearer, in sight if not said, the upper one; nobody said what is not known of its colours at the centre, grey.';
    expect(new Set(forbiddenIn(text).map(({ pattern }) => pattern)).size).toBe(FORBIDDEN.length);
    expect(forbiddenIn('colour blocks of kind `colour` in colourChanges')).toHaveLength(1);
    expect(forbiddenIn('Greyhound, goodsprings, center')).toEqual([]);
  });
});
