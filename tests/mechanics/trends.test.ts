/**
 * Trends that must come out by themselves, on designs that the fit never saw: other words, other heights and stroke widths, turned,
 * other spacing. Those on underlay and backing are common practice, no source. Signs from print are named where they are used.
 */

import { describe, expect, it } from 'vitest';
import { memoize } from '../../lib/core/memoize.js';
import type { StackedSheet } from '../../lib/mechanics/layup.js';
import { assess, type GivenConditions } from '../../lib/mechanics/risk.js';
import type { UnderlayKind } from '../../lib/segment/objects.js';
import { SHOP } from '../built-in-shop.js';
import { IN_FULL, itInFull } from '../in-full.js';
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
import { roughly } from './roughly.js';
import { BONDED, NONE, TWO_BONDED, WOVEN, WOVEN_CROSSED } from './stacks.js';

const THIN = 'performance-knit-thin';
const wrinkle = (
  design: TestDesign,
  stack: readonly StackedSheet[] = BONDED,
  fabric = THIN,
  more: Partial<GivenConditions> = {},
) => assess(roughly(design), { fabric, stack, ...more }, SHOP).wrinkleMm;

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

/** Word, height of the letters, width of their strokes. The long runs take larger ones as well. */
const WORDS: [string, number, number][] = [
  [IN_FULL ? 'SKI' : 'K', 19, 4.5],
  ...(IN_FULL ? ([['VITS', 24, 5]] as [string, number, number][]) : []),
];

describe('underlay', () => {
  it.each(WORDS)(
    'of %s, %d mm, %d mm wide: double zigzag > zigzag > edge run, center run',
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
    const bonded = on(BONDED);
    rising([on(TWO_BONDED), bonded, on(NONE)]);
    rising([on(WOVEN_CROSSED), on(WOVEN), bonded]);
    const both = wrinkle(relaidAll(design, 'fill'), WOVEN_CROSSED);
    expect(both / bonded).toBeLessThan(0.6);
  });

  itInFull(
    'one woven sheet has a period of 90° under a turned design and minds 45°; two at 0/45 hardly mind',
    () => {
      // Fabric turned along, so that the sheet alone makes the difference.
      const stroke = word('I', 30, plan(DOUBLE));
      const at = (stack: readonly StackedSheet[], turn: number) =>
        assess(roughly(turned(stroke, turn)), { fabric: THIN, stack, grainDeg: 90 + turn }, SHOP).pullInMm;
      const woven = [0, 45, 90, 135].map((turn) => at(WOVEN, turn));
      expect(Math.abs(woven[2] / woven[0] - 1)).toBeLessThan(0.03);
      expect(Math.abs(woven[3] / woven[1] - 1)).toBeLessThan(0.03);
      const crossed = [0, 22.5, 45].map((turn) => at(WOVEN_CROSSED, turn));
      const apart = (values: readonly number[]) => Math.max(...values) / Math.min(...values) - 1;
      expect(apart(woven)).toBeGreaterThan(2 * apart(crossed));
      expect(apart(crossed)).toBeLessThan(0.1);
    },
  );
});

describe('columns', () => {
  itInFull('the wider the strokes, the more', () => {
    rising([3, 4, 5, 6].map((width) => wrinkle(word('KA', 24, plan(DOUBLE, { width })))));
  });

  itInFull('the closer the stitches, the more', () => {
    // Density stiffens and pulls most of all: Fashion and Textiles (2020), doi 10.1186/s40691-020-00225-6 (abstract seen), a sign test.
    rising([0.6, 0.45, 0.35].map((spacing) => wrinkle(word('NE', 22, plan(DOUBLE, { spacing })))));
  });

  itInFull('sewn width is below the designed for columns of 2 to 7 mm, and the wider the more', () => {
    // Radavičienė & Jucienė, Fibres & Textiles in Eastern Europe 2012, 20(3), 92–97 (abstract seen): a sign test.
    const pulls = [2, 3, 5, 7].map((width) => {
      const ends: [number, number][] = [
        [-20, 0],
        [20, 0],
      ];
      const design = new Sewing().column(ends, plan(['edge-run'], { width })).done();
      return assess(roughly(design), { fabric: 'twill', stack: BONDED }, SHOP).pullInMm;
    });
    expect(pulls[0]).toBeGreaterThan(0);
    rising(pulls);
  });

  itInFull(
    'a few per cent larger at the machine: wider columns pull more, opened spacing less, width wins',
    () => {
      const design = word('KA', 19, plan(DOUBLE));
      const larger = scaled(design, 1.05);
      const widerOnly = word('KA', 19 * 1.05, plan(DOUBLE, { width: 4.5 * 1.05 }));
      expect(wrinkle(larger)).toBeGreaterThan(wrinkle(design));
      expect(wrinkle(larger)).toBeLessThan(wrinkle(widerOnly));
    },
  );
});

describe('fabric', () => {
  const design = word('SK', 24, plan(DOUBLE, { width: 6 }));
  const own = memoize((fabric: string) => wrinkle(design, BONDED, fabric));

  it('canvas lies flat where thin performance knit puckers, polos lie between', () => {
    // Falls with weight and bending stiffness: Behera & Sharma, Indian J. Fibre Text. Res. 23 (1998) 233, for seams (abstract seen), a sign test.
    const [canvas, polo, performance, thin] = ['canvas-tote', 'pique-knit', 'performance-knit', THIN].map(
      own,
    );
    expect(canvas).toBeLessThan(0.05 * thin);
    expect(polo).toBeLessThan(performance);
    rising([performance, thin]);
  });

  it('laundering hardly changes a name on the thinnest knit, which shrinks as little as thread', () => {
    // The trade finds no laundered piece flatter (common practice, no source): what piqué does is in the list of facts.
    expect(wrinkle(design, BONDED, THIN, { washes: 5 }) / own(THIN)).toBeGreaterThan(0.95);
  });

  itInFull('stretching the fabric much in the hoop makes it worse', () => {
    const stretched = (hoopStretchPercent: number) => wrinkle(design, BONDED, THIN, { hoopStretchPercent });
    rising([own(THIN), stretched(8), stretched(15)]);
  });

  itInFull('a small name puckers more than a large fill on the same fabric', () => {
    const filled = rectangle(new Sewing(), 0, 0, 80, 60, { ...FILL, stitch: 4 }).done();
    expect(own(THIN)).toBeGreaterThan(wrinkle(filled));
  });
});
