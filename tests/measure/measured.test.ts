import { describe, expect, it } from 'vitest';
import { Measured, type Shape } from '../../lib/measure/measured.js';
import type { StitchObject } from '../../lib/segment/objects.js';

const object = { id: 7 } as StitchObject;
const bounds = { minX: -1, minY: 2, maxX: 3, maxY: 5 };
const lengths = { min: 0.4, median: 2.5, max: 6 };
const run: Shape = {
  areaMm2: 0,
  angleDeg: null,
  widthMm: null,
  spacingMm: null,
  lengthMm: 30,
  widestAt: null,
};
const fill: Shape = { ...run, areaMm2: 12, angleDeg: 0, spacingMm: { min: 0.3, median: 0.4, max: 0.9 } };
const satin: Shape = {
  ...fill,
  angleDeg: 45,
  widthMm: { min: 1, median: 2, p95: 3.5, max: 4 },
  widestAt: { stitch: 12, x: -0.5, y: 2.5 },
};

describe('measures in one row', () => {
  it.each<[string, Shape, number]>([
    ['run', run, 0],
    ['area', fill, 3],
    ['area of curves, without a direction', { ...fill, angleDeg: null }, 3],
    ['area of one row', { ...fill, spacingMm: null }, 3],
    ['column', satin, 3],
    ['column of one swing', { ...satin, spacingMm: null }, 3],
  ])('of a %s are what was put in', (_, shape, densityPerMm2) => {
    const measured = new Measured(object, 36, bounds, shape, lengths);
    const all = { object, stitches: 36, bounds, ...shape, stitchLengthMm: lengths, densityPerMm2 };
    expect(measured.toJSON()).toEqual(all);
    expect(JSON.parse(JSON.stringify(measured))).toEqual(all);
    for (const [key, value] of Object.entries(all)) expect(measured[key as keyof Measured]).toEqual(value);
  });
});
