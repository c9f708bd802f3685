import type { Diagnostic, OddityCode } from '../../format/diagnostic.js';
import type { Finder } from '../context.js';
import type { FileFinding } from '../finding.js';
import { NOWHERE } from '../place-of.js';

/** Oddities that change nothing of what is sewn; every other one is a warning. */
const HARMLESS: ReadonlySet<OddityCode> = new Set([
  'file-bytes-after-end',
  'file-end-position',
  'file-header-field-extra',
  'file-header-field-garbled',
  'file-header-field-missing',
  'file-header-field-repeated',
  'file-header-garbled',
  'file-header-line-ends',
  'file-header-no-end-mark',
  'file-header-padding',
  'file-stop-list',
  'file-thread-list',
]);
const NO_END = 'file-no-end-record';
/** Of one kind of oddity so many are told one by one. */
const MOST_OF_A_KIND = 4;

/** What was odd in the file. */
export const decoding: Finder = ({ design }) => {
  const cutOff = isCutOff(design.diagnostics);
  const times = new Map<string, number>();
  for (const { code } of design.diagnostics) times.set(code, (times.get(code) ?? 0) + 1);
  const told = new Map<string, number>();
  return design.diagnostics.flatMap((diagnostic) => {
    const { code } = diagnostic;
    const already = told.get(code) ?? 0;
    if (already === MOST_OF_A_KIND) return [];
    told.set(code, already + 1);
    const more = already + 1 === MOST_OF_A_KIND ? (times.get(code) ?? 0) - MOST_OF_A_KIND : 0;
    const cut = cutOff && code === NO_END;
    const place = {
      byte: diagnostic.byte ?? null,
      line: diagnostic.line ?? null,
      more,
      cutOff: cut,
    };
    return {
      code,
      severity: cut ? 'fail' : HARMLESS.has(code) ? 'note' : 'warn',
      ...NOWHERE,
      measured: diagnostic.measured ?? null,
      limit: diagnostic.expected ?? null,
      unit: null,
      params: { ...diagnostic.params, ...place },
      fix: cut ? { do: 'ask-digitizer', objects: [], to: 'send-again' } : null,
      basis: 'read from the file',
    } as FileFinding;
  });
};

/** A file without its end record that lacks more than that of the records that its header counts is not all there. */
function isCutOff(diagnostics: readonly Diagnostic[]): boolean {
  const count = diagnostics.find(({ code }) => code === 'file-record-count');
  return (
    diagnostics.some(({ code }) => code === NO_END) &&
    count !== undefined &&
    Number(count.measured) + 1 < Number(count.expected)
  );
}
