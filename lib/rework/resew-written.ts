import { Kind } from '../format/design.js';
import { TRIM_JUMPS, UNITS_PER_MM } from '../format/dst-record.js';
import { legsOf } from '../format/record-writer.js';
import { Break } from '../format/stitches.js';
import type { EnlargedDesign } from './enlargement.js';

/** A design at the places that a stitch file can say, and how many moves had to become trims for it. */
export interface WrittenDesign extends EnlargedDesign {
  readonly trimsAdded: number;
}

/**
 * The design as its file will hold it: every place rounded to 0.1 mm, and a jump that has become too long to be made without a trim
 * (its records would read as one) made a trim.
 */
export function asWritten({ design, stitches, objects, left }: EnlargedDesign): WrittenDesign {
  const x = rounded(design.x);
  const y = rounded(design.y);
  const kind = Uint8Array.from(design.kind);
  const breakBefore = Uint8Array.from(stitches.breakBefore);
  let trimsAdded = 0;
  const { record } = stitches;
  for (let n = 1; n < stitches.count; n++) {
    if (breakBefore[n] === Break.none || breakBefore[n] >= Break.trim) continue;
    // a stop stands still between two runs of jumps, or after one
    let from = record[n - 1];
    for (let to = from + 1; to <= record[n]; to++) {
      if (kind[to] === Kind.jump) continue;
      const units = (at: Float64Array) => Math.round((at[to] - at[from]) * UNITS_PER_MM);
      if (to - from > 1 && legsOf(units(x), units(y)) > TRIM_JUMPS) {
        kind[to - 1] = Kind.trim;
        x[to - 1] = x[to];
        y[to - 1] = y[to];
        breakBefore[n] = Break.trim;
        trimsAdded++;
      }
      from = to;
    }
  }
  return {
    design: { ...design, x, y, kind },
    stitches: { ...stitches, x: rounded(stitches.x), y: rounded(stitches.y), breakBefore },
    objects,
    left,
    trimsAdded,
  };
}

function rounded(places: Float64Array): Float64Array {
  const out = new Float64Array(places.length);
  for (let i = 0; i < out.length; i++) out[i] = (Math.round(places[i] * UNITS_PER_MM) + 0) / UNITS_PER_MM; // no negative zero
  return out;
}
