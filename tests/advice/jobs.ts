/** Jobs that are nothing but a fabric and a few satin strokes. */
import type { AdviceJob } from '../../lib/advice/job.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import type { DesignMeasures, ObjectMeasures } from '../../lib/measure/measures.js';
import { NO_UNDERLAY, PLAINLY_TOP } from '../../lib/segment/objects.js';

/** Directions of the swings, degrees; null for a ring. */
export type Strokes = readonly (number | null)[];

const BOUNDS = { minX: 0, minY: 0, maxX: 60, maxY: 40 };

const stroke = (angleDeg: number | null, id: number, widthMm: number): ObjectMeasures => ({
  object: {
    id,
    block: 1,
    group: id,
    kind: 'satin',
    range: [0, 9],
    from: new Int32Array(),
    to: new Int32Array(),
    sections: new Int32Array(),
    split: false,
    underlay: NO_UNDERLAY,
    locks: { start: true, end: true },
    ...PLAINLY_TOP,
  },
  stitches: 10,
  bounds: BOUNDS,
  areaMm2: 20,
  angleDeg,
  widthMm: { min: widthMm, median: widthMm, p95: widthMm, max: widthMm },
  spacingMm: { min: 0.4, median: 0.4, max: 0.4 },
  stitchLengthMm: { min: widthMm, median: widthMm, max: widthMm },
  densityPerMm2: 1,
  lengthMm: 10,
  widestAt: null,
});

/** @param widthMm of every stroke */
export function jobOn(
  fabric: string,
  strokes: Strokes = [0, 90],
  design: Partial<DesignMeasures> = {},
  widthMm = 3,
  threadWeight = 40,
): AdviceJob {
  return {
    fabric: CATALOGUE.fabrics[fabric],
    catalogue: CATALOGUE,
    design: {
      stitches: 5000,
      jumps: 0,
      trims: 0,
      colourChanges: 0,
      stops: 0,
      bounds: BOUNDS,
      widthMm: 60,
      heightMm: 40,
      acrossMm: Math.hypot(60, 40),
      threadMm: 25_000,
      bobbinMm: 8000,
      sewSeconds: 400,
      sewSpeedSpm: 800,
      densest: null,
      layers: null,
      ...design,
    },
    objects: strokes.map((angleDeg, i) => stroke(angleDeg, i + 1, widthMm)),
    threadWeight,
    called: { heavy: new Set(), bare: new Set() },
  };
}
