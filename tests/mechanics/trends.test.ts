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
import { BONDED, NONE, SANDWICH, TWO_BONDED, WOVEN, WOVEN_CROSSED, WOVEN_SAME } from './stacks.js';

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
  ['NO', 40, 7],
  ['SKIO', 19, 4.5],
  ['LENA', 30, 5.5],
];

describe('underlay', () => {
  it.each(WORDS)(
    'of %s, %d mm, %d mm wide: double zigzag > zigzag > edge run ≥ centre run, a light fill no more than that',
    (text, height, width) => {
      const under = (kind: UnderlayKind) => wrinkle(word(text, height, plan([kind], { width })));
      const [double, zigzag, edge, centre] = (
        ['double-zigzag', 'zigzag', 'edge-run', 'center-run'] as const
      ).map(under);
      const light = wrinkle(relaidAll(word(text, height, plan(DOUBLE, { width })), 'fill'));
      rising([zigzag, double]);
      rising([edge, zigzag]);
      expect(edge).toBeGreaterThanOrEqual(centre);
      // In columns of 5.5 mm the two come out alike; the wider, the more the light fill is ahead.
      expect(light).toBeLessThan((width > 5.5 ? 0.9 : 1.05) * centre);
    },
  );

  it.each(WORDS)(
    'of %s, %d mm, %d mm wide: a light fill cuts it by at least a third',
    (text, height, width) => {
      const design = word(text, height, plan(DOUBLE, { width }));
      const light = relaidAll(design, 'fill');
      expect(wrinkle(light) / wrinkle(design)).toBeLessThan(0.67);
      // The stitch count hardly changes.
      expect(Math.abs(light.stitches.count / design.stitches.count - 1)).toBeLessThan(0.15);
    },
  );

  it('of columns of only 4 mm: a centre run does about as well as a light fill', () => {
    const design = word('LENA', 30, plan(DOUBLE, { width: 4 }));
    const centre = wrinkle(word('LENA', 30, plan(['center-run'], { width: 4 })));
    expect(Math.abs(wrinkle(relaidAll(design, 'fill')) - centre)).toBeLessThan(0.1 * wrinkle(design));
  });
});

describe('backing', () => {
  it.each(WORDS)('under %s, %d mm, %d mm wide: more and better sheets pucker less', (text, height, width) => {
    const design = word(text, height, plan(DOUBLE, { width }));
    const on = (stack: readonly StackedSheet[]) => wrinkle(design, stack);
    rising([on(TWO_BONDED), on(BONDED), on(NONE)]);
    rising([on(SANDWICH), on(WOVEN_CROSSED), on(WOVEN), on(BONDED)]);
    const both = wrinkle(relaidAll(design, 'fill'), WOVEN_CROSSED);
    expect(both / on(BONDED)).toBeLessThan(0.25);
  });

  it('two woven sheets at 0/45 beat 0/0 for lettering in all directions', () => {
    const turns = [0, 15, 30, 45, 60, 75];
    const worst = (stack: readonly StackedSheet[]) =>
      Math.max(...turns.map((turn) => wrinkle(word('ELI', 19, plan(DOUBLE), turn), stack)));
    expect(worst(WOVEN_CROSSED)).toBeLessThan(0.8 * worst(WOVEN_SAME));
  });

  it('one woven sheet has a period of 90° under a turned design and minds 45°; two at 0/45 hardly mind', () => {
    // Fabric turned along, so that the sheet alone makes the difference.
    const stroke = word('I', 30, plan(DOUBLE));
    const at = (stack: readonly StackedSheet[], turn: number) =>
      wrinkle(turned(stroke, turn), stack, THIN, { grainDeg: 90 + turn });
    const woven = [0, 45, 90, 135].map((turn) => at(WOVEN, turn));
    expect(Math.abs(woven[2] / woven[0] - 1)).toBeLessThan(0.02);
    expect(Math.abs(woven[3] / woven[1] - 1)).toBeLessThan(0.02);
    expect(woven[1] / woven[0]).toBeGreaterThan(2);
    const name = word('NO', 24, plan(DOUBLE, { width: 5 }));
    const crossed = [0, 22.5, 45, 90].map((turn) =>
      wrinkle(turned(name, turn), WOVEN_CROSSED, THIN, { grainDeg: 90 + turn }),
    );
    expect(Math.max(...crossed) / Math.min(...crossed)).toBeLessThan(1.1);
  });
});

describe('columns', () => {
  it.each(['KASO', 'TRIVE'])('of %s: the wider, the more', (text) => {
    rising([2, 3, 4, 5, 6, 7].map((width) => wrinkle(word(text, 24, plan(DOUBLE, { width })))));
  });

  it.each([12, 19, 28, 40])('letters %d mm high: the wider the strokes, the more', (height) => {
    rising(
      [0.16, 0.2, 0.24].map((part) =>
        wrinkle(word('ROK', height, plan(DOUBLE, { width: part * height + 1 }))),
      ),
    );
  });

  it('the closer the stitches, the more', () => {
    // Density stiffens and pulls most of all: Fashion and Textiles (2020), doi 10.1186/s40691-020-00225-6 (abstract seen), a sign test.
    for (const text of ['KASO', 'NET'])
      rising(
        [0.6, 0.5, 0.45, 0.4, 0.35].map((spacing) => wrinkle(word(text, 22, plan(DOUBLE, { spacing })))),
      );
  });

  it('sewn width is below the designed for columns of 2 to 7 mm, and the wider the more', () => {
    // Radavičienė & Jucienė, Fibres & Textiles in Eastern Europe 2012, 20(3), 92–97 (abstract seen): a sign test.
    const pulls = [2, 3, 4, 5, 6, 7].map((width) => {
      const design = new Sewing()
        .column(
          [
            [-20, 0],
            [20, 0],
          ],
          plan(['edge-run'], { width }),
        )
        .done();
      return assess(prepare(design), { fabric: 'twill', stack: BONDED }).pullInMm;
    });
    expect(pulls[0]).toBeGreaterThan(0);
    rising(pulls);
  });

  it('goods draw in most on the bias', () => {
    // The same source: the goods give most on the bias.
    const pull = (turn: number) =>
      assess(prepare(turned(word('I', 30, plan(DOUBLE)), turn)), { fabric: 'poplin', stack: NONE }).pullInMm;
    expect(pull(45)).toBeGreaterThan(pull(0));
    expect(pull(45)).toBeGreaterThan(pull(90));
  });

  it('a few per cent larger at the machine: wider columns pull more, opened spacing less, width wins', () => {
    const design = word('KASO', 19, plan(DOUBLE));
    const larger = scaled(design, 1.05);
    const widerOnly = word('KASO', 19 * 1.05, plan(DOUBLE, { width: 4.5 * 1.05 }));
    expect(wrinkle(larger)).toBeGreaterThan(wrinkle(design));
    expect(wrinkle(larger)).toBeLessThan(wrinkle(widerOnly));
  });
});

describe('goods', () => {
  it.each(WORDS)(
    '%s, %d mm, %d mm wide: canvas lies flat where thin performance knit puckers',
    (text, height, width) => {
      const design = word(text, height, plan(DOUBLE, { width }));
      expect(wrinkle(design, BONDED, 'canvas-tote')).toBeLessThan(0.05 * wrinkle(design));
    },
  );

  it('pucker falls with weight and bending stiffness', () => {
    // Behera & Sharma, Indian J. Fibre Text. Res. 23 (1998) 233, for seams (abstract seen): a sign test.
    const design = word('SKIO', 24, plan(DOUBLE, { width: 6 }));
    rising(['twill', 'poplin'].map((fabric) => wrinkle(design, BONDED, fabric)));
    rising(['pique-knit', 'performance-knit', THIN].map((fabric) => wrinkle(design, BONDED, fabric)));
  });

  it('laundering never smooths, and a second bonded sheet pays off after it', () => {
    const design = word('KASO', 19, plan(DOUBLE));
    for (const fabric of [THIN, 'pique-knit', 'jersey-knit']) {
      const laundered = (washes: number, stack = BONDED) => wrinkle(design, stack, fabric, { washes });
      rising([laundered(0), laundered(1), laundered(5)]);
      expect(laundered(5, TWO_BONDED)).toBeLessThan(laundered(5));
    }
  });

  it('stretching the goods in the hoop makes it worse', () => {
    const design = word('KASO', 19, plan(DOUBLE));
    rising([0, 2, 5, 15].map((hoopStretchPercent) => wrinkle(design, BONDED, THIN, { hoopStretchPercent })));
  });

  it('a small name puckers more than a large fill on the same goods', () => {
    const filled = rectangle(new Sewing(), 0, 0, 100, 70, { ...FILL, stitch: 2.5 }).done();
    expect(filled.stitches.count).toBeGreaterThan(7000);
    for (const [text, height, width] of WORDS.slice(0, 3))
      expect(wrinkle(word(text, height, plan(DOUBLE, { width })))).toBeGreaterThan(wrinkle(filled));
  });
});
