/** Which one width, measured with a ruler on a sew-out, would narrow the band of the height most. */
import { sampleCovariance, sampleVariance } from 'simple-statistics';
import { type Quantiles, quantilesOf } from './paired-draws.js';
import { RULER_NOISE, type WidthInFile } from './ruler.js';

/** An object that can be measured, and what the draws of a band say of it. */
export interface Measurable {
  readonly id: number;
  readonly inFile: WidthInFile;
  /** By how much it gets narrower along its stitches, both edges together, draw by draw as the heights, mm. */
  readonly narrowingMm: ArrayLike<number>;
}

export interface TellingWidth {
  readonly object: number;
  readonly fileMm: number;
  /** Between which a ruler will find it, and the middle, mm. */
  readonly sewnMm: Quantiles;
  /** Part by which the band of the height gets narrower once it is known. */
  readonly narrows: number;
}

/** A height and a width that go together by less than this do so by chance, over as many draws as there are. */
const LEAST_TOLD = 1e-3;

/**
 * Height and width go together over the draws as far as they hang on the same things: tension, hold of the needle points, stiffness of the layers. Of
 * the variance of the height the part c²/(v_h·(v_w + σ²)) is told by the width, c their covariance and σ what a reading is off by.
 *
 * @param heightsMm of the design, draw by draw
 * @returns null where no width tells anything
 */
export function tellingWidth(
  heightsMm: ArrayLike<number>,
  objects: readonly Measurable[],
): TellingWidth | null {
  const heights = Array.from(heightsMm);
  if (heights.length < 2) return null;
  const spread = sampleVariance(heights);
  let best: TellingWidth | null = null;
  for (const { id, inFile, narrowingMm } of objects) {
    if (!inFile.even || !(spread > 0)) continue;
    const widths = Array.from(narrowingMm, (mm) => inFile.widthMm - inFile.perAlong * mm);
    // What is drawn in more puckers more; the other way round it is chance.
    const together = Math.min(0, sampleCovariance(heights, widths));
    const told = together ** 2 / (spread * (sampleVariance(widths) + RULER_NOISE ** 2));
    const narrows = 1 - Math.sqrt(Math.max(0, 1 - told));
    if (told < LEAST_TOLD || narrows <= (best?.narrows ?? 0)) continue;
    best = { object: id, fileMm: inFile.widthMm, sewnMm: quantilesOf(widths), narrows };
  }
  return best;
}
