import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { withOverrides } from '../../lib/materials/overrides.js';
import { CAUSES } from '../../lib/mechanics/drivers.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { cellFor } from '../../lib/mechanics/prepared-design.js';
import { assess, assessFully, type DesignRisk, prepare, puckerRisk } from '../../lib/mechanics/risk.js';
import { gradeOf } from '../../lib/mechanics/score.js';
import { withinRange } from '../../lib/mechanics/uncertainty.js';
import { COLUMN, disc, FILL, type Point, Sewing, type TestDesign, turned, word } from './designs.js';
import { BONDED, FILM, NONE, SANDWICH, TWO_BONDED, WOVEN, WOVEN_CROSSED } from './stacks.js';

const THIN = 'performance-knit-thin';
const name = word('KO', 19, { ...COLUMN, underlay: ['double-zigzag'], zigzag: 2.6 });
const full = (design: TestDesign, more: object = {}): DesignRisk =>
  puckerRisk({ ...design, fabric: THIN, stack: BONDED, ...more });

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
    for (const [key, value] of [
      ['score', r.score],
      ['wrinkleMm', r.wrinkleMm],
    ] as const) {
      expect(r.range[key][0]).toBeLessThanOrEqual(value);
      expect(r.range[key][1]).toBeGreaterThanOrEqual(value);
    }
    const shares = r.drivers.reduce((sum, { share }) => sum + share, 0);
    expect(shares === 0 || Math.abs(shares - 1) < 1e-9).toBe(true);
  }
}

describe('risk', () => {
  it('is the same, however the design, its goods and its sheets are turned together', () => {
    const stack = [
      { sheet: 'woven-polyester', angleDeg: 10 },
      { sheet: 'cutaway-2.5oz', angleDeg: 40 },
    ];
    const at = (turn: number) =>
      assess(prepare(turned(name, turn)), {
        fabric: THIN,
        stack: stack.map(({ sheet, angleDeg }) => ({ sheet, angleDeg: angleDeg + turn })),
        grainDeg: 75 + turn,
      });
    const straight = at(0);
    // Askew to the stitches the grid itself makes a difference: a fiftieth of a millimetre is two points of the score.
    for (const [turn, toleranceMm] of [
      [90, 1e-4],
      [180, 1e-4],
      [33, 0.02],
      [-58, 0.02],
    ]) {
      const other = at(turn);
      expect(Math.abs(other.wrinkleMm - straight.wrinkleMm)).toBeLessThan(toleranceMm);
      expect(Math.abs(other.pullInMm / straight.pullInMm - 1)).toBeLessThan(0.02);
    }
  });

  it('is the same, wherever the design lies, and for its mirror image', () => {
    const base = assess(prepare(name), { fabric: THIN, stack: BONDED });
    const { stitches } = name;
    const moved = {
      ...name,
      stitches: { ...stitches, x: stitches.x.map((v) => v + 1234.5), y: stitches.y.map((v) => v - 321) },
    };
    const mirrored = { ...name, stitches: { ...stitches, x: stitches.x.map((v) => -v) } };
    for (const design of [moved, mirrored]) {
      const other = assess(prepare(design), { fabric: THIN, stack: BONDED });
      expect(Math.abs(other.wrinkleMm / base.wrinkleMm - 1)).toBeLessThan(1e-3);
    }
  });

  it('rises with the tension of the machine and falls with bending stiffness', () => {
    const stiffer = [1, 2, 4].map((factor) => {
      const { bendingAlong, bendingAcross } = CATALOGUE.fabrics[THIN];
      const catalogue = withOverrides(CATALOGUE, {
        fabrics: {
          [THIN]: { bendingAlong: bendingAlong.value * factor, bendingAcross: bendingAcross.value * factor },
        },
      });
      return assess(prepare(name), { fabric: THIN, stack: BONDED }, catalogue).score;
    });
    expect(stiffer[1]).toBeLessThan(stiffer[0]);
    expect(stiffer[2]).toBeLessThan(stiffer[1]);
    const tighter = [0.1, 0.13, 0.2].map((value) => {
      const parameters = { ...PARAMETERS, tension: { ...PARAMETERS.tension, value } };
      return assess(prepare(name), { fabric: THIN, stack: BONDED }, undefined, parameters).score;
    });
    expect(tighter[1]).toBeGreaterThan(tighter[0]);
    expect(tighter[2]).toBeGreaterThan(tighter[1]);
  });

  it('is finite and in bounds for whatever is sewn (property)', () => {
    const coordinate = fc.double({ min: -60, max: 60, noNaN: true });
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
          expectSound(full(sewing.done(), { fabric, stack, washes, hoopStretchPercent, cellMm: 3 }));
        },
      ),
      { numRuns: 40, seed: 9 },
    );
  });

  it('is nothing for a design without stitches, or of one place', () => {
    for (const points of [
      [],
      [[3, 4]],
      [
        [3, 4],
        [3, 4],
        [3, 4],
      ],
    ] as Point[][]) {
      const sewing = new Sewing();
      if (points.length > 0) sewing.run(points);
      const risk = full(sewing.done());
      expectSound(risk);
      expect(risk.wrinkleMm).toBe(0);
      expect(risk.grade).toBe(5);
    }
  });

  it('has maps on the grid that show what the figures say', () => {
    const risk = full(name);
    const { grid, wrinkleMm, displacementX, displacementY } = risk.maps;
    for (const map of [wrinkleMm, displacementX, displacementY]) expect(map.length).toBe(grid.nx * grid.ny);
    const sorted = wrinkleMm.slice().sort().reverse();
    const cells = 300 / grid.cellMm ** 2;
    const worst = sorted.slice(0, Math.round(cells)).reduce((sum, h) => sum + h, 0) / Math.round(cells);
    expect(Math.abs(worst / risk.wrinkleMm - 1)).toBeLessThan(0.01);
    // The left stem of the K moves right at its left edge.
    const { stitches, objects } = name;
    const [first, last] = objects[0].range;
    const left = Array.from({ length: last - first }, (_, k) => first + k).reduce((a, b) =>
      stitches.x[b] < stitches.x[a] ? b : a,
    );
    const i = Math.floor((stitches.x[left] - grid.x0) / grid.cellMm);
    const j = Math.floor(-grid.y0 / grid.cellMm);
    const width = Math.ceil(COLUMN.width / grid.cellMm);
    expect(displacementX[j * grid.nx + i]).toBeGreaterThan(displacementX[j * grid.nx + i + width]);
  });

  it('gives every object its own figures, none above the whole', () => {
    const sewing = new Sewing().column(
      [
        [-30, 0],
        [-30, 19],
      ],
      { ...COLUMN, width: 6, underlay: ['double-zigzag'] },
    );
    const design = disc(sewing, 25, 10, 8, FILL).done();
    const risk = full(design);
    expect(risk.objects.map(({ id }) => id)).toEqual([1, 2]);
    const [column, fill] = risk.objects;
    expect(column.wrinkleMm).toBeGreaterThan(fill.wrinkleMm);
    for (const object of risk.objects) expect(object.wrinkleMm).toBeLessThanOrEqual(risk.wrinkleMm + 1e-12);
    expect(risk.pullInMm).toBe(Math.max(column.pullInMm, fill.pullInMm));
    expect(column.pullCompensation.alongStitchMm).toBe(column.pullInMm);
  });

  it('names the causes that are at work, strongest first, and no others', () => {
    const causes = (risk: DesignRisk) => risk.drivers.map(({ cause }) => cause);
    const plain = full(word('KO', 19, COLUMN));
    expect(causes(plain)).not.toContain('underlay');
    expect(causes(plain)).not.toContain('laundering');
    expect(causes(plain)).not.toContain('hooping');
    const all = full(name, { washes: 3, hoopStretchPercent: 8 });
    for (const cause of ['underlay', 'laundering', 'hooping', 'width', 'spacing', 'fabric', 'backing'])
      expect(causes(all)).toContain(cause);
    expect(all.drivers.map(({ share }) => share)).toEqual(
      all.drivers.map(({ share }) => share).sort((a, b) => b - a),
    );
    for (const { cause } of all.drivers) expect(CAUSES).toContain(cause);
  });

  it('counts a film that the wash takes out for nothing after it', () => {
    const washed = (stack: typeof FILM) =>
      assess(prepare(name), { fabric: 'poplin', stack, washes: 1 }).wrinkleMm;
    expect(washed(FILM)).toBe(washed(NONE));
    expect(washed([...FILM, ...BONDED])).toBe(washed(BONDED));
  });

  it('sees stacked layers as a cause where they are one', () => {
    const column = (sewing: Sewing) =>
      sewing.column(
        [
          [0, -10],
          [0, 10],
        ],
        { ...COLUMN, width: 4 },
      );
    const twice = full(column(column(new Sewing())).done());
    expect(twice.drivers.find(({ cause }) => cause === 'layers')?.share).toBeGreaterThan(0.02);
  });
});

describe('resolution', () => {
  it('is a third of the width of the columns that carry the pull, between 0.35 and 0.75 mm', () => {
    const of = (width: number) => {
      const { stitches, objects } = new Sewing()
        .column(
          [
            [0, 0],
            [30, 0],
          ],
          { ...COLUMN, width },
        )
        .done();
      return cellFor(stitches, objects);
    };
    expect(of(1.8)).toBeCloseTo(0.6, 1);
    expect(of(0.6)).toBe(0.35);
    expect(of(6)).toBe(0.75);
    const fill = disc(new Sewing(), 0, 0, 5, FILL).done();
    expect(cellFor(fill.stitches, fill.objects)).toBe(0.75);
  });

  it('is said, and said to be too coarse where the design is too large for it', () => {
    expect(full(name).resolution.met).toBe(true);
    const far = prepare(
      new Sewing()
        .run([
          [0, 0],
          [2, 0],
          [900, 0],
        ])
        .done(),
    );
    expect(far.grid.cellMm).toBeGreaterThan(far.wantedCellMm);
    const asked = { ...prepare(name), wantedCellMm: 0.1 };
    expect(assessFully(asked, { fabric: 'canvas-tote', stack: NONE }).resolution.met).toBe(false);
  });

  it('hardly matters: twice as fine changes the height by less than 5 %', () => {
    const at = (cellMm: number) =>
      assess(prepare({ ...name, cellMm }), { fabric: THIN, stack: BONDED }).wrinkleMm;
    const finest = at(0.3);
    expect(Math.abs(at(0.75) / finest - 1)).toBeLessThan(0.05);
  });
});

describe('pull-in', () => {
  it('of a long straight column is that of a strip: the prestress over the stiffness across, half at each edge', () => {
    // 1-D: an endless column of width w under N* = T/s across shortens by w·N*/A11, free to move at both sides.
    const width = 6;
    const design = new Sewing()
      .column(
        [
          [-60, 0],
          [60, 0],
        ],
        { ...COLUMN, width },
      )
      .done();
    const prepared = prepare(design);
    const { pullInMm } = assess(prepared, { fabric: 'canvas-tote', stack: NONE, grainDeg: 0 });
    const swing = Math.hypot(width, 0.2);
    const tension = (PARAMETERS.tension.value * swing) / (swing + PARAMETERS.bedIn.value);
    const { membraneAlong, membraneAcross, poisson } = CATALOGUE.fabrics['canvas-tote'];
    const m22 =
      membraneAcross.value / (1 - (poisson.value ** 2 * membraneAcross.value) / membraneAlong.value);
    const closed = ((tension * (swing / 0.2 / width)) / m22) * width * 0.5;
    // The ends of a column 20 widths long, and the smearing over cells, are in it.
    expect(Math.abs(pullInMm / closed - 1)).toBeLessThan(0.08);
  });

  it('is positive along the stitches of a fill, and at the ends of a run', () => {
    const fill = full(disc(new Sewing(), 0, 0, 12, FILL).done()).objects[0];
    expect(fill.pullCompensation.alongStitchMm).toBeGreaterThan(0.02);
    const run = full(new Sewing().run(Array.from({ length: 12 }, (_, k): Point => [3 * k, 0])).done())
      .objects[0];
    expect(run.pullCompensation.alongStitchMm).toBeGreaterThan(0);
    expect(run.pullCompensation.acrossStitchMm).toBe(0);
  });
});

describe('range', () => {
  it('holds the figure and is wide: the goods are known within a factor', () => {
    const risk = full(name);
    expectSound(risk);
    expect(risk.range.wrinkleMm[1]).toBeGreaterThan(1.2 * risk.wrinkleMm);
    expect(risk.range.wrinkleMm[0]).toBeLessThan(0.8 * risk.wrinkleMm);
  });

  it('is wider after laundering, by what is not known of the thread', () => {
    const sources = (risk: DesignRisk) => risk.sensitivities.map(({ source }) => source);
    expect(sources(full(name))).not.toContain('shrinkage of the thread');
    const washed = full(name, { washes: 3 });
    const thread = washed.sensitivities.find(({ source }) => source === 'shrinkage of the thread');
    expect(thread?.atLow).toBeLessThan(0);
    expect(thread?.atHigh).toBeGreaterThan(0);
  });

  it('calls near plans a tie and far ones not', () => {
    const on = (stack: typeof BONDED) => full(name, { stack });
    const [one, crossed, woven, none, sandwich] = [BONDED, WOVEN_CROSSED, WOVEN, NONE, SANDWICH].map(on);
    expect(withinRange(one, one)).toBe(true);
    expect(withinRange(none, sandwich)).toBe(false);
    expect(withinRange(sandwich, none)).toBe(false);
    expect(withinRange(woven, crossed)).toBe(withinRange(crossed, woven));
    expect(withinRange(on(TWO_BONDED), crossed)).toBe(true);
    expect(withinRange(sandwich, one)).toBe(false);
    expect(one.wrinkleMm).toBeGreaterThan(crossed.wrinkleMm);
  });
});

describe('two sheets of a kind', () => {
  it('hold bold lettering better than one for sure, however stiff such a sheet is', () => {
    const bold = word('KO', 24, { ...COLUMN, width: 5.5, underlay: ['double-zigzag'], zigzag: 2.6 });
    const [one, two, woven] = [BONDED, TWO_BONDED, WOVEN].map((stack) => full(bold, { stack }));
    expect(two.wrinkleMm).toBeLessThan(one.wrinkleMm);
    expect(withinRange(two, one)).toBe(false);
    // One woven sheet comes out lower, too; but of another kind nothing is shared.
    expect(woven.wrinkleMm).toBeLessThan(one.wrinkleMm);
    expect(withinRange(woven, one)).toBe(true);
  });
});

describe('stacks of one kind', () => {
  it('bear the better the more there is of them', () => {
    const prepared = prepare(name);
    for (const stacks of [
      [WOVEN_CROSSED, WOVEN, NONE],
      [TWO_BONDED, BONDED, NONE],
      [SANDWICH, WOVEN_CROSSED, NONE],
    ]) {
      const figures = stacks.map((stack) => assess(prepared, { fabric: THIN, stack }).wrinkleMm);
      for (let k = 1; k < figures.length; k++) expect(figures[k]).toBeGreaterThan(figures[k - 1]);
    }
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
