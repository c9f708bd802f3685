/** What the findings of a file come to. */
import type { Meets, UpperEnd } from '../../advice/meets.js';
import type { FindingCode, Severity } from '../../vetting/finding.js';

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

/** What of a file, its hoop and the setup that is advised decides whether it is good to sew on a garment. */
export interface JudgedOnGarment {
  readonly failures: readonly FindingCode[];
  readonly warnings: readonly FindingCode[];
  /** Null where none that is known holds the design. */
  readonly hoop: { readonly holds: boolean } | null;
  /** Whether the setup meets the standard. */
  readonly meets: Meets;
  /** Whether its backing breaks a rule about what holds or what harms. */
  readonly againstRule: boolean;
}

/** The verdict on a file that is sewn on a garment: whoever gives one gives this one. */
export function verdictOnGarment({
  failures,
  warnings,
  hoop,
  meets,
  againstRule,
}: JudgedOnGarment): VerdictLevel {
  if (failures.length > 0 || !hoop?.holds) return 'fail';
  return warnings.length > 0 || meets !== 'yes' || againstRule ? 'warn' : 'sound';
}

/** What keeps a file on a garment from being good to sew: what is wrong with the file, with its hoop, or with the setup. */
export type VerdictReason =
  | { readonly because: 'failures' | 'warnings'; readonly codes: readonly FindingCode[] }
  | { readonly because: 'underlay' | 'no-hoop' | 'too-large-for-hoop' | 'against-rule' | 'misses' }
  /** `washes`: after how many it may show; null where that is close all along. */
  | { readonly because: 'may-miss'; readonly washes: number | null };

/**
 * The reasons that make the verdict, of the file before those of the setup; none where it is good to sew.
 * @param upper what may miss the standard of a setup that most likely meets it
 */
export function verdictReasons(
  { failures, warnings, relaidAway, hoop, meets, againstRule }: JudgedOnGarment & FileWarnings,
  upper: UpperEnd | null,
): VerdictReason[] {
  const stops = failures.filter((code) => code !== 'does-not-fit-hoop');
  const fails: VerdictReason[] = [
    ...(stops.length > 0 ? [{ because: 'failures', codes: stops } as const] : []),
    ...(hoop?.holds ? [] : [{ because: hoop ? 'too-large-for-hoop' : 'no-hoop' } as const]),
  ];
  if (fails.length > 0) return fails;
  const { ask, relay } = toAsk({ warnings, relaidAway });
  return [
    ...(ask.length > 0 ? [{ because: 'warnings', codes: ask } as const] : []),
    ...(relay ? [{ because: 'underlay' } as const] : []),
    ...(againstRule ? [{ because: 'against-rule' } as const] : []),
    ...(meets === 'may' ? [{ because: 'may-miss', washes: upper?.washes ?? null } as const] : []),
    ...(meets === 'no' ? [{ because: 'misses' } as const] : []),
  ];
}

/** The verdict of a file check: where a garment was named, that on the garment. */
export const verdictOf = (
  { advice }: { readonly advice: { readonly verdict: VerdictLevel } | null },
  found: Counts,
): VerdictLevel => advice?.verdict ?? levelOf(found);

/** What the findings alone come to. */
export const levelOf = ({ fail, warn }: Counts): VerdictLevel =>
  fail > 0 ? 'fail' : warn > 0 ? 'warn' : 'sound';

/** Codes of what is to be looked at in a file, and those of them that other underlay mends. */
interface FileWarnings {
  readonly warnings: readonly FindingCode[];
  readonly relaidAway: readonly FindingCode[];
}

/** What is to be asked of the digitizer, and whether other underlay is to be laid, before the file is sewn. */
export const toAsk = ({ warnings, relaidAway }: FileWarnings) => ({
  ask: warnings.filter((code) => !relaidAway.includes(code)),
  relay: relaidAway.length > 0,
});
