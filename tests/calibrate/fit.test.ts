import { beforeAll, describe, expect, it } from 'vitest';
import { fitGrades, foretoldGrade } from '../../lib/calibrate/fit.js';
import { FREE, type FreeName } from '../../lib/calibrate/free-parameters.js';
import type { HeightTable } from '../../lib/calibrate/heights.js';
import { writtenGrade } from '../../lib/calibrate/rater.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { assess } from '../../lib/mechanics/risk.js';
import { exactGradeOf, scoreOf } from '../../lib/mechanics/score.js';
import {
  anyTruth,
  atBuiltIn,
  coarsely,
  type Goods,
  graded,
  PRIORS,
  planOf,
  repeatable,
  strokes,
  tableOf,
  trueGrade,
  withTruth,
} from './shop.js';

const SEWN: readonly Goods[] = [
  ['pique-knit', 'cutaway-2.5oz'],
  ['pique-knit', 'tearaway-1.8oz-firm'],
  ['performance-knit', 'cutaway-2.5oz'],
  ['performance-knit', 'woven-polyester+woven-polyester@45'],
  ['jersey-knit', 'cutaway-2.5oz+cutaway-2.5oz'],
  ['performance-knit-thin', 'cutaway-2.5oz'],
  ['fine-sweater', 'cutaway-2.5oz'],
].flatMap(([fabric, stack]) => [0, 1, 8].map((washes) => ({ fabric, stack, washes })));

let design: PreparedDesign;
let tables: HeightTable[];
beforeAll(() => {
  design = coarsely(strokes());
  tables = SEWN.map((goods) => tableOf(design, goods));
}, 600_000);

describe('the table of heights', () => {
  it('says what the model says, for any parameters', () => {
    const random = repeatable(3);
    const off = SEWN.filter((_, i) => i % 2 === 0).flatMap((goods) => {
      const truth = anyTruth(random);
      const values = Object.fromEntries(FREE.map((name) => [name, truth[name].value])) as Record<
        FreeName,
        number
      >;
      const height = tables[SEWN.indexOf(goods)].height(values);
      return [exactGradeOf(scoreOf(height, values.scoreHalf)) - trueGrade(design, goods, truth)];
    });
    // Well below the half grade that a person is off by.
    for (const grades of off) expect(Math.abs(grades)).toBeLessThan(0.1);
    expect(Math.hypot(...off) / Math.sqrt(off.length)).toBeLessThan(0.04);
  });

  it('takes its level from the grid of the design where it is made on a coarser one', async () => {
    const { heightTables } = await import('../../lib/calibrate/heights.js');
    const { CATALOGUE } = await import('../../lib/materials/catalogue.js');
    const { prepare } = await import('../../lib/mechanics/risk.js');
    const own = prepare({ ...strokes(), cellMm: 1 });
    const settings = { catalogue: CATALOGUE, parameters: PARAMETERS, priors: PRIORS };
    const goods = { fabric: 'performance-knit', stack: 'cutaway-2.5oz', washes: 0 };
    const table = heightTables({ own, rough: design }, planOf(goods), [0], settings).get(0)!;
    const exact = assess(own, planOf(goods)).wrinkleMm;
    const coarse = assess(design, planOf(goods)).wrinkleMm;
    expect(Math.abs(table.height(atBuiltIn) - exact)).toBeLessThan(0.01);
    expect(Math.abs(coarse - exact)).toBeGreaterThan(Math.abs(table.height(atBuiltIn) - exact));
  });
});

describe('the grade that is written down', () => {
  it('is the grade itself in the middle, and held in at both ends', () => {
    expect(writtenGrade(3)).toBeCloseTo(3, 6);
    expect(writtenGrade(2.8)).toBeCloseTo(2.8, 2);
    expect(writtenGrade(5)).toBeLessThan(4.9);
    expect(writtenGrade(1)).toBeGreaterThan(1.1);
    expect(writtenGrade(5)).toBeCloseTo(6 - writtenGrade(1), 6);
    for (let grade = 1; grade < 5; grade += 0.1)
      expect(writtenGrade(grade + 0.1)).toBeGreaterThan(writtenGrade(grade));
  });

  it('is the mean of many grades that were written down', () => {
    const random = repeatable(5);
    for (const grade of [1.2, 3.3, 4.8]) {
      let sum = 0;
      for (let i = 0; i < 4000; i++) sum += graded(grade, random);
      expect(Math.abs(sum / 4000 - writtenGrade(grade))).toBeLessThan(0.03);
    }
  });
});

describe('a shop whose parameters are known', () => {
  it('finds them inside the intervals in at least 90 of 100 logs', async () => {
    const random = repeatable(11);
    const inside = new Map<string, number>(FREE.map((name) => [name, 0]));
    let all = 0;
    let better = 0;
    const spread: number[] = [];
    for (let shop = 0; shop < 5; shop++) {
      const truth = anyTruth(random);
      const grades = SEWN.map((goods) => trueGrade(design, goods, truth));
      for (let log = 0; log < 20; log++) {
        const rows = grades.flatMap((grade, i) =>
          [0, 1].map(() => ({ table: tables[i], grade: graded(grade, random) })),
        );
        const fit = await fitGrades(rows, FREE, PARAMETERS, PRIORS);
        const held = fit.parameters.filter(
          ({ name, interval: [low, high] }) => low <= truth[name].value && truth[name].value <= high,
        );
        for (const { name } of held) inside.set(name, inside.get(name)! + 1);
        if (held.length === FREE.length) all++;
        const off = (values: typeof fit.values) =>
          Math.hypot(...grades.map((grade, i) => foretoldGrade(tables[i], values) - writtenGrade(grade)));
        if (off(fit.values) < off(atBuiltIn)) better++;
        spread.push(Math.max(...fit.parameters.map(({ interval: [low, high] }) => high / low)));
      }
    }
    for (const name of FREE) expect(inside.get(name), name).toBeGreaterThanOrEqual(90);
    // All five at once, too.
    expect(all).toBeGreaterThanOrEqual(90);
    // That is not because the intervals hold everything, nor for nothing: what is foretold comes nearer to the truth.
    expect(Math.max(...spread)).toBeLessThan(20);
    expect(better).toBeGreaterThan(75);
  });

  it('is told more the more is graded', async () => {
    const random = repeatable(23);
    const truth = withTruth({ tension: 0.11, scoreHalf: 0.4 });
    const grades = SEWN.map((goods) => trueGrade(design, goods, truth));
    const widths = await Promise.all(
      [1, 6].map(async (times) => {
        const rows = grades.flatMap((grade, i) =>
          Array.from({ length: times }, () => ({ table: tables[i], grade: graded(grade, random) })),
        );
        return (await fitGrades(rows, FREE, PARAMETERS, PRIORS)).parameters;
      }),
    );
    widths[0].forEach(({ interval, told }, k) => {
      const more = widths[1][k];
      expect(more.interval[1] / more.interval[0]).toBeLessThan(interval[1] / interval[0]);
      expect(more.told).toBeGreaterThan(told);
    });
  });

  it('has its one wild grade stand out, and its own scatter widen the intervals', async () => {
    const random = repeatable(31);
    const grades = SEWN.map((goods) => trueGrade(design, goods, PARAMETERS));
    const rows = grades.flatMap((grade, i) =>
      [0, 1].map(() => ({ table: tables[i], grade: graded(grade, random, 0.3) })),
    );
    const quiet = await fitGrades(rows, FREE, PARAMETERS, PRIORS);
    expect(quiet.noise).toBe(0.5);
    expect(Math.max(...quiet.standardised.map(Math.abs))).toBeLessThan(3);
    const wild = rows.map((row, i) => (i === 7 ? { ...row, grade: row.grade > 3 ? 1 : 5 } : row));
    const { standardised, leftOut, residuals } = await fitGrades(wild, FREE, PARAMETERS, PRIORS);
    expect(standardised.map(Math.abs).indexOf(Math.max(...standardised.map(Math.abs)))).toBe(7);
    expect(Math.abs(standardised[7])).toBeGreaterThan(3);
    expect(Math.abs(leftOut[7])).toBeGreaterThan(Math.abs(residuals[7]));
    const careless = rows.map(({ table }, i) => ({ table, grade: graded(grades[i >> 1], random, 1.3) }));
    const loose = await fitGrades(careless, FREE, PARAMETERS, PRIORS);
    expect(loose.noise).toBeGreaterThan(0.7);
  });

  it('is foretold without a row about as the fit without it foretells that row', async () => {
    const random = repeatable(41);
    const rows = SEWN.map((goods, i) => ({
      table: tables[i],
      grade: graded(trueGrade(design, goods, PARAMETERS), random),
    }));
    const { leftOut } = await fitGrades(rows, FREE, PARAMETERS, PRIORS);
    for (const i of [0, 5, 12, 17]) {
      const { values } = await fitGrades(rows.toSpliced(i, 1), FREE, PARAMETERS, PRIORS);
      expect(Math.abs(rows[i].grade - foretoldGrade(tables[i], values) - leftOut[i])).toBeLessThan(0.15);
    }
  });
});
