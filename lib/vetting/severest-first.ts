/** The order of findings. */
import type { Finding, Severity } from './finding.js';

/** The severest first. */
export const RANK: Readonly<Record<Severity, number>> = { fail: 0, warn: 1, note: 2 };

/** The severest first, then what is of the whole design, then in sewing order. */
export const severestFirst = (a: Finding, b: Finding): number =>
  RANK[a.severity] - RANK[b.severity] || (a.stitch ?? -1) - (b.stitch ?? -1);
