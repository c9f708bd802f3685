import type { Finding } from './finding.js';

/** The finding that calls for a lighter underlay. */
export const HEAVY_UNDERLAY = 'wide-satin-heavy-underlay';

/** Ids of the wide columns that call for a lighter underlay. */
export const heavyColumns = (findings: readonly Finding[]): Set<number> =>
  new Set(findings.flatMap((f) => (f.code === HEAVY_UNDERLAY && f.object ? [f.object] : [])));
