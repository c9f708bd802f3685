import { beforeAll, describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import type { StackedSheet } from '../../lib/mechanics/goods.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { type PreparedDesign, prepareRelaid } from '../../lib/mechanics/prepared-design.js';
import { assess, assessFully, prepare } from '../../lib/mechanics/risk.js';
import { type FamilyConditions, type StackFamily, stackFamilies } from '../../lib/mechanics/stack-family.js';
import { relaidAll } from '../stitch/relaid-all.js';
import { COLUMN, FILL, rectangle, Sewing, type TestDesign, word } from './designs.js';
import { sampleDesign } from './sample-designs.js';
import {
  BONDED,
  CAP,
  FILM,
  NONE,
  SANDWICH,
  TEAR_CRISP,
  TEAR_FIRM,
  TWO_BONDED,
  TWO_CAP,
  WOVEN,
  WOVEN_CROSSED,
  WOVEN_SAME,
} from './stacks.js';

const STACKS: StackedSheet[][] = [
  NONE,
  BONDED,
  TWO_BONDED,
  WOVEN,
  WOVEN_SAME,
  WOVEN_CROSSED,
  SANDWICH,
  TEAR_FIRM,
  TEAR_CRISP,
  CAP,
  TWO_CAP,
  FILM,
  [...BONDED, ...TEAR_FIRM],
  [...BONDED, ...WOVEN],
  [...FILM, ...BONDED],
  [{ sheet: 'cutaway-3oz', angleDeg: 0 }],
  [{ sheet: 'cutaway-3.5oz', angleDeg: 0 }],
  [{ sheet: 'woven-polyester', angleDeg: 45 }],
];

const UNSTRETCHED = { grainDeg: 90, hoopStretchPercent: 0, washes: 8 };

const familiesOf = (
  designs: PreparedDesign[],
  conditions: FamilyConditions,
  stacks: StackedSheet[][] = STACKS,
): StackFamily[] => stackFamilies(designs, stacks, conditions, CATALOGUE, PARAMETERS);

const exactHeights = (design: PreparedDesign, conditions: FamilyConditions, stack: StackedSheet[]) =>
  [0, conditions.washes].map((washes) => assess(design, { ...conditions, stack, washes }).wrinkleMm);

/** Most of all differences from `assess`, as parts of what is allowed: 2 % or 0.005 mm. */
function worstDifference(
  family: StackFamily,
  design: PreparedDesign,
  conditions: FamilyConditions,
  stacks = STACKS,
) {
  return Math.max(
    ...stacks.flatMap((stack) => {
      const { nowMm, washedMm } = family.heights(stack);
      const exact = exactHeights(design, conditions, stack);
      return [nowMm, washedMm].map((is, k) => Math.abs(is - exact[k]) / Math.max(0.005, 0.02 * exact[k]));
    }),
  );
}

const wordOver = (underlay: 'double-zigzag' | 'center-run'): TestDesign =>
  word('NOR', 19, { ...COLUMN, underlay: [underlay] });

const filled = (): TestDesign => rectangle(new Sewing(), 0, 0, 40, 25, FILL).done();

describe('stackFamilies', () => {
  it.each([
    ['performance-knit-thin', UNSTRETCHED],
    ['pique-knit', { ...UNSTRETCHED, hoopStretchPercent: 4 }],
    ['poplin', { ...UNSTRETCHED, grainDeg: 70 }],
  ])('comes to what every stack comes to by itself, on %s over two underlays', (fabric, rest) => {
    const conditions = { fabric, ...rest };
    const base = prepare(wordOver('double-zigzag'));
    const designs = [base, prepareRelaid(base, wordOver('center-run'))];
    const families = familiesOf(designs, conditions);
    families.forEach((family, k) => {
      // Other underlays lean on the solves of the first and are known less well.
      expect(worstDifference(family, designs[k], conditions)).toBeLessThan(k === 0 ? 1 : 2);
    });
  });

  it('does so on a fill', () => {
    const conditions = { fabric: 'jersey-knit', ...UNSTRETCHED };
    const design = prepare(filled());
    expect(worstDifference(familiesOf([design], conditions)[0], design, conditions)).toBeLessThan(1);
  });

  it.each(['name-drop.dst', 'cap-front.dst'])('does so on %s', async (sample) => {
    const conditions = { fabric: 'performance-knit', ...UNSTRETCHED };
    const design = prepare(await sampleDesign(sample));
    expect(worstDifference(familiesOf([design], conditions)[0], design, conditions)).toBeLessThan(1);
  });

  describe.each(['jersey-knit', 'woven-scrub'])('on name-drop.dst over fills, on %s', (fabric) => {
    const conditions = { fabric, ...UNSTRETCHED };
    const compared = [
      WOVEN,
      WOVEN_SAME,
      WOVEN_CROSSED,
      [{ sheet: 'woven-polyester', angleDeg: 45 }],
      TWO_CAP,
    ];
    let designs: PreparedDesign[];
    let families: StackFamily[];
    beforeAll(async () => {
      const sewn = await sampleDesign('name-drop.dst');
      const base = prepare(sewn);
      const over = (kind: 'fill' | 'edge-run+fill') => prepareRelaid(base, relaidAll(sewn, kind));
      designs = [base, over('fill'), over('edge-run+fill')];
      families = familiesOf(designs, conditions);
    });

    it('does so where the worst patch is another than over the underlay as it came', () => {
      for (const k of [1, 2])
        expect(worstDifference(families[k], designs[k], conditions, compared)).toBeLessThan(2);
    });

    it('comes to what `assess` does to every figure that is told, once confirmed', () => {
      for (const stack of [WOVEN, CAP]) {
        const { nowMm, washedMm } = families[2].confirmed(stack);
        const [now, washed] = exactHeights(designs[2], conditions, stack);
        expect(Math.abs(nowMm - now)).toBeLessThan(0.001);
        expect(Math.abs(washedMm - washed)).toBeLessThan(0.001);
      }
    });
  });

  const conditions = { fabric: 'performance-knit', ...UNSTRETCHED };

  it('gives the figures of a full assessment in detail', () => {
    const design = prepare(wordOver('double-zigzag'));
    const [family] = familiesOf([design], conditions);
    for (const stack of [BONDED, [...FILM, ...BONDED]]) {
      const { now, washed } = family.detail(stack);
      const objects = family.objectRisks(stack);
      for (const [is, washes] of [
        [now, 0],
        [washed, 8],
      ] as const) {
        const should = assessFully(design, { ...conditions, stack, washes });
        expect(Math.abs(is.wrinkleMm - should.wrinkleMm)).toBeLessThan(
          Math.max(0.005, 0.02 * should.wrinkleMm),
        );
        expect(Math.abs(is.score - should.score)).toBeLessThan(1);
        expect(is.pullInMm / should.pullInMm).toBeCloseTo(1, 2);
        const [low, high] = should.range.wrinkleMm;
        expect(Math.abs(is.range.wrinkleMm[0] - low)).toBeLessThan(0.15 * (high - low));
        expect(Math.abs(is.range.wrinkleMm[1] - high)).toBeLessThan(0.15 * (high - low));
        should.objects.forEach((object, k) => {
          const of = objects[k][washes === 0 ? 'now' : 'washed'];
          expect(Math.abs(of.wrinkleMm - object.wrinkleMm)).toBeLessThan(0.02);
          expect(Math.abs(of.pullInMm - object.pullInMm)).toBeLessThan(0.01);
        });
      }
    }
  });

  it('has one height where nothing is washed', () => {
    const unwashed = { ...conditions, washes: 0 };
    const [family] = familiesOf([prepare(filled())], unwashed);
    for (const stack of STACKS) {
      const { nowMm, washedMm } = family.heights(stack);
      expect(washedMm).toBe(nowMm);
    }
    expect(family.detail(BONDED).washed).toEqual(family.detail(BONDED).now);
    const { nowMm, washedMm } = family.confirmed(BONDED);
    expect(washedMm).toBe(nowMm);
  });

  it('answers for a stack that it was not made for', () => {
    const design = prepare(filled());
    const [family] = familiesOf([design], conditions);
    const stack = [...TEAR_FIRM, ...TEAR_FIRM];
    const exact = assess(design, { ...conditions, stack }).wrinkleMm;
    expect(Math.abs(family.heights(stack).washedMm / exact - 1)).toBeLessThan(0.05);
  });

  it('serves a single stack, and a design without stitches', () => {
    const design = prepare(filled());
    const [family] = familiesOf([design], conditions, [BONDED]);
    const exact = assess(design, { ...conditions, stack: BONDED }).wrinkleMm;
    expect(Math.abs(family.heights(BONDED).washedMm - exact)).toBeLessThan(Math.max(0.005, 0.02 * exact));
    expect(stackFamilies([], STACKS, conditions, CATALOGUE, PARAMETERS)).toEqual([]);
  });

  it('refuses a sheet that nobody knows', () => {
    const [family] = familiesOf([prepare(filled())], conditions, [BONDED]);
    expect(() => family.heights([{ sheet: 'nothing-of-the-kind', angleDeg: 0 }])).toThrow(
      /there is no backing sheet of that name/,
    );
  });
});

describe('prepareRelaid', () => {
  it('makes of a design what preparing the other underlay afresh makes of it', () => {
    const base = prepare(wordOver('double-zigzag'));
    const sewn = wordOver('center-run');
    const relaid = prepareRelaid(base, sewn);
    const afresh = prepare(sewn);
    expect(relaid.grid).toEqual(afresh.grid);
    const plan = { fabric: 'performance-knit-thin', stack: BONDED };
    // Alike but for the thread that leads from the underlay into the top stitching, which is that of the base.
    expect(Math.abs(assess(relaid, plan).wrinkleMm / assess(afresh, plan).wrinkleMm - 1)).toBeLessThan(0.015);
  });
});
