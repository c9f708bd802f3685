/** Rows told from the steps over to the next. */
import { distance } from '../core/distance.js';
import { measureRows } from '../geometry/rows.js';

/** Stitch indexes of the two ends of each row. */
export interface RowEnds {
  readonly from: Int32Array;
  readonly to: Int32Array;
}

/**
 * Which steps are told from rows: the short ones, so that the row beside a ledge of the outline reaches from end to end of it, as rows that are laid anew are
 * to; or all, so that every row lies on its line, as in a description.
 */
export type StepsTold = 'short' | 'all';

/** A stitch at the end of a row is a step if it goes on by this share of the row distance, and along no more than so many times as far. */
const STEP_SHARE = 0.5;
const STEP_SLOPE = 2.5;
/** The needle points of a row lie within this share of the row distance beside its line; rounding alone may put them so far off, mm. */
const BESIDE_SHARE = 0.4;
const ROUNDED_OFF_MM = 0.2;
/** Those at its ends are the step over from the row before or to the next where they lie farther off it: at most so many at either end, no longer than this share of the rest. */
const MOST_STEPS = 4;
const STEP_LENGTH = 0.6;
/** The ends of rows without the steps over to the next. */
export const withoutSteps = (
  x: Float64Array,
  y: Float64Array,
  rows: RowEnds,
  sections: Int32Array,
  told: StepsTold,
): RowEnds => (told === 'short' ? withoutShortSteps : withoutAllSteps)(x, y, rows, sections);

/** The ends of rows without the short steps over to the next: those go on by half a row or more, at a slant that no row has. */
function withoutShortSteps(
  x: Float64Array,
  y: Float64Array,
  { from, to }: RowEnds,
  sections: Int32Array,
): RowEnds {
  const { ux, uy, spacingMm } = measureRows(x, y, from, to, sections);
  const pitch = spacingMm[spacingMm.length >> 1];
  const isStep = (i: number) => {
    const [dx, dy] = [x[i + 1] - x[i], y[i + 1] - y[i]];
    const across = Math.abs(dy * ux - dx * uy);
    return across >= STEP_SHARE * pitch && Math.abs(dx * ux + dy * uy) <= STEP_SLOPE * across;
  };
  const ends = { from: from.slice(), to: to.slice() };
  for (let k = 0; k < from.length; k++) {
    while (ends.to[k] - ends.from[k] > 1 && isStep(ends.to[k] - 1)) ends.to[k]--;
    while (ends.to[k] - ends.from[k] > 1 && isStep(ends.from[k])) ends.from[k]++;
  }
  return ends;
}

/** The ends of rows without the steps over to the next: those lead off the line on which the rest of the row lies. */
function withoutAllSteps(
  x: Float64Array,
  y: Float64Array,
  { from, to }: RowEnds,
  sections: Int32Array,
): RowEnds {
  const { spacingMm } = measureRows(x, y, from, to, sections);
  const beside = Math.max(ROUNDED_OFF_MM, BESIDE_SHARE * spacingMm[spacingMm.length >> 1]);
  const length = (i: number, j: number) => distance(x[i], y[i], x[j], y[j]);
  /** How far a needle point lies off the line through two others, mm. */
  const off = (i: number, a: number, b: number) =>
    Math.abs((x[b] - x[a]) * (y[i] - y[a]) - (y[b] - y[a]) * (x[i] - x[a])) / (length(a, b) || 1);
  const isRow = (a: number, b: number, first: number, last: number) => {
    for (let i = a + 1; i < b; i++) if (off(i, a, b) > beside) return false;
    const most = STEP_LENGTH * length(a, b);
    const isStep = (end: number, at: number) =>
      end === at || (off(end, a, b) > beside && length(end, at) <= most);
    return isStep(first, a) && isStep(last, b);
  };
  const trim = (first: number, last: number): [number, number] | null => {
    for (let steps = 0; steps <= Math.min(2 * MOST_STEPS, last - first - 1); steps++) {
      for (let before = Math.max(0, steps - MOST_STEPS); before <= Math.min(steps, MOST_STEPS); before++) {
        const [a, b] = [first + before, last - (steps - before)];
        if (isRow(a, b, first, last)) return [a, b];
      }
    }
    return null;
  };
  const ends = { from: from.slice(), to: to.slice() };
  const firsts = new Set(sections);
  for (let k = 0; k < from.length; k++) {
    // what lies between two rows may be the end of one of them
    const between = k > 0 && !firsts.has(k) && from[k] > to[k - 1] && from[k] - to[k - 1] <= MOST_STEPS;
    const row = (between && trim(ends.to[k - 1], to[k])) || trim(from[k], to[k]);
    if (row) [ends.from[k], ends.to[k]] = row;
  }
  return ends;
}
