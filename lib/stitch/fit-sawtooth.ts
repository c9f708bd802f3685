/** Numbers that get more by as much from row to row, and begin anew where a range is full: where the needle first goes down in rows that are not to line up. */
import { inRow, type Sawtooth } from './blend.js';
import type { Nearness } from './fit-curve.js';

/** Fewer numbers are not worth a rule. */
const FEWEST = 6;
/** Ranges that are tried, over what the numbers take up, and steps as shares of a range; then ever finer about the best. */
const RANGES = Array.from({ length: 25 }, (_, n) => 1 + n / 80);
const STEPS = 240;
const FINER = 4;

/** A number of a row. */
interface InRow {
  readonly row: number;
  readonly value: number;
}

/** The rule that some numbers follow from row to row, as near as is asked; null where they follow none. */
export function fitSawtooth(rows: readonly InRow[], near: Nearness): Sawtooth | null {
  if (rows.length < FEWEST) return null;
  const values = rows.map(({ value }) => value);
  const least = Math.min(...values);
  const width = Math.max(...values) - least;
  if (width === 0) return null;
  const mayBeFar = Math.floor(near.outliers * values.length);
  for (const share of RANGES) {
    const range = width * share;
    const rule = { least: least - (range - width) / 2, range };
    const over = rows.map(({ row, value }) => ({ row, value: value - rule.least }));
    const step = bestStep(over, range);
    const saw: Sawtooth = { ...rule, step, begin: beginOf(over, step, range).begin };
    if (rows.filter(({ row, value }) => Math.abs(value - inRow(saw, row)) > near.withinMm).length <= mayBeFar)
      return saw;
  }
  return null;
}

/** The step on which the numbers agree best, round a circle of that range. */
function bestStep(rows: readonly InRow[], range: number): number {
  let [step, width] = [0, range / 2];
  let parts = STEPS;
  for (let round = 0; round < FINER; round++) {
    let best = { step, agree: -1 };
    for (let n = -parts; n <= parts; n++) {
      const tried = step + (width * n) / parts;
      const { agree } = beginOf(rows, tried, range);
      if (agree > best.agree) best = { step: tried, agree };
    }
    step = best.step;
    width = (2 * width) / parts;
    parts = 10;
  }
  return step;
}

/** Where numbers begin that go on by a step, and how well they agree on that. */
function beginOf(rows: readonly InRow[], step: number, range: number): { begin: number; agree: number } {
  let [c, s] = [0, 0];
  rows.forEach(({ row, value }) => {
    const angle = (2 * Math.PI * (value - step * row)) / range;
    c += Math.cos(angle);
    s += Math.sin(angle);
  });
  return { begin: (Math.atan2(s, c) * range) / (2 * Math.PI), agree: Math.hypot(c, s) };
}
