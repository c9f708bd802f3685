/** A limit with thresholds of the shop's own. */

import type { Severity } from '../vetting/finding.js';
import { beyond, type Limit, STEPS } from '../vetting/limits.js';

/** Thresholds by name, or a bare number, which moves the mildest one; a severer one that it overtakes moves along. */
export type OwnSteps = number | { readonly [S in Severity]?: number | null | undefined };

/** Who repeats the built-in figures, as the profile to start from does, has not said that they are their own: the limit stays as it is. */
export function withSteps(limit: Limit, given: OwnSteps, basis: string): Limit {
  const next: Record<Severity, number | null> = { note: limit.note, warn: limit.warn, fail: limit.fail };
  if (typeof given === 'number') {
    next[STEPS.find((step) => limit[step] !== null) ?? 'warn'] = given;
    for (const step of STEPS) {
      const threshold = next[step];
      if (threshold !== null && beyond(limit, threshold, given)) next[step] = given;
    }
  } else for (const step of STEPS) if (given[step] !== undefined) next[step] = given[step];
  return STEPS.every((step) => next[step] === limit[step]) ? limit : { ...limit, ...next, basis };
}

/** The first threshold that is milder than one before it; null where all are in order. */
export function outOfOrder(limit: Limit): Severity | null {
  const set = STEPS.filter((step) => limit[step] !== null);
  return set.find((step, k) => k > 0 && beyond(limit, limit[step]!, limit[set[k - 1]]!)) ?? null;
}
