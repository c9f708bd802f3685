import { beforeAll, describe, expect, it } from 'vitest';
import {
  type Calibration,
  calibrate,
  calibrationKey,
  underlayFaults,
} from '../../lib/calibrate/calibrate.js';
import { quadratic } from '../../lib/calibrate/fit.js';
import type { FreeName } from '../../lib/calibrate/free-parameters.js';
import { nextSewOuts } from '../../lib/calibrate/next-sew-outs.js';
import { type LoggedSewOut, readSewOutLog } from '../../lib/calibrate/sew-out-log.js';
import { supported } from '../../lib/calibrate/support.js';
import { LieflatError } from '../../lib/core/errors.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { withParameters } from '../../lib/mechanics/parameter-overrides.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { coarsely, graded, PRIORS, repeatable, strokes, trueGrade, withTruth } from './shop.js';

const STACKS = ['cutaway-2.5oz', 'woven-polyester+woven-polyester@45'];
const designs = new Map([['strokes.dst', strokes()]]);

async function rowsOf(lines: readonly string[]): Promise<readonly LoggedSewOut[]> {
  const text = ['file,fabric,stack,underlay,washes,grade', ...lines].join('\n');
  const { rows, faults } = await readSewOutLog(new TextEncoder().encode(text), CATALOGUE);
  expect(faults).toEqual([]);
  return rows;
}

const input = (rows: readonly LoggedSewOut[]) => ({
  rows,
  designs,
  catalogue: CATALOGUE,
  washes: 8,
  place: 'log.csv',
});

describe('a calibration', () => {
  const truth = withTruth({ tension: 0.11, scoreHalf: 0.4 });
  let rows: readonly LoggedSewOut[];
  let found: Calibration;

  beforeAll(async () => {
    const random = repeatable(17);
    const design = coarsely(strokes());
    const lines = ['pique-knit', 'performance-knit', 'jersey-knit'].flatMap((fabric) =>
      STACKS.flatMap((stack) =>
        [0, 1].flatMap((washes) => {
          const grade = trueGrade(design, { fabric, stack, washes }, truth);
          return [0, 1].map(() =>
            ['strokes.dst', fabric, stack, 'as-is', washes, graded(grade, random)].join(','),
          );
        }),
      ),
    );
    // One row that somebody wrote into the wrong line.
    lines[5] = 'strokes.dst,pique-knit,woven-polyester+woven-polyester@45,as-is,0,1';
    lines.push('strokes.dst,performance-knit,cutaway-2.5oz,fill:1 2 3,0,4.5');
    rows = await rowsOf(lines);
    found = await calibrate(input(rows));
  }, 600_000);

  it('foretells better than before, names the row that is off, and says how far it can be trusted', () => {
    const { errors, noise, settings, held } = found;
    expect(errors.fitted).toBeLessThan(errors.before);
    expect(errors.leaveOneOut).toBeGreaterThan(errors.fitted);
    expect(noise).toBeGreaterThanOrEqual(0.5);
    expect(settings).toBe(13);
    expect(held).toEqual([]);
    expect(found.rows.filter(({ outlying }) => outlying).map(({ line }) => line)).toEqual([7]);
  });

  it('tells the underlay as sewn from that of the file', () => {
    const as = (underlay: string) =>
      found.rows.find(
        (row) =>
          row.underlayText === underlay &&
          row.fabric === 'performance-knit' &&
          row.stackText === 'cutaway-2.5oz',
      )!.foretold;
    expect(as('fill:1 2 3')).toBeGreaterThan(as('as-is') + 0.3);
  });

  it('writes what a profile takes, with a range that is one standard deviation', () => {
    const key = calibrationKey(found);
    const parameters = withParameters(PARAMETERS, key);
    for (const { name, value, low, high, interval } of found.parameters) {
      expect(parameters[name].value / value).toBeCloseTo(1, 3);
      expect(low).toBeGreaterThan(interval[0]);
      expect(high).toBeLessThan(interval[1]);
      expect(parameters[name].basis).toContain('25 graded sew-outs');
    }
  });

  it('holds what the shop has set itself, and what the log says nothing of', async () => {
    const own = withParameters(PARAMETERS, { bedIn: 6, firstWash: 0.5 });
    const { held, parameters } = await calibrate({
      ...input(rows.filter(({ washes }) => washes === 0)),
      parameters: own,
    });
    expect(held.map(({ name }) => name)).toEqual(['firstWash']);
    expect(held[0].why).toContain('wash some once');
    expect(parameters.map(({ name }) => name)).not.toContain('firstWash');
  });

  it('suggests sew-outs that raise the information more than any other would', () => {
    const { next } = found;
    expect(next.length).toBeGreaterThan(0);
    for (const { setting, sewOuts, narrows } of next) {
      expect(setting.file).toBe('strokes.dst');
      expect(sewOuts).toBeGreaterThan(0);
      expect(narrows.part).toBeGreaterThan(0);
      expect(narrows.part).toBeLessThan(1);
    }
  });

  it('goes without a design for no row', async () => {
    await expect(calibrate({ ...input(rows), designs: new Map() })).rejects.toMatchObject({
      code: 'bad-argument',
    });
  });
});

describe('what to sew next', () => {
  it('is the candidate that makes the determinant of the covariance smallest', () => {
    // Tables of heights that move a grade by known slopes: what is fitted is one parameter a direction.
    const names: FreeName[] = ['tension', 'scoreHalf'];
    const covariance = [
      [0.04, 0.01],
      [0.01, 0.09],
    ];
    const fit = {
      parameters: names.map((name) => ({ name })),
      values: { tension: 0.135, fullTacking: 0.24, threshold: 4.4, firstWash: 0.6, scoreHalf: 0.32 },
      covariance,
      noise: 0.5,
    } as unknown as Parameters<typeof nextSewOuts>[0];
    const candidates = [0, 0.4, 1, 2].map((power) => ({
      setting: power,
      table: { height: ({ tension }: { tension: number }) => 0.2 * (tension / 0.135) ** power },
    }));
    const [first, ...more] = nextSewOuts(fit, candidates);
    const slope = 1e-4;
    const determinant = (c: (typeof candidates)[number]) => {
      const grade = (tension: number, half: number) => 1 + 4 * 2 ** (-c.table.height({ tension }) / half);
      const row = [
        (grade(0.135 * (1 + slope), 0.32) - grade(0.135, 0.32)) / slope,
        (grade(0.135, 0.32 * (1 + slope)) - grade(0.135, 0.32)) / slope,
      ].map((s) => s / 0.5);
      return 1 + 4 * quadratic(row, covariance);
    };
    const best = candidates.reduce((a, b) => (determinant(b) > determinant(a) ? b : a));
    expect(first.setting).toBe(best.setting);
    expect(more.map(({ setting }) => setting)).not.toContain(best.setting);
  });
});

describe('a log that cannot carry a fit', () => {
  const line = (fabric: string, stack: string, washes: number, grade: number) =>
    `strokes.dst,${fabric},${stack},as-is,${washes},${grade}`;
  const many = (count: number, of: (i: number) => string) => Array.from({ length: count }, (_, i) => of(i));

  it.each([
    ['no rows', [], 'no sew-out can be used, and a fit needs 10'],
    ['too few rows', many(9, (i) => line('poplin', STACKS[i % 2], 0, 1 + (i % 5))), 'only 9 sew-outs'],
    ['one grade', many(12, (i) => line('poplin', STACKS[i % 2], 0, 4)), 'every grade is 4'],
    [
      'grades that hardly differ',
      many(12, (i) => line('poplin', STACKS[i % 2], 0, 4 + (i % 3) / 2)),
      'all grades lie between 4 and 5',
    ],
    [
      'the same goods',
      many(12, (i) => line('jersey-knit', STACKS[0], i % 3, 2 + (i % 5) / 2)),
      'all sew-outs are on the same goods, jersey-knit over cutaway-2.5oz',
    ],
    [
      'goods that stay flat whatever is done',
      many(12, (i) => line('canvas-tote', STACKS[i % 2], 0, 3 + (i % 5) / 2)),
      'foretells nearly the same grade',
    ],
  ])('is refused: %s', async (_, lines, what) => {
    const error = await calibrate(input(await rowsOf(lines))).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(LieflatError);
    expect(error).toMatchObject({ code: 'no-fit', place: 'log.csv' });
    expect((error as LieflatError).what).toContain(what);
    expect((error as LieflatError).todo).toMatch(/^sew /);
  });

  it('is refused where two parameters do the same to every grade', async () => {
    // Heights that go with the tension alone: a tension twice as high looks as if the graders minded half the height.
    const tables = Array.from({ length: 12 }, (_, i) => ({
      height: ({ tension }: { tension: number }) => 0.2 + 0.1 * i + tension,
    }));
    const alike = tables.map(() => ({ height: ({ tension }: { tension: number }) => 2 * tension }));
    await expect(supported(alike, PARAMETERS, PRIORS, 'log.csv')).rejects.toMatchObject({
      code: 'no-fit',
      what: expect.stringMatching(/tension and scoreHalf apart \(the normal matrix is singular\)/),
    });
    expect((await supported(tables, PARAMETERS, PRIORS, 'log.csv')).names).toEqual(['tension', 'scoreHalf']);
  });

  it('has its underlays held against the design', async () => {
    const rows = await rowsOf([
      'strokes.dst,poplin,none,fill:1 3,0,4',
      'strokes.dst,poplin,none,fill:1 4,0,4',
      'other.dst,poplin,none,fill:1,0,4',
    ]);
    expect(underlayFaults({ rows, designs })).toEqual([
      { line: 3, what: 'strokes.dst has no object 4', todo: 'lieflat vet strokes.dst --objects lists them' },
    ]);
  });
});
