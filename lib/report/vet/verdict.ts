/** What the findings of a file come to. */
import type { Severity } from '../../vetting/finding.js';

export const SEVERITIES = ['fail', 'warn', 'note'] as const satisfies readonly Severity[];

/** The level of a whole file; its word is a phrase. */
export type VerdictLevel = 'fail' | 'warn' | 'sound';

export type Counts = Readonly<Record<Severity, number>>;

/** Findings of each severity. */
export function tally(findings: Iterable<{ readonly severity: Severity }>): Record<Severity, number> {
  const counts = { fail: 0, warn: 0, note: 0 };
  for (const { severity } of findings) counts[severity]++;
  return counts;
}

export const levelOf = ({ fail, warn }: Counts): VerdictLevel =>
  fail > 0 ? 'fail' : warn > 0 ? 'warn' : 'sound';
