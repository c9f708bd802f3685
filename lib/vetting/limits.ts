import { COMMON_PRACTICE, FROM_MEMORY } from '../core/sourced.js';
import type { Severity } from './finding.js';

/** A figure that a shop may argue with: from where on something is said, and how loudly. */
export interface Limit {
  /** What lies on this side of the figure is found. */
  readonly side: 'above' | 'below';
  readonly note: number | null;
  readonly warn: number | null;
  readonly fail: number | null;
  readonly unit: string;
  /** As finely as this can be told from a file; a figure has to pass the limit by half of it. */
  readonly resolution: number;
  readonly basis: string;
  /** What is measured, and why it matters. */
  readonly meaning: string;
}

const RECORD = 'longest move of one three-byte stitch record';

/** The built-in limits, by the names that a shop's profile uses. */
export const LIMITS = {
  'satin-too-wide': {
    side: 'above',
    note: null,
    warn: 7,
    fail: 12.1,
    unit: 'mm',
    resolution: 0.1,
    basis: `${COMMON_PRACTICE}; fail: ${RECORD}`,
    meaning:
      'width of an unsplit satin column: wider ones snag in wear, and past one record the machine jumps',
  },
  'satin-too-narrow': {
    side: 'below',
    note: null,
    warn: 1,
    fail: null,
    unit: 'mm',
    resolution: 0.1,
    basis: COMMON_PRACTICE,
    meaning: 'median width of a satin column: narrower ones sew badly',
  },
  'wide-satin-zigzag': {
    side: 'above',
    note: 3,
    warn: 6,
    fail: null,
    unit: 'mm',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning:
      'median width of a satin column over zigzag underlay: from here on the zigzag adds pull of its own',
  },
  'wide-satin-double-zigzag': {
    side: 'above',
    note: null,
    warn: 3,
    fail: null,
    unit: 'mm',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning:
      'median width of a satin column over double zigzag: from here on the zigzags add pull of their own',
  },
  'wide-satin-no-underlay': {
    side: 'above',
    note: null,
    warn: 2.5,
    fail: null,
    unit: 'mm',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning: 'median width of a satin column without underlay: wider ones need the fabric held down first',
  },
  'satin-too-dense': {
    side: 'below',
    note: null,
    warn: 0.3,
    fail: 0.2,
    unit: 'mm',
    resolution: 0.01,
    basis: FROM_MEMORY,
    meaning: 'median spacing of satin, where 0.4 mm is usual for 40-weight thread',
  },
  'satin-too-open': {
    side: 'above',
    note: 0.55,
    warn: 0.7,
    fail: null,
    unit: 'mm',
    resolution: 0.01,
    basis: FROM_MEMORY,
    meaning: 'median spacing of satin, where 0.4 mm is usual for 40-weight thread',
  },
  'fill-too-dense': {
    side: 'below',
    note: null,
    warn: 0.3,
    fail: 0.2,
    unit: 'mm',
    resolution: 0.01,
    basis: FROM_MEMORY,
    meaning: 'median distance between the rows of a fill, where 0.4 mm is usual for 40-weight thread',
  },
  'fill-too-open': {
    side: 'above',
    note: 0.6,
    warn: 0.9,
    fail: null,
    unit: 'mm',
    resolution: 0.01,
    basis: FROM_MEMORY,
    meaning: 'median distance between the rows of a fill, where 0.4 mm is usual for 40-weight thread',
  },
  'fill-too-many-points': {
    side: 'above',
    note: null,
    warn: 4,
    fail: 7,
    unit: 'points/mm²',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning: 'needle points over the area of a fill: more of them perforate the fabric',
  },
  'dense-place': {
    side: 'above',
    note: null,
    warn: 10,
    fail: 16,
    unit: 'points/mm²',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning: 'needle points of everything sewn on the densest 2 × 2 mm of the design',
  },
  'layers-stacked': {
    side: 'above',
    note: 3,
    warn: 4,
    fail: null,
    unit: 'layers',
    resolution: 1,
    basis: FROM_MEMORY,
    meaning: 'objects whose top stitching covers one and the same place',
  },
  'needle-points-piled': {
    side: 'above',
    note: null,
    warn: 5,
    fail: 11,
    unit: 'points',
    resolution: 1,
    basis: COMMON_PRACTICE,
    meaning: 'needle points, lock stitches apart, within one circle 0.3 mm across: they cut the fabric',
  },
  'stitch-too-short': {
    side: 'below',
    note: 0.5,
    warn: null,
    fail: null,
    unit: 'mm',
    resolution: 0.1,
    basis: COMMON_PRACTICE,
    meaning: 'stitch length, lock stitches and the turns of fill rows apart: shorter ones break thread',
  },
  'stitch-too-short-share': {
    side: 'above',
    note: null,
    warn: 2,
    fail: null,
    unit: '%',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning: 'share of too short stitches in an object from which they are a warning and no longer a note',
  },
  'stitch-too-long': {
    side: 'above',
    note: null,
    warn: 7,
    fail: 12.1,
    unit: 'mm',
    resolution: 0.1,
    basis: `${COMMON_PRACTICE}; fail: ${RECORD}`,
    meaning:
      'length of a stitch on the face: longer ones snag in wear, and past one record the machine jumps',
  },
  'jump-not-trimmed': {
    side: 'above',
    note: null,
    warn: 5,
    fail: null,
    unit: 'mm',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning: 'move between two penetrations without a trim: the thread lies loose on the face',
  },
  'lettering-too-small': {
    side: 'below',
    note: null,
    warn: 5,
    fail: null,
    unit: 'mm',
    resolution: 0.1,
    basis: COMMON_PRACTICE,
    meaning: 'height of the capitals of satin lettering in 40-weight thread: smaller ones close up',
  },
  'place-overrun': {
    side: 'above',
    note: null,
    warn: 0,
    fail: 15,
    unit: '%',
    resolution: 0.1,
    basis: FROM_MEMORY,
    meaning: 'how far a design is larger than is usual at a place where no frame sets the limit',
  },
} as const satisfies Record<string, Limit>;

export type LimitId = keyof typeof LIMITS;
export type Limits = Readonly<Record<LimitId, Limit>>;

/** Fewer stitches than this with a fault are a note, however bad. */
export const FEW_STITCHES = 3;

/** The thresholds of a limit, the mildest first. */
export const STEPS = ['note', 'warn', 'fail'] as const satisfies readonly Severity[];

/** Whether `measured` lies beyond `threshold` on the limit's side. */
export function beyond(limit: Pick<Limit, 'side'>, threshold: number, measured: number): boolean {
  return limit.side === 'above' ? measured > threshold : measured < threshold;
}

/** The severest threshold that the figure has passed, or null for none. */
export function judge(limit: Limit, figure: number): { severity: Severity; limit: number } | null {
  for (let k = STEPS.length - 1; k >= 0; k--) {
    const threshold = limit[STEPS[k]];
    if (threshold !== null && beyond(limit, edge(limit, threshold), figure)) {
      return { severity: STEPS[k], limit: threshold };
    }
  }
  return null;
}

/** The figure beyond which {@link judge} says something. */
export function mildestEdge(limit: Limit): number {
  return edge(limit, limit.note ?? limit.warn ?? limit.fail ?? Infinity * (limit.side === 'above' ? 1 : -1));
}

const edge = ({ side, resolution }: Limit, threshold: number): number =>
  threshold + (side === 'above' ? resolution / 2 : -resolution / 2);
