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

type Steps = Partial<Pick<Limit, Severity>>;
type Resolution = readonly [resolution: number, unit: string];

const limit =
  (side: Limit['side']) =>
  (steps: Steps, [resolution, unit]: Resolution, basis: string, meaning: string): Limit => ({
    side,
    note: null,
    warn: null,
    fail: null,
    ...steps,
    unit,
    resolution,
    basis,
    meaning,
  });
const above = limit('above');
const below = limit('below');

/** The built-in limits, by the names that a shop's profile uses. */
export const LIMITS = {
  'satin-too-wide': above(
    { warn: 7, fail: 12.1 },
    [0.1, 'mm'],
    `${COMMON_PRACTICE}; fail: ${RECORD}`,
    'width of an unsplit satin column: wider ones snag in wear, and past one record the machine jumps',
  ),
  'satin-too-narrow': below(
    { warn: 1 },
    [0.1, 'mm'],
    COMMON_PRACTICE,
    'median width of a satin column: narrower ones sew badly',
  ),
  'wide-satin-zigzag': above(
    { note: 3, warn: 6 },
    [0.1, 'mm'],
    FROM_MEMORY,
    'median width of a satin column over zigzag underlay: from here on the zigzag adds pull of its own',
  ),
  'wide-satin-double-zigzag': above(
    { warn: 3 },
    [0.1, 'mm'],
    FROM_MEMORY,
    'median width of a satin column over double zigzag: from here on the zigzags add pull of their own',
  ),
  'wide-satin-no-underlay': above(
    { warn: 2.5 },
    [0.1, 'mm'],
    FROM_MEMORY,
    'median width of a satin column without underlay: wider ones need the fabric held down first',
  ),
  'satin-too-dense': below(
    { warn: 0.3, fail: 0.2 },
    [0.01, 'mm'],
    FROM_MEMORY,
    'median spacing of satin, where 0.4 mm is usual for 40-weight thread',
  ),
  'satin-too-open': above(
    { note: 0.55, warn: 0.7 },
    [0.01, 'mm'],
    FROM_MEMORY,
    'median spacing of satin, where 0.4 mm is usual for 40-weight thread',
  ),
  'fill-too-dense': below(
    { warn: 0.3, fail: 0.2 },
    [0.01, 'mm'],
    FROM_MEMORY,
    'median distance between the rows of a fill, where 0.4 mm is usual for 40-weight thread',
  ),
  'fill-too-open': above(
    { note: 0.6, warn: 0.9 },
    [0.01, 'mm'],
    FROM_MEMORY,
    'median distance between the rows of a fill, where 0.4 mm is usual for 40-weight thread',
  ),
  'fill-too-many-points': above(
    { warn: 4, fail: 7 },
    [0.1, 'points/mm²'],
    FROM_MEMORY,
    'needle points over the area of a fill: more of them perforate the fabric',
  ),
  'dense-place': above(
    { warn: 10, fail: 16 },
    [0.1, 'points/mm²'],
    FROM_MEMORY,
    'needle points of everything sewn on the densest 2 × 2 mm of the design',
  ),
  'layers-stacked': above(
    { note: 3, warn: 4 },
    [1, 'layers'],
    FROM_MEMORY,
    'objects whose top stitching covers one and the same place',
  ),
  'needle-points-piled': above(
    { warn: 5, fail: 11 },
    [1, 'points'],
    COMMON_PRACTICE,
    'needle points, lock stitches apart, within one circle 0.3 mm across: they cut the fabric',
  ),
  'stitch-too-short': below(
    { note: 0.5 },
    [0.1, 'mm'],
    COMMON_PRACTICE,
    'stitch length, lock stitches and the turns of fill rows apart: shorter ones break thread',
  ),
  'stitch-too-short-share': above(
    { warn: 2 },
    [0.1, '%'],
    FROM_MEMORY,
    'share of too short stitches in an object from which they are a warning and no longer a note',
  ),
  'stitch-too-long': above(
    { warn: 7, fail: 12.1 },
    [0.1, 'mm'],
    `${COMMON_PRACTICE}; fail: ${RECORD}`,
    'length of a stitch on the face: longer ones snag in wear, and past one record the machine jumps',
  ),
  'jump-not-trimmed': above(
    { warn: 5 },
    [0.1, 'mm'],
    FROM_MEMORY,
    'move between two penetrations without a trim: the thread lies loose on the face',
  ),
  'lettering-too-small': below(
    { warn: 5 },
    [0.1, 'mm'],
    COMMON_PRACTICE,
    'height of the capitals of satin lettering in 40-weight thread: smaller ones close up',
  ),
  'place-overrun': above(
    { warn: 0, fail: 15 },
    [0.1, '%'],
    FROM_MEMORY,
    'how far a design is larger than the largest that is usual at a place where no frame sets the limit',
  ),
} satisfies Record<string, Limit>;

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
