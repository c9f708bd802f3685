import type { UnderlayKind } from '../segment/objects.js';

/** Underlay as it is asked for: kinds in the order in which they are sewn, joined by `+`. */
export const LAID_UNDERLAYS = [
  'center-run',
  'edge-run',
  'edge-run+fill',
  'fill',
  'zigzag',
  'double-zigzag',
] as const;
export type LaidUnderlay = (typeof LAID_UNDERLAYS)[number];

/** The kinds that it is made of, in the order in which they are sewn. */
export const kindsOf = (laid: LaidUnderlay): UnderlayKind[] => laid.split('+') as UnderlayKind[];
