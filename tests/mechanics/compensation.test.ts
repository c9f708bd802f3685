import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { caseOf } from '../../lib/mechanics/case.js';
import { type Compensation, compensationsOf } from '../../lib/mechanics/compensation.js';
import { pullsOf } from '../../lib/mechanics/puckering.js';
import { prepare } from '../../lib/mechanics/risk.js';
import { sew } from '../../lib/mechanics/sewing.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { SHOP } from '../built-in-shop.js';
import { onACoarseMesh } from './coarse-mesh.js';
import { COLUMN, FILL, rectangle, Sewing } from './designs.js';

onACoarseMesh(1.5);

const STEP = 0.1;
const column = (width: number) =>
  new Sewing().column(
    [
      [0, -12],
      [0, 12],
    ],
    { ...COLUMN, width, underlay: ['edge-run'] },
  );

const sum = ([a, b]: readonly [number, number]) => a + b;

/** How much narrower each object gets on a fabric over one sheet, and what to add to it. */
function sewnOn(fabric: string, sewing: Sewing) {
  const { stitches, objects } = sewing.done();
  const design = prepare({ stitches, objects }, SHOP.catalogue);
  const { layup, settings } = caseOf({ fabric, stack: parseStack('cutaway-2.5oz', CATALOGUE) }, SHOP);
  const pulls = pullsOf(design.fine.design, sew(design.fine.design, layup, settings));
  return {
    narrower: pulls.map(({ alongStitchMm }) => 2 * alongStitchMm),
    compensations: compensationsOf(stitches, objects, pulls, STEP),
  };
}

describe('pull compensation', () => {
  it.each([
    ['pique-knit', 4],
    ['performance-knit-thin', 5],
  ])(
    'drawn so much wider, a column on %s comes out as wide as it was to be, within half a step',
    (fabric, width) => {
      const [{ alongMm }] = sewnOn(fabric, column(width)).compensations;
      expect(sum(alongMm)).toBeGreaterThan(0.15);
      const again = sewnOn(fabric, column(width + sum(alongMm)));
      expect(Math.abs(width + sum(alongMm) - again.narrower[0] - width)).toBeLessThan(STEP / 2 + 0.03);
    },
    120_000,
  );

  const of = (alongStitchMm: number, acrossStitchMm: number, width = 5): Compensation[] => {
    const { stitches, objects } = column(width).done();
    return compensationsOf(stitches, objects, [{ alongStitchMm, acrossStitchMm }], STEP);
  };

  it('is in whole steps of the file, an odd one at one edge', () => {
    expect(of(0.15, 0)).toEqual([{ object: 1, alongMm: [0.2, 0.1], acrossMm: [0, 0] }]);
    expect(of(0.1, 0)).toEqual([{ object: 1, alongMm: [0.1, 0.1], acrossMm: [0, 0] }]);
    expect(of(0.05, 0)).toEqual([{ object: 1, alongMm: [0.1, 0], acrossMm: [0, 0] }]);
    expect(of(0.02, 0.02)).toEqual([]);
  });

  it('makes a column shorter whose stitches push its ends out', () => {
    expect(of(0.1, -0.12)).toEqual([{ object: 1, alongMm: [0.1, 0.1], acrossMm: [-0.1, -0.1] }]);
    expect(of(0, 0.15)).toEqual([{ object: 1, alongMm: [0, 0], acrossMm: [0.2, 0.1] }]);
  });

  it('adds for what the wider stitches pull besides, and never without end', () => {
    // 2.0 of 20 mm: a ninth of 20 is 2.2.
    expect(sum(of(1, 0, 20)[0].alongMm)).toBeCloseTo(2.2, 6);
    expect(sum(of(4, 0, 5)[0].alongMm)).toBeCloseTo(8 / 0.75, 0);
  });

  it('is of areas as well, and of no run', () => {
    const { stitches, objects } = rectangle(new Sewing(), 0, 0, 20, 10, FILL).done();
    const pull = { alongStitchMm: 0.1, acrossStitchMm: 0 };
    expect(compensationsOf(stitches, objects, [pull], STEP)).toMatchObject([
      { object: 1, alongMm: [0.1, 0.1] },
    ]);
    const run = { ...objects[0], kind: 'run' as const, from: new Int32Array(0), to: new Int32Array(0) };
    expect(compensationsOf(stitches, [run], [pull], STEP)).toEqual([]);
  });
});
