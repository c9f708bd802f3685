/** What a ruler finds on a sew-out: the width of one object, across its stitches. */
import { distributionInPlace } from '../core/stats.js';
import type { Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import type { StitchObject } from '../segment/objects.js';

/**
 * How far one reading is off, mm, one standard deviation: a steel rule with half-millimeter marks, read to a fifth of a mark at an edge of thread
 * that is itself a fifth of a millimeter uncertain. Our own assumption; never taken to be less, and more where a log shows more.
 */
export const RULER_NOISE = 0.1;

/** Spread of widths, as a part of the middle one and in mm, up to which an object has one width. */
const EVEN_PART = 0.12;
const EVEN_MM = 0.4;
/** Part of the stitches whose widths may lie outside that: the ends of a column are rounded or slanted. */
const ENDS = 0.1;

export interface WidthInFile {
  /** The middle one: from edge to edge of a column across its center line, or along the rows of an area. mm */
  readonly widthMm: number;
  /** Change of that width with a change along the stitches: less than 1 where they slant. */
  readonly perAlong: number;
  /** What nearly all of its stitches lie between, mm. */
  readonly from: number;
  readonly to: number;
  /** It is about as wide everywhere: a ruler can be laid anywhere along it. */
  readonly even: boolean;
}

/** Null for a run, which has no width. */
export function widthInFile({ x, y }: Stitches, { kind, from, to }: StitchObject): WidthInFile | null {
  if (kind === 'run' || from.length === 0) return null;
  const lengths = Float64Array.from(from, (a, k) => Math.hypot(x[to[k]] - x[a], y[to[k]] - y[a]));
  const widths = kind === 'satin' && from.length > 1 ? measureColumn(x, y, from, to).envelopeMm : lengths;
  const length = distributionInPlace(lengths.slice())!.median;
  const sorted = widths.slice().sort();
  const at = (part: number) => sorted[Math.round(part * (sorted.length - 1))];
  const [low, middle, high] = [at(ENDS), at(0.5), at(1 - ENDS)];
  return {
    widthMm: middle,
    perAlong: length > 0 ? Math.min(1, middle / length) : 1,
    from: low,
    to: high,
    even: high - low <= Math.max(EVEN_MM, EVEN_PART * middle),
  };
}
