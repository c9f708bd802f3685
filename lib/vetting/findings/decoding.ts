import type { Diagnostic } from '../../core/diagnostics.js';
import type { Finder } from '../context.js';
import { NOWHERE } from '../place-of.js';

/** Oddities that change nothing of what is sewn; every other one is a warning. */
const HARMLESS = new Set([
  'file-bytes-after-end',
  'file-end-position',
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
/** Of one kind of oddity so many are told one by one. */
const MOST_OF_A_KIND = 4;

/** What was odd in the file. */
export const decoding: Finder = ({ design }) => {
  const times = new Map<string, number>();
  for (const { code } of design.diagnostics) times.set(code, (times.get(code) ?? 0) + 1);
  const told = new Map<string, number>();
  return design.diagnostics.flatMap((diagnostic) => {
    const { code } = diagnostic;
    const already = told.get(code) ?? 0;
    if (already === MOST_OF_A_KIND) return [];
    told.set(code, already + 1);
    const untold = already + 1 === MOST_OF_A_KIND ? (times.get(code) ?? 0) - MOST_OF_A_KIND : 0;
    return {
      code,
      severity: HARMLESS.has(code) ? ('note' as const) : ('warn' as const),
      ...NOWHERE,
      measured: diagnostic.measured ?? null,
      limit: diagnostic.expected ?? null,
      unit: null,
      message: `${diagnostic.message}${offset(diagnostic)}${untold > 0 ? `, and ${untold} more like it` : ''}`,
      basis: 'read from the file',
    };
  });
};

function offset({ byte, line }: Diagnostic): string {
  if (byte !== undefined) return ` (byte ${byte})`;
  return line !== undefined ? ` (line ${line})` : '';
}
