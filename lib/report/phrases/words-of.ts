/** A finding in words. */
import type { Diagnostic } from '../../format/diagnostic.js';
import {
  type FileFinding,
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
  const curedBy = curedElsewhere(finding);
  const parts = isOfFile(finding) ? ofFile(finding, findings) : partsOf(finding, findings);
  const { fact } = parts;
  const todo = curedBy ? findings.curedBy({ name: findings[curedBy].name }) : parts.todo;
  return [
    ...(finding.unsure ? [findings.unsure] : []),
    fact,
    ...(say.detail === 'full' && todo !== '' ? [todo] : []),
  ].join(' ');
}

/** Under which finding it is said what mends this one; what a shop can do itself by relaying is said all the same. */
export const curedElsewhere = ({ curedBy, fix }: Finding): keyof FindingParams | null =>
  curedBy && fix?.do !== 'relay' ? curedBy : null;

/** Whether what was odd in a stitch file may have changed its stitches; a table is read as it is written. */
const isDoubtful = ({ code, severity }: Finding): boolean => severity === 'warn' && code.startsWith('file-');

/** What kind of finding it is, in about three words: `satin too wide`. */
export const nameOf = (code: FindingCode, { findings }: Words<'findings'>): string =>
  isFileCode(code) ? findings.file.names[code] : findings[code].name;

/**
 * What was odd in a file and what was assumed: a clause to go behind its name.
 *
 * @example
 * ```ts
 * import { decodeDesign, oddityInWords } from 'lieflat';
 * const table = 'x_mm;y_mm;kind\n0;0;stitch\n3;0;end\n';
 * const { diagnostics } = await decodeDesign(new TextEncoder().encode(table), 'csv');
 * oddityInWords(diagnostics[0], { units: 'mm', detail: 'short' }); // => 'cells are parted by something other than commas; they were read so'
 * ```
 */
export const oddityInWords = (diagnostic: Diagnostic, reader: Reader): string =>
  oddity(diagnostic, wordsFor(reader).findings);

/** The code and its params belong together, which the compiler cannot see of a union. */
const oddity = ({ code, params }: Pick<Diagnostic, 'code' | 'params'>, { file }: FindingWords): string =>
  (file.oddities[code] as (params: object) => string)(params);

const ofFile = (finding: FileFinding, findings: FindingWords) => ({
  fact: findings.file.fact({ ...finding.params, says: oddity(finding, findings) }),
  todo: findings.file.todo({ ...finding.params, doubtful: isDoubtful(finding) }),
});

type FindingWords = Words<'findings'>['findings'];
type PhrasesOf<C extends keyof FindingParams> = {
  readonly [K in C]: { readonly [P in 'fact' | 'todo']: (params: Readonly<FindingParams[K]>) => string };
};

function partsOf<C extends keyof FindingParams>({ code, params }: FindingOf<C>, findings: PhrasesOf<C>) {
  const phrases = findings[code as C];
  return { fact: phrases.fact(params), todo: phrases.todo(params) };
}
