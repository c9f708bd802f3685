/** A finding in words. */
import {
  type Finding,
  type FindingCode,
  type FindingOf,
  type FindingParams,
  isFileCode,
  isOfFile,
} from '../../vetting/finding.js';
import type { Reader } from './voice.js';
import { type Words, wordsFor } from './words.js';

/**
 * The sentence of a finding: the fact, and for the detail `full` what to do about it.
 *
 * @example
 * ```ts
 * import { factsOf, readDesignFile, shopOf, wordsOf } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * wordsOf(vetting.findings[0], { units: 'mm', detail: 'short' }).startsWith('Satin column 4.9 mm (0.19 in) wide'); // => true
 * ```
 */
export const wordsOf = (finding: Finding, reader: Reader): string => sayFinding(finding, wordsFor(reader));

/** The same with words that are at hand. */
export function sayFinding(finding: Finding, { findings, say }: Words<'findings'>): string {
  const { fact, todo } = isOfFile(finding)
    ? { fact: findings.file.fact(finding.params), todo: findings.file.todo(finding.params) }
    : partsOf(finding, findings);
  return [
    ...(finding.unsure ? [findings.unsure] : []),
    fact,
    ...(say.detail === 'full' && todo !== '' ? [todo] : []),
  ].join(' ');
}

/** What kind of finding it is, in about three words: `satin too wide`. */
export const nameOf = (code: FindingCode, { findings }: Words<'findings'>): string =>
  isFileCode(code) ? (findings.file.names[code] ?? findings.file.name) : findings[code].name;

type PhrasesOf<C extends keyof FindingParams> = {
  readonly [K in C]: { readonly [P in 'fact' | 'todo']: (params: Readonly<FindingParams[K]>) => string };
};

function partsOf<C extends keyof FindingParams>({ code, params }: FindingOf<C>, findings: PhrasesOf<C>) {
  const phrases = findings[code as C];
  return { fact: phrases.fact(params), todo: phrases.todo(params) };
}
