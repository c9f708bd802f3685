/**
 * Trends that must come out by themselves, on designs that the fit never saw: other words, other heights and stroke widths, turned,
 * other spacing. Those on underlay and backing are common practice, no source. Signs from print are named where they are used.
 */
import { describe, expect, it } from 'vitest';
import type { StackedSheet } from '../../lib/mechanics/goods.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { assess, type GoodsPlan, prepare } from '../../lib/mechanics/risk.js';
import type { UnderlayKind } from '../../lib/segment/objects.js';
import { relaidAll } from '../stitch/relaid-all.js';
import {
  COLUMN,
  type ColumnPlan,
  FILL,
  rectangle,
  Sewing,
  scaled,
  type TestDesign,
  turned,
  word,
} from './designs.js';
import { BONDED, NONE, TWO_BONDED, WOVEN, WOVEN_CROSSED } from './stacks.js';

const THIN = 'performance-knit-thin';
/** Many stacks and goods lie under one design. */
const ready = new WeakMap<TestDesign, PreparedDesign>();
function prepared(design: TestDesign): PreparedDesign {
  const made = ready.get(design) ?? prepare(design);
  ready.set(design, made);
  return made;
}
const wrinkle = (
  design: TestDesign,
  stack: readonly StackedSheet[] = BONDED,
  fabric = THIN,
  more: Partial<GoodsPlan> = {},
) => assess(prepared(design), { fabric, stack, ...more }).wrinkleMm;

const plan = (underlay: readonly UnderlayKind[], more: Partial<ColumnPlan> = {}): ColumnPlan => ({
  ...COLUMN,
  underlay,
  zigzag: 2.6,
  ...more,
});
const DOUBLE = ['double-zigzag'] as const;

const rising = (values: readonly number[]) => {
  for (let k = 1; k < values.length; k++) expect(values[k], `${values}`).toBeGreaterThan(values[k - 1]);
};

/** Word, height of the letters, width of their strokes. */
const WORDS: [string, number, number][] = [
  ['VITS', 24, 5],
  ['SKIO', 19, 4.5],
];

describe('underlay', () => {
  it.each(WORDS)(
    'of %s, %d mm, %d mm wide: double zigzag > zigzag > edge run, centre run',
    (text, height, width) => {
      const under = (kind: UnderlayKind) => wrinkle(word(text, height, plan([kind], { width })));
      const [double, zigzag, edge, centre] = (
        ['double-zigzag', 'zigzag', 'edge-run', 'center-run'] as const
      ).map(under);
      rising([zigzag, double]);
      rising([edge, zigzag]);
      rising([centre, zigzag]);
    },
  );

  it.each(WORDS)(
    'of %s, %d mm, %d mm wide: a light fill lowers it, for hardly any stitches',
    (text, height, width) => {
      const design = word(text, height, plan(DOUBLE, { width }));
      const light = relaidAll(design, 'fill');
      expect(wrinkle(light)).toBeLessThan(wrinkle(design));
      expect(Math.abs(light.stitches.count / design.stitches.count - 1)).toBeLessThan(0.15);
    },
  );
});

describe('backing', () => {
  it.each(WORDS)('under %s, %d mm, %d mm wide: more and better sheets pucker less', (text, height, width) => {
    const design = word(text, height, plan(DOUBLE, { width }));
    const on = (stack: readonly StackedSheet[]) => wrinkle(design, stack);
    rising([on(TWO_BONDED), on(BONDED), on(NONE)]);
    rising([on(WOVEN_CROSSED), on(WOVEN), on(BONDED)]);
    const both = wrinkle(relaidAll(design, 'fill'), WOVEN_CROSSED);
    expect(both / on(BONDED)).toBeLessThan(0.6);
  });

  it('one woven sheet has a period of 90° under a turned design and minds 45°; two at 0/45 hardly mind', () => {
    // Fabric turned along, so that the sheet alone makes the difference.
    const stroke = word('I', 30, plan(DOUBLE));
    const at = (stack: readonly StackedSheet[], turn: number) =>
      assess(prepared(turned(stroke, turn)), { fabric: THIN, stack, grainDeg: 90 + turn }).pullInMm;
    const woven = [0, 45, 90, 135].map((turn) => at(WOVEN, turn));
    expect(Math.abs(woven[2] / woven[0] - 1)).toBeLessThan(0.03);
    expect(Math.abs(woven[3] / woven[1] - 1)).toBeLessThan(0.03);
    const crossed = [0, 22.5, 45].map((turn) => at(WOVEN_CROSSED, turn));
    const apart = (values: readonly number[]) => Math.max(...values) / Math.min(...values) - 1;
    expect(apart(woven)).toBeGreaterThan(2 * apart(crossed));
    expect(apart(crossed)).toBeLessThan(0.1);
  });
});

describe('columns', () => {
  it('the wider the strokes, the more', () => {
    rising([3, 4, 5, 6].map((width) => wrinkle(word('KASO', 24, plan(DOUBLE, { width })))));
  });

  it('the closer the stitches, the more', () => {
    // Density stiffens and pulls most of all: Fashion and Textiles (2020), doi 10.1186/s40691-020-00225-6 (abstract seen), a sign test.
    rising([0.6, 0.45, 0.35].map((spacing) => wrinkle(word('NET', 22, plan(DOUBLE, { spacing })))));
  });

  it('sewn width is below the designed for columns of 2 to 7 mm, and the wider the more', () => {
    // Radavičienė & Jucienė, Fibres & Textiles in Eastern Europe 2012, 20(3), 92–97 (abstract seen): a sign test.
    const pulls = [2, 3, 5, 7].map((width) => {
      const ends: [number, number][] = [
        [-20, 0],
        [20, 0],
      ];
      const design = new Sewing().column(ends, plan(['edge-run'], { width })).done();
      return assess(prepare(design), { fabric: 'twill', stack: BONDED }).pullInMm;
    });
    expect(pulls[0]).toBeGreaterThan(0);
    rising(pulls);
  });

  it('a few per cent larger at the machine: wider columns pull more, opened spacing less, width wins', () => {
    const design = word('KASO', 19, plan(DOUBLE));
    const larger = scaled(design, 1.05);
    const widerOnly = word('KASO', 19 * 1.05, plan(DOUBLE, { width: 4.5 * 1.05 }));
    expect(wrinkle(larger)).toBeGreaterThan(wrinkle(design));
    expect(wrinkle(larger)).toBeLessThan(wrinkle(widerOnly));
  });
});

describe('fabric', () => {
  const design = word('SKIO', 24, plan(DOUBLE, { width: 6 }));

  it('canvas lies flat where thin performance knit puckers, polos lie between', () => {
    // Falls with weight and bending stiffness: Behera & Sharma, Indian J. Fibre Text. Res. 23 (1998) 233, for seams (abstract seen), a sign test.
    const [canvas, polo, performance, thin] = ['canvas-tote', 'pique-knit', 'performance-knit', THIN].map(
      (fabric) => wrinkle(design, BONDED, fabric),
    );
    expect(canvas).toBeLessThan(0.05 * thin);
    expect(polo).toBeLessThan(performance);
    rising([performance, thin]);
  });

  it('laundering never smooths', () => {
    for (const fabric of [THIN, 'pique-knit'])
      rising([0, 5].map((washes) => wrinkle(design, BONDED, fabric, { washes })));
  });

  it('stretching the fabric in the hoop makes it worse', () => {
    rising([0, 5, 15].map((hoopStretchPercent) => wrinkle(design, BONDED, THIN, { hoopStretchPercent })));
  });

  it('a small name puckers more than a large fill on the same fabric', () => {
    const filled = rectangle(new Sewing(), 0, 0, 80, 60, { ...FILL, stitch: 4 }).done();
    expect(wrinkle(design)).toBeGreaterThan(wrinkle(filled));
  });
});
