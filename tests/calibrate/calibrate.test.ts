import { beforeAll, describe, expect, it } from 'vitest';
import { type Calibration, calibrate, calibrationKey, unsewnRows } from '../../lib/calibrate/calibrate.js';
import { type Looked, quadratic } from '../../lib/calibrate/fit.js';
import type { FreeName } from '../../lib/calibrate/free-parameters.js';
import { nextSewOuts } from '../../lib/calibrate/next-sew-outs.js';
import { isRefused } from '../../lib/calibrate/refusal.js';
import { type LoggedSewOut, readSewOutLog } from '../../lib/calibrate/sew-out-log.js';
import type { SewOutModel } from '../../lib/calibrate/sew-out-model.js';
import { supported, supportOf } from '../../lib/calibrate/support.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { figuresWith } from '../../lib/profile.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { atBuiltIn, graded, PRIORS, prepared, repeatable, strokes, truthOf, withTruth } from './shop.js';

onACoarseMesh(1.5);

const KNIT = 'performance-knit-thin';
const SHEET = 'cutaway-2.5oz';
const designs = new Map([['strokes.dst', strokes()]]);

async function rowsOf(lines: readonly string[]): Promise<readonly LoggedSewOut[]> {
  const text = ['file,fabric,stack,underlay,washes,grade,object,width_mm', ...lines].join('\n');
  const { rows, faults } = await readSewOutLog(new TextEncoder().encode(text), CATALOGUE);
  expect(faults).toEqual([]);
  return rows;
}

const input = (rows: readonly LoggedSewOut[]) => ({
  rows,
  designs,
  catalogue: CATALOGUE,
  parameters: PARAMETERS,
  washes: 0,
});
/** A fit that is not refused. */
async function fitted(rows: readonly LoggedSewOut[]): Promise<Calibration> {
  const result = await calibrate(input(rows));
  if (isRefused(result)) throw new Error(`refused: ${result.lack.code}`);
  return result;
}
const line = (fabric: string, stack: string, washes: number, grade: number | '') =>
  `strokes.dst,${fabric},${stack},as-is,${washes},${grade},,`;
const width = (object: number, widthMm: number | string) =>
  `strokes.dst,${KNIT},${SHEET},as-is,0,,${object},${widthMm}`;
const many = (count: number, of: (i: number) => string) => Array.from({ length: count }, (_, i) => of(i));

describe('a calibration', () => {
  const truth = withTruth({ tension: 0.105, scoreHalf: 0.4 });
  let found: Calibration;
  let real: { grade: number; widths: readonly number[] }[];

  beforeAll(async () => {
    const random = repeatable(17);
    const design = prepared();
    const sewnOn = [
      { fabric: KNIT, stack: SHEET, washes: 0 },
      { fabric: 'poplin', stack: 'none', washes: 0 },
    ];
    real = sewnOn.map((one) => truthOf(design, one, truth));
    const lines = sewnOn.flatMap(({ fabric, stack }, i) =>
      many(6, () => line(fabric, stack, 0, graded(real[i].grade, random, 0.3))),
    );
    // One row that somebody wrote into the wrong line, and one that somebody measured on the wrong object.
    lines[2] = line(KNIT, SHEET, 0, 5);
    lines.push(...[1, 2, 3].map((object) => width(object, real[0].widths[object - 1].toFixed(1))));
    lines.push(width(3, '6.0'));
    found = await fitted(await rowsOf(lines));
  }, 300_000);

  it('predicts better than before, is farthest off where the log is, and says how far it can be trusted', () => {
    const { grades, widths, settings, held } = found;
    expect(grades!.fitted).toBeLessThan(grades!.before);
    expect(grades!.leaveOneOut).toBeGreaterThan(grades!.fitted);
    expect(grades!.oneReading).toBeGreaterThanOrEqual(0.5);
    expect(widths!.readings).toBe(4);
    expect(settings).toBe(2);
    expect(held).toEqual(['firstWash']);
    for (const [of, line] of [
      ['grade', 4],
      ['width', 17],
    ] as const) {
      const off = found.rows.map((row) => Math.abs((row[of]?.seen ?? 0) - (row[of]?.predicted ?? 0)));
      expect(found.rows[off.indexOf(Math.max(...off))].line).toBe(line);
    }
    expect(found.rows.find(({ width }) => width)!.width).toMatchObject({
      object: 1,
      fileMm: expect.closeTo(3, 1),
    });
  });

  it('writes what a profile takes, with a range that is one standard deviation', async () => {
    const key = calibrationKey(found);
    const parameters = (await figuresWith({ calibration: key })).parameters!;
    for (const { name, value, low, high, interval } of found.parameters) {
      expect(parameters[name].value / value).toBeCloseTo(1, 3);
      expect(low).toBeGreaterThan(interval[0]);
      expect(high).toBeLessThan(interval[1]);
      expect(parameters[name].basis).toContain("12 grades and 4 measured widths of the shop's own");
    }
  });

  it('suggests what narrows an interval most', () => {
    const { next } = found;
    expect(next.length).toBeGreaterThan(0);
    for (const { setting, sewOuts, object, narrows } of next) {
      expect(setting.file).toBe('strokes.dst');
      expect(sewOuts).toBe(object === null ? 4 : 1);
      expect(narrows.part).toBeGreaterThan(0);
      expect(narrows.part).toBeLessThan(1);
    }
  });

  it('goes without a design for no row', async () => {
    const rows = await rowsOf([width(2, 4.7)]);
    await expect(calibrate({ ...input(rows), designs: new Map() })).rejects.toMatchObject({
      code: 'bad-argument',
    });
  });

  it('takes widths without grades, on what widths tell, and leaves too few grades out', async () => {
    const rows = await rowsOf([
      ...[1, 2, 3].map((object) => width(object, (real[0].widths[object - 1] - 0.1).toFixed(1))),
      line(KNIT, SHEET, 0, 3),
      line(KNIT, SHEET, 0, 2.5),
    ]);
    const { parameters, held, support, grades, widths, rows: used } = await fitted(rows);
    expect(parameters.map(({ name }) => name)).toEqual(['tension', 'pointSpring']);
    expect(held).toEqual(['longestSpan', 'firstWash', 'scoreHalf']);
    expect(support.gradesLack).toEqual({ code: 'few-grades', params: { graded: 2, needed: 10, rows: 5 } });
    expect(grades).toBeNull();
    expect(widths!.fitted).toBeLessThan(widths!.before);
    expect(used).toHaveLength(3);
  }, 120_000);
});

const model = (of: Partial<SewOutModel>): SewOutModel => ({ height: () => 0, narrowing: () => 0, ...of });

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
      values: { ...atBuiltIn, tension: 0.135 },
      covariance,
      noise: { grade: 0.5, width: 0.1 },
    } as unknown as Parameters<typeof nextSewOuts>[0];
    const candidates = [0, 0.4, 1, 2].map((power) => ({
      setting: power,
      height: ({ tension }: { tension: number }) => 0.2 * (tension / 0.135) ** power,
    }));
    const asCandidates = candidates.map(({ setting, height }) => ({
      setting,
      looked: { of: 'grade', model: model({ height }) } satisfies Looked,
    }));
    const [first, ...more] = nextSewOuts(fit, asCandidates);
    const slope = 1e-4;
    const determinant = (c: (typeof candidates)[number]) => {
      const grade = (tension: number, half: number) => 1 + 4 * 2 ** (-c.height({ tension }) / half);
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
  it.each([
    ['no rows', [], { code: 'few-grades', params: { graded: 0, needed: 10, rows: 0 } }],
    [
      'too few grades',
      many(9, (i) => line('poplin', ['none', SHEET][i % 2], 0, 1 + (i % 5))),
      { code: 'few-grades', params: { graded: 9, needed: 10, rows: 9 } },
    ],
    [
      'one grade',
      many(12, (i) => line('poplin', ['none', SHEET][i % 2], 0, 4)),
      { code: 'grades-alike', params: { least: 4, most: 4 } },
    ],
    [
      'grades that hardly differ',
      many(12, (i) => line('poplin', ['none', SHEET][i % 2], 0, 4 + (i % 3) / 2)),
      { code: 'grades-alike', params: { least: 4, most: 5 } },
    ],
    [
      'the same fabric and backing',
      many(12, (i) => line('jersey-knit', SHEET, i % 3, 2 + (i % 5) / 2)),
      { code: 'one-setup', params: { fabric: 'jersey-knit', stack: SHEET } },
    ],
  ] as const)('is refused: %s', async (_, lines, lack) => {
    const rows = await rowsOf(lines);
    expect(supportOf(rows)).toEqual({ lack });
    // A ruler makes up for it.
    const [measured] = await rowsOf([width(2, 4.7)]);
    expect(supportOf([...rows, measured])).toMatchObject({ grades: false, widths: true });
  });

  const grade = (height: SewOutModel['height']): Looked => ({ of: 'grade', model: model({ height }) });

  it('is refused where two parameters do the same to every grade', async () => {
    // Heights that go with the tension alone: a tension twice as high looks as if the graders minded half the height.
    const told = Array.from({ length: 12 }, (_, i) => grade(({ tension }) => 0.2 + 0.1 * i + tension));
    const alike = told.map(() => grade(({ tension }) => 2 * tension));
    expect(await supported(alike, PARAMETERS, PRIORS)).toEqual({
      lack: { code: 'not-told-apart', params: { names: ['tension', 'scoreHalf'] } },
    });
    expect(await supported(told, PARAMETERS, PRIORS)).toMatchObject({ names: ['tension', 'scoreHalf'] });
  });

  it('is refused where nothing changes whatever the machine does', async () => {
    const refused = (graded: boolean) => ({ lack: { code: 'no-effect', params: { graded } } });
    const flat = Array.from({ length: 12 }, () => grade(() => 0));
    expect(await supported(flat, PARAMETERS, PRIORS)).toEqual(refused(true));
    const unmoved: Looked = { of: 'width', model: model({}), object: 1, fileMm: 3, perAlong: 1 };
    expect(await supported([unmoved], PARAMETERS, PRIORS)).toEqual(refused(false));
  });

  it('has its underlays and widths held against the design', async () => {
    const rows = await rowsOf([
      'strokes.dst,poplin,none,fill:1 3,0,4,,',
      'strokes.dst,poplin,none,fill:1 4,0,4,,',
      'other.dst,poplin,none,fill:1,0,4,,',
      width(2, 4.6),
      width(9, 4.6),
      width(2, 0.18),
      width(2, 7.4),
    ]);
    const file = 'strokes.dst';
    expect(unsewnRows({ rows, designs })).toEqual([
      { line: 3, code: 'object-unknown', params: { file, object: 4 } },
      { line: 6, code: 'object-unknown', params: { file, object: 9 } },
      ...[
        [7, 0.18],
        [8, 7.4],
      ].map(([line, seenMm]) => ({
        line,
        code: 'width-of-another',
        params: { file, object: 2, fileMm: expect.closeTo(5, 1), seenMm },
      })),
    ]);
  });
});
