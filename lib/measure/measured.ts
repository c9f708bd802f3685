import type { Spread } from '../core/stats.js';
import type { StitchObject } from '../segment/objects.js';
import type { Bounds, ObjectMeasures, PackedMeasures } from './measures.js';

/** What a kind of object has of its own. */
export type Shape = Pick<
  ObjectMeasures,
  'areaMm2' | 'angleDeg' | 'widthMm' | 'spacingMm' | 'lengthMm' | 'widestAt'
>;

/** Where the figures stand in a row. A run has those before the spacing, an area those before the width. */
const AREA = 4;
const LENGTH = 5;
const ANGLE = 6;
const STITCH = 7;
const SPACING = 10;
const WIDTH = 13;
const P95 = 16;
const WIDEST = 17;
/** A figure that there is none of. */
const NONE = Number.NaN;
const NO_SPREAD: Spread = { min: NONE, median: NONE, max: NONE };

/** Far less than a stitch file can enclose, mm²: such an area is rounding, and a density on it could be past all numbers. */
const NO_AREA_MM2 = 1e-9;

/**
 * Measures of one object, its figures in one row: a design may have hundreds of thousands of objects, and figures that are fields
 * take three times as much memory.
 */
export class Measured implements PackedMeasures {
  private readonly row: readonly number[];

  constructor(
    readonly object: StitchObject,
    readonly stitches: number,
    { minX, minY, maxX, maxY }: Bounds,
    { areaMm2, lengthMm, angleDeg, spacingMm, widthMm, widestAt }: Shape,
    { min, median, max }: Spread,
  ) {
    const row = [minX, minY, maxX, maxY, areaMm2, lengthMm, angleDeg ?? NONE, min, median, max];
    if (spacingMm !== null || widthMm !== null) {
      const spacing = spacingMm ?? NO_SPREAD;
      row.push(spacing.min, spacing.median, spacing.max);
    }
    if (widthMm !== null && widestAt !== null) {
      const { stitch, x, y } = widestAt;
      row.push(widthMm.min, widthMm.median, widthMm.max, widthMm.p95, stitch, x, y);
    }
    // A list that has grown keeps room to grow on; a copy of it has none.
    this.row = row.slice();
  }

  get bounds(): Bounds {
    const [minX, minY, maxX, maxY] = this.row;
    return { minX, minY, maxX, maxY };
  }

  get areaMm2(): number {
    return this.row[AREA];
  }

  get lengthMm(): number {
    return this.row[LENGTH];
  }

  get angleDeg(): number | null {
    const degrees = this.row[ANGLE];
    return Number.isNaN(degrees) ? null : degrees;
  }

  get stitchLengthMm(): Spread {
    return this.spreadAt(STITCH);
  }

  get spacingMm(): Spread | null {
    const { row } = this;
    return row.length > SPACING && !Number.isNaN(row[SPACING]) ? this.spreadAt(SPACING) : null;
  }

  get widthMm(): ObjectMeasures['widthMm'] {
    const { row } = this;
    return row.length > WIDTH
      ? { min: row[WIDTH], median: row[WIDTH + 1], max: row[WIDTH + 2], p95: row[P95] }
      : null;
  }

  get widestAt(): ObjectMeasures['widestAt'] {
    const { row } = this;
    return row.length > WIDTH ? { stitch: row[WIDEST], x: row[WIDEST + 1], y: row[WIDEST + 2] } : null;
  }

  get densityPerMm2(): number {
    return this.areaMm2 > NO_AREA_MM2 ? this.stitches / this.areaMm2 : 0;
  }

  toJSON(): ObjectMeasures {
    const { object, stitches, bounds, areaMm2, angleDeg, widthMm, spacingMm, lengthMm, widestAt } = this;
    const { stitchLengthMm, densityPerMm2 } = this;
    return {
      object,
      stitches,
      bounds,
      areaMm2,
      angleDeg,
      widthMm,
      spacingMm,
      lengthMm,
      widestAt,
      stitchLengthMm,
      densityPerMm2,
    };
  }

  private spreadAt(at: number): Spread {
    const { row } = this;
    return { min: row[at], median: row[at + 1], max: row[at + 2] };
  }
}
