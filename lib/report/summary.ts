/** What a vet report comes to, in words: the verdict and the totals that every printed form shares. */
import type { Severity } from '../vetting/finding.js';
import { driverWords } from './driver-words.js';
import { backingWords } from './labelled.js';
import { count, counted, duration, size, threadLength, type Units } from './quantities.js';
import { printable } from './render/printable.js';
import { riskWord, wrinkleWords } from './risk-word.js';
import type { ObjectReport, VetReport } from './vet/report.js';

export const SEVERITIES = ['fail', 'warn', 'note'] as const satisfies readonly Severity[];

/** Findings of each severity. */
export function tally(findings: readonly { severity: Severity }[]): Record<Severity, number> {
  const counts = { fail: 0, warn: 0, note: 0 };
  for (const { severity } of findings) counts[severity]++;
  return counts;
}

/** `1 failure, 2 notes`, or `nothing found`. */
export function tallyWords(counts: Readonly<Record<Severity, number>>): string {
  const words = { fail: 'failure', warn: 'warning', note: 'note' };
  const parts = SEVERITIES.filter((s) => counts[s] > 0).map((s) => counted(counts[s], words[s]));
  return parts.length > 0 ? parts.join(', ') : 'nothing found';
}

export interface Verdict {
  level: 'fail' | 'warn' | 'sound';
  words: 'DO NOT SEW' | 'LOOK AT THESE' | 'SOUND';
}

export function verdictOf(counts: Readonly<Record<Severity, number>>): Verdict {
  if (counts.fail) return { level: 'fail', words: 'DO NOT SEW' };
  if (counts.warn) return { level: 'warn', words: 'LOOK AT THESE' };
  return { level: 'sound', words: 'SOUND' };
}

/** Size, stitches, stops and thread, each with its label. */
export function totals({ design, objects }: VetReport, units: Units): [label: string, text: string][] {
  const kinds = (['satin', 'fill', 'run'] as const)
    .map((kind) => [objects.filter((o) => o.kind === kind).length, kind] as const)
    .filter(([n]) => n > 0)
    .map(([n, kind]) => `${count(n)} ${kind}`);
  const stops = [
    counted(design.trims, 'trim'),
    counted(design.colourChanges, 'colour change'),
    ...(design.stops > 0 ? [counted(design.stops, 'stop')] : []),
    ...(design.jumps > 0 ? [counted(design.jumps, 'jump')] : []),
  ];
  return [
    ['size', size(design.widthMm, design.heightMm, units)],
    [
      'stitches',
      `${count(design.stitches)} in ${counted(objects.length, 'object')}${kinds.length > 0 ? ` (${kinds.join(', ')})` : ''}`,
    ],
    ['machine', `${stops.join(', ')}; about ${duration(design.sewSeconds)} to sew`],
    ['thread', `${threadLength(design.threadMm, units)}, bobbin ${threadLength(design.bobbinMm, units)}`],
  ];
}

/** The risk of the whole, told after its word: `(grade 3): wrinkles about …`; and what it is sewn on. Null without goods. */
export function riskWords(
  { risk, objects }: VetReport,
  units: Units,
): { word: string; rest: string; goods: string } | null {
  if (risk === null) return null;
  const { conditions, drivers } = risk;
  // Of what lies flat nothing is the cause, and no object is the worst.
  const [main] = risk.grade < 5 ? drivers : [];
  const worst = objects.reduce<ObjectReport | null>(
    (most, object) => ((object.risk?.wrinkleMm ?? 0) > (most?.risk?.wrinkleMm ?? 0) ? object : most),
    null,
  );
  const why = main ? `; mostly ${driverWords(main.cause, conditions.stack.length > 0).short}` : '';
  return {
    word: riskWord(risk.grade).toUpperCase(),
    rest: `(grade ${risk.grade}): ${wrinkleWords(risk, units)}${why}${main && worst ? `; worst at object ${worst.id}` : ''}; a sew-out decides`,
    goods: `on ${printable(conditions.fabricName)}, over ${backingWords(conditions)}`,
  };
}
