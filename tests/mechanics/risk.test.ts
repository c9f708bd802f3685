import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { CAUSES } from '../../lib/mechanics/drivers.js';
import { pairedDraws, withinRange } from '../../lib/mechanics/paired-draws.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { assess, assessFully, type DesignRisk, prepare } from '../../lib/mechanics/risk.js';
import { gradeOf } from '../../lib/mechanics/score.js';
import { SHOP } from '../built-in-shop.js';
import { itInFull, someOf } from '../in-full.js';
import { catalogueWith } from '../materials/own-values.js';
import { COLUMN, disc, FILL, type Point, Sewing, type TestDesign, word } from './designs.js';
import { roughly } from './roughly.js';
import { BONDED, FILM, NONE, SANDWICH, WOVEN_CROSSED } from './stacks.js';

const THIN = 'performance-knit-thin';
const name = word('K', 19, { ...COLUMN, underlay: ['double-zigzag'], zigzag: 2.6 });
/** For signs and sameness; what is set beside figures of the fine mesh is solved there. */
const ready = roughly(name);
const full = (design: TestDesign, more: object = {}): DesignRisk =>
  assessFully(
    prepare({ ...design, ...more }, SHOP.catalogue),
    { fabric: THIN, stack: BONDED, ...more },
    SHOP,
  );
const thin = full(name);
const all = full(name, { washes: 3, hoopStretchPercent: 8 });

const everyNumber = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : ArrayBuffer.isView(value)
      ? [...(value as Float64Array)]
      : typeof value === 'object' && value !== null
        ? Object.values(value).flatMap(everyNumber)
        : [];

function expectSound(risk: DesignRisk) {
  expect(everyNumber(risk).every(Number.isFinite)).toBe(true);
  for (const r of [risk, ...risk.objects]) {
    expect(r.score).toBeGreaterThanOrEqual(0);
    expect(r.score).toBeLessThanOrEqual(100);
    expect(r.grade).toBe(gradeOf(r.score));
    expect(r.wrinkleMm).toBeGreaterThanOrEqual(0);
    const [p10, p50, p90] = r.wrinkleBandMm;
    expect(p10).toBeLessThanOrEqual(p50);
    expect(p50).toBeLessThanOrEqual(p90);
    expect(r.range.wrinkleMm).toEqual([p10, p90]);
    const shares = r.drivers.reduce((sum, { share }) => sum + share, 0);
    expect(shares === 0 || Math.abs(shares - 1) < 1e-9).toBe(true);
  }
}

describe('risk', () => {
  it('is the same wherever the design lies', () => {
    const base = assess(ready, { fabric: THIN, stack: BONDED }, SHOP);
    const { stitches } = name;
    const moved = {
      ...name,
      stitches: { ...stitches, x: stitches.x.map((v) => v + 1234.5), y: stitches.y.map((v) => v - 321) },
    };
    const other = assess(roughly(moved), { fabric: THIN, stack: BONDED }, SHOP);
    expect(Math.abs(other.wrinkleMm / base.wrinkleMm - 1)).toBeLessThan(2e-3);
    expect(Math.abs(other.pullInMm / base.pullInMm - 1)).toBeLessThan(1e-3);
  });

  it('rises with the tension of the machine and falls with bending stiffness', () => {
    const { bendingAlong, bendingAcross } = CATALOGUE.fabrics[THIN];
    const stiffer = catalogueWith({
      fabrics: { [THIN]: { bendingAlong: bendingAlong.value * 3, bendingAcross: bendingAcross.value * 3 } },
    });
    const plan = { fabric: THIN, stack: BONDED };
    const base = assess(ready, plan, SHOP);
    expect(assess(ready, plan, { ...SHOP, catalogue: stiffer }).wrinkleMm).toBeLessThan(0.8 * base.wrinkleMm);
    const tight = { ...PARAMETERS, tension: { ...PARAMETERS.tension, value: 0.16 } };
    const tighter = assess(ready, plan, { ...SHOP, parameters: tight });
    expect(tighter.wrinkleMm).toBeGreaterThan(base.wrinkleMm);
    // In the hoop no thread goes slack: pull-in goes with the tension.
    expect(tighter.pullInMm / base.pullInMm).toBeCloseTo(0.16 / PARAMETERS.tension.value, 2);
  });

  itInFull('of softer fabric is worse in pull-in and height', () => {
    const fabric = CATALOGUE.fabrics[THIN];
    const by = (times: number) =>
      assess(
        ready,
        { fabric: THIN, stack: BONDED },
        {
          ...SHOP,
          catalogue: catalogueWith({
            fabrics: {
              // To draw out and to bend: soft cloth is both.
              [THIN]: Object.fromEntries(
                (
                  [
                    'membraneAlong',
                    'membraneAcross',
                    'membraneShear',
                    'bendingAlong',
                    'bendingAcross',
                  ] as const
                ).map((key) => [key, times * fabric[key].value]),
              ),
            },
          }),
        },
      );
    const [soft, usual, firm] = [0.5, 1, 2].map(by);
    expect(soft.pullInMm).toBeGreaterThan(usual.pullInMm);
    expect(usual.pullInMm).toBeGreaterThan(firm.pullInMm);
    expect(soft.wrinkleMm).toBeGreaterThan(usual.wrinkleMm);
    expect(usual.wrinkleMm).toBeGreaterThan(firm.wrinkleMm);
  });

  it('is finite and in bounds for whatever is sewn (property)', () => {
    const coordinate = fc.double({ min: -30, max: 30, noNaN: true });
    const stitch = fc.tuple(coordinate, coordinate);
    const id = (shelf: 'fabrics' | 'sheets') => fc.constantFrom(...Object.keys(CATALOGUE[shelf]));
    const sheet = fc.record({ sheet: id('sheets'), angleDeg: fc.integer({ min: -180, max: 360 }) });
    fc.assert(
      fc.property(
        fc.array(fc.array(stitch, { maxLength: 40 }), { maxLength: 4 }),
        id('fabrics'),
        fc.array(sheet, { maxLength: 3 }),
        fc.integer({ min: 0, max: 3 }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (runs, fabric, stack, washes, hoopStretchPercent) => {
          const sewing = new Sewing();
          for (const points of runs) if (points.length > 0) sewing.run(points as Point[]);
          expectSound(full(sewing.done(), { fabric, stack, washes, hoopStretchPercent }));
        },
      ),
      { numRuns: someOf(8), seed: 9 },
    );
  });

  it('is worked out where what tears away leaves a gap under a wide column', () => {
    const wide = new Sewing().column(
      [
        [0, 0],
        [0, 6],
      ],
      { ...COLUMN, width: 10, underlay: ['zigzag'] },
    );
    const stack = [{ sheet: 'tearaway-1.8oz-firm', angleDeg: 0 }];
    expect(
      assess(prepare(wide.done(), SHOP.catalogue), { fabric: 'canvas-tote', stack }, SHOP).wrinkleMm,
    ).toBeLessThan(1);
  });

  it('is nothing for a design without stitches, or of one place', () => {
    for (const points of [[], [[3, 4]], Array(3).fill([3, 4])] as Point[][]) {
      const sewing = new Sewing();
      if (points.length > 0) sewing.run(points);
      const risk = full(sewing.done());
      expectSound(risk);
      expect(risk.wrinkleMm).toBe(0);
      expect(risk.grade).toBe(5);
    }
  });

  it('has maps that show what the figures say, with all that a relief needs', () => {
    const { grid, wrinkleMm, wavelengthMm, acrossDeg } = thin.maps;
    for (const map of [wrinkleMm, wavelengthMm, acrossDeg]) expect(map.length).toBe(grid.nx * grid.ny);
    const cells = Math.round(300 / grid.cellMm ** 2);
    const worst =
      wrinkleMm
        .slice()
        .sort()
        .reverse()
        .slice(0, cells)
        .reduce((sum, h) => sum + h, 0) / cells;
    // Cells that thread covers in part count in part.
    expect(worst).toBeGreaterThanOrEqual(thin.wrinkleMm);
    expect(worst).toBeLessThan(1.3 * thin.wrinkleMm);
    wrinkleMm.forEach((height, cell) => {
      if (height === 0) return;
      expect(wavelengthMm[cell]).toBeGreaterThan(0);
      expect(Math.abs(acrossDeg[cell])).toBeLessThanOrEqual(90);
      // 2(λ/π)√e for a shortening of a few parts in a hundred.
      expect(height).toBeLessThan(wavelengthMm[cell] / 2);
    });
  });

  itInFull('gives every object its own figures, none above the whole', () => {
    const sewing = new Sewing().column(
      [
        [-30, 0],
        [-30, 19],
      ],
      { ...COLUMN, width: 6, underlay: ['double-zigzag'] },
    );
    const risk = full(disc(sewing, 25, 10, 8, FILL).done());
    expect(risk.objects.map(({ id }) => id)).toEqual([1, 2]);
    const [column, fill] = risk.objects;
    expect(column.wrinkleMm).toBeGreaterThan(fill.wrinkleMm);
    for (const object of risk.objects) expect(object.wrinkleMm).toBeLessThanOrEqual(risk.wrinkleMm + 1e-12);
    expect(risk.pullInMm).toBe(Math.max(column.pullInMm, fill.pullInMm));
    expect(column.pullCompensation.alongStitchMm).toBe(column.pullInMm);
    expect(fill.pullCompensation.alongStitchMm).toBeGreaterThan(0.02);
  });

  it('names the causes that are at work, strongest first, and no others', () => {
    const causes = (risk: DesignRisk) => risk.drivers.map(({ cause }) => cause);
    const plain = full(word('K', 19, COLUMN));
    for (const cause of ['underlay', 'laundering', 'hooping']) expect(causes(plain)).not.toContain(cause);
    for (const cause of ['laundering', 'hooping', 'fabric']) expect(causes(all)).toContain(cause);
    for (const cause of ['underlay', 'width', 'spacing', 'fabric', 'backing'])
      expect(causes(thin)).toContain(cause);
    expect(all.drivers.map(({ share }) => share)).toEqual(
      all.drivers.map(({ share }) => share).sort((a, b) => b - a),
    );
    for (const { cause } of all.drivers) expect(CAUSES).toContain(cause);
  });

  it('counts a film that the wash takes out for nothing after it', () => {
    const washed = (stack: typeof FILM) => assess(ready, { fabric: THIN, stack, washes: 1 }, SHOP).wrinkleMm;
    expect(washed(FILM)).toBe(washed(NONE));
    expect(washed([...FILM, ...BONDED])).toBe(washed(BONDED));
  });
});

describe('resolution', () => {
  it('is said, and said to be too coarse where the design is too large for it', () => {
    expect(thin.resolution.met).toBe(true);
    const far = prepare(
      new Sewing()
        .run([
          [0, 0],
          [2, 0],
          [900, 700],
        ])
        .done(),
      SHOP.catalogue,
    );
    expect(far.fine.design.mesh.even.cellMm).toBeGreaterThan(far.wantedCellMm);
  });
});

describe('the band', () => {
  const crossed = full(name, { stack: WOVEN_CROSSED });

  it('holds the figure and is wide: fabric is known within a factor', () => {
    expectSound(thin);
    const [p10, p50, p90] = thin.wrinkleBandMm;
    expect(p90).toBeGreaterThan(1.2 * thin.wrinkleMm);
    expect(p10).toBeLessThan(0.8 * thin.wrinkleMm);
    expect(Math.abs(p50 / thin.wrinkleMm - 1)).toBeLessThan(0.35);
  });

  itInFull('compares two setups by the same fabric: surer than two bands that overlap', () => {
    const { ratio, flatterIn } = pairedDraws(crossed.draws, thin.draws);
    expect(crossed.wrinkleBandMm[2]).toBeGreaterThan(thin.wrinkleBandMm[0]);
    expect(flatterIn).toBeGreaterThan(0.75);
    expect(ratio[1]).toBeLessThan(0.8);
    const bare = full(name, { stack: NONE });
    expect(withinRange(bare, crossed)).toBe(false);
    expect(withinRange(crossed, bare)).toBe(false);
    expect(withinRange(thin, thin)).toBe(true);
    const back = pairedDraws(thin.draws, crossed.draws);
    expect(back.flatterIn).toBeCloseTo(1 - flatterIn, 12);
  });

  it('says after laundering what is not known of shrinking', () => {
    const sources = (risk: DesignRisk) => risk.sensitivities.map(({ source }) => source);
    expect(sources(thin)).not.toContain('shrinkage of the thread');
    expect(sources(all)).toContain('shrinkage of the fabric');
  });

  it('is near what full solves of the drawn values give', () => {
    // The band takes strains to be linear in the logarithm of a stiffness: here at one of its ends.
    const { membraneAlong: a, membraneAcross: b } = CATALOGUE.fabrics[THIN];
    const found = thin.sensitivities.find(({ source }) => source === 'stiffness of the fabric')!;
    const times = Math.sqrt((a.high / a.value) * (b.high / b.value));
    const g = CATALOGUE.fabrics[THIN].membraneShear.value;
    const catalogue = catalogueWith({
      fabrics: {
        [THIN]: { membraneAlong: times * a.value, membraneAcross: times * b.value, membraneShear: times * g },
      },
    });
    const on = { fabric: THIN, stack: BONDED };
    const solved =
      assess(prepare(name, SHOP.catalogue), on, { ...SHOP, catalogue: catalogue }).wrinkleMm - thin.wrinkleMm;
    expect(Math.abs(found.atHigh - solved)).toBeLessThan(0.2 * thin.wrinkleMm);
  });
});

describe('stacks', () => {
  it('bear the better the more there is of them', () => {
    const figures = [SANDWICH, WOVEN_CROSSED, BONDED, NONE].map((stack) =>
      assess(ready, { fabric: THIN, stack }, SHOP),
    );
    for (let k = 1; k < figures.length; k++)
      expect(figures[k].wrinkleMm).toBeGreaterThan(0.98 * figures[k - 1].wrinkleMm);
  });
});

describe('bad input', () => {
  it.each([
    ['an unknown fabric', { fabric: 'pique' }, 'unknown-id'],
    ['an unknown sheet', { stack: [{ sheet: 'felt', angleDeg: 0 }] }, 'unknown-id'],
    ['an unknown thread', { thread: 'cotton-30' }, 'unknown-id'],
    ['a negative stretch', { hoopStretchPercent: -1 }, 'bad-argument'],
    ['launderings that are no number', { washes: Number.NaN }, 'bad-argument'],
    [
      'an angle that is no number',
      { stack: [{ sheet: 'cap-backing', angleDeg: Number.NaN }] },
      'bad-argument',
    ],
    ['a grain that is no number', { grainDeg: Number.POSITIVE_INFINITY }, 'bad-argument'],
  ])('%s is refused', (_, more, code) => {
    try {
      full(name, more);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(LieflatError);
      expect((error as LieflatError).code).toBe(code);
    }
  });
});
