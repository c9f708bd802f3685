import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { Draws } from '../../lib/mechanics/band.js';
import { caseOf } from '../../lib/mechanics/case.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { AS_SEWN } from '../../lib/mechanics/puckering.js';
import { assessFully, prepare } from '../../lib/mechanics/risk.js';
import type { WidthInFile } from '../../lib/mechanics/ruler.js';
import { SolvedSetup } from '../../lib/mechanics/setup.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { type Measurable, tellingWidth } from '../../lib/mechanics/telling-width.js';
import { SHOP } from '../built-in-shop.js';
import { strokes } from '../calibrate/shop.js';
import { onACoarseMesh } from './coarse-mesh.js';

onACoarseMesh(1.5);

const THIN = { fabric: 'performance-knit-thin', stack: parseStack('cutaway-2.5oz', CATALOGUE) };

const DRAWS = 64;
/** Two things that a sew-out hangs on, as draws that do not go together: an even grid of both. */
const draws = (of: (tension: number, bending: number) => number): number[] =>
  Array.from({ length: DRAWS }, (_, k) => of(((k % 8) - 3.5) / 3.5, (Math.floor(k / 8) - 3.5) / 3.5));
const HEIGHTS = draws((tension, bending) => 0.4 + 0.2 * tension - 0.1 * bending);

const inFile = (widthMm: number, more: Partial<WidthInFile> = {}): WidthInFile => ({
  widthMm,
  perAlong: 1,
  from: widthMm,
  to: widthMm,
  even: true,
  ...more,
});
const column = (
  id: number,
  widthMm: number,
  narrowingMm: number[],
  more?: Partial<WidthInFile>,
): Measurable => ({
  id,
  inFile: inFile(widthMm, more),
  narrowingMm,
});
/** Drawn in by the tension alone, a wide column more. */
const drawn = (widthMm: number) => draws((tension) => 0.07 * widthMm * (1 + 0.4 * tension));

describe('the one width that tells most', () => {
  it('is that of the column that moves most with what moves the height', () => {
    const objects = [2, 4, 7].map((mm, k) => column(k + 1, mm, drawn(mm)));
    const found = tellingWidth(HEIGHTS, objects)!;
    expect(found.object).toBe(3);
    expect(found.fileMm).toBe(7);
    const [low, middle, high] = found.sewnMm;
    expect(low).toBeLessThan(middle);
    expect(middle).toBeLessThan(high);
    expect(middle).toBeCloseTo(7 - 0.49, 1);
  });

  it('narrows the band by what a regression of the height on readings with noise leaves', () => {
    const narrowing = drawn(7);
    const { narrows } = tellingWidth(HEIGHTS, [column(1, 7, narrowing)])!;
    // By hand: both are linear in the tension, t, whose variance is v; the height has 0.01·v besides, by the bending.
    const v = draws((t) => t).reduce((sum, t) => sum + t * t, 0) / (DRAWS - 1);
    const slope = 0.07 * 7 * 0.4;
    const told = (0.2 * slope * v) ** 2 / ((0.04 + 0.01) * v * (slope * slope * v + 0.01));
    expect(narrows).toBeCloseTo(1 - Math.sqrt(1 - told), 9);
  });

  it('is none where the width does not go with the height, is lost in the reading, or the height is certain', () => {
    const of = (id: number, mm: number, part: (tension: number, bending: number) => number) =>
      column(id, mm, draws(part));
    const little = of(1, 1, (tension) => 0.002 * (1 + 0.4 * tension));
    const apart = of(2, 6, () => 0.4);
    // What is drawn in less and puckers more does so by chance.
    const wrong = of(3, 6, (tension) => 0.4 * (1 - 0.4 * tension));
    expect(tellingWidth(HEIGHTS, [little, apart, wrong])).toBeNull();
    const certain = HEIGHTS.map(() => 0);
    expect(tellingWidth(certain, [column(1, 7, drawn(7))])).toBeNull();
    expect(tellingWidth(HEIGHTS, [])).toBeNull();
  });

  it('passes over what is not equally wide all along, and counts slanted stitches for less', () => {
    const uneven = column(1, 7, drawn(7), { even: false });
    const slanted = column(2, 5, drawn(7), { perAlong: 0.7 });
    const upright = column(3, 6, drawn(6.5));
    expect(tellingWidth(HEIGHTS, [uneven, slanted, upright])!.object).toBe(3);
  });
});

describe('a name on thin knit', () => {
  it('has its widest stroke measured, between widths about the predicted one', () => {
    const { stitches, objects } = strokes();
    const design = prepare({ stitches, objects }, SHOP.catalogue);
    const { measure, objects: risks } = assessFully(design, THIN, SHOP);
    expect(measure!.object).toBe(3);
    const [low, middle, high] = measure!.sewnMm;
    const usual = 7 - 2 * risks[2].pullInMm;
    expect(low).toBeLessThan(usual);
    expect(high).toBeGreaterThan(usual);
    expect(Math.abs(middle - usual)).toBeLessThan(0.05);
    // What else is unknown, bending above all, is no business of a ruler.
    expect(measure!.narrows).toBeGreaterThan(0);
    expect(measure!.narrows).toBeLessThan(0.5);
  }, 120_000);

  it('has draws of its widths that solving with softer points bears out', () => {
    const { stitches, objects } = strokes();
    const design = prepare({ stitches, objects }, SHOP.catalogue);
    const at = caseOf(THIN, SHOP);
    // Nothing but the hold of the points is unknown.
    const certain = Object.fromEntries(
      Object.entries(PARAMETERS).map(([name, one]) => [
        name,
        ['pointSpring', 'fabricGrip'].includes(name) ? one : { ...one, low: one.value, high: one.value },
      ]),
    ) as unknown as typeof PARAMETERS;
    const known = <T extends object>(ply: T): T =>
      Object.fromEntries(
        Object.entries(ply).map(([name, one]) => [
          name,
          typeof one === 'object' && one !== null && 'low' in one
            ? { ...one, low: one.value, high: one.value }
            : one,
        ]),
      ) as T;
    const catalogue = {
      ...CATALOGUE,
      sheets: Object.fromEntries(Object.entries(CATALOGUE.sheets).map(([id, sheet]) => [id, known(sheet)])),
    } as typeof CATALOGUE;
    const setup = new SolvedSetup(design, at.layup, at.settings, AS_SEWN);
    const drawn = new Draws({ ...at, catalogue, fabric: known(at.fabric) }, setup, certain).narrowings();
    const most = Math.max(...drawn[2]);
    // The softest hold of all draws is about what low to high allows.
    const times = PARAMETERS.pointSpring.low / PARAMETERS.pointSpring.value;
    const softer = new SolvedSetup(
      design,
      at.layup,
      {
        ...at.settings,
        pointSpring: times * at.settings.pointSpring,
        fabricGrip: times * at.settings.fabricGrip,
      },
      AS_SEWN,
    ).fine.narrowingMm[2];
    expect(most).toBeGreaterThan(setup.fine.narrowingMm[2]);
    expect(Math.abs(most - softer) / softer).toBeLessThan(0.2);
  }, 120_000);
});
