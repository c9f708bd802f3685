import { describe, expect, it } from 'vitest';
import { withoutSteps } from '../../lib/stitch/steps-over.js';

/** Rows of 12 mm along X, 0.5 mm apart, in stitches of 4 mm; each begins with the step over from the one before. */
function rows(starts: readonly number[], between: (k: number) => readonly [number, number][] = () => []) {
  const [x, y]: [number[], number[]] = [[], []];
  const [from, to, own]: [number[], number[], number[]] = [[], [], []];
  starts.forEach((start, k) => {
    from.push(k === 0 ? 0 : x.length - 1);
    for (const [px, py] of between(k)) {
      x.push(px);
      y.push(py);
    }
    own.push(x.length);
    const along = [start, start + 4, start + 8, start + 12];
    for (const px of k % 2 === 0 ? along : [...along].reverse()) {
      x.push(px);
      y.push(0.5 * k);
    }
    to.push(x.length - 1);
  });
  const ends = { from: Int32Array.from(from), to: Int32Array.from(to) };
  return { x: Float64Array.from(x), y: Float64Array.from(y), ends, own };
}

const NO_SECTIONS = new Int32Array(0);
const EVEN = [0, 0, 0, 0, 0, 0, 0, 0];
/** The end of the second row and the beginning of the third lie 5 mm apart: a ledge. */
const LEDGE = [0, 0, 5, 5, 5, 5, 5, 5];

describe('steps over', () => {
  it.each(['short', 'all'] as const)('that are short are told from rows (%s)', (told) => {
    const { x, y, ends, own } = rows(EVEN);
    const { from, to } = withoutSteps(x, y, ends, NO_SECTIONS, told);
    expect([...from]).toEqual(own);
    expect([...to]).toEqual([...ends.to]);
  });

  it('along a ledge stay with the row beside it, unless all are told', () => {
    const { x, y, ends, own } = rows(LEDGE);
    expect(withoutSteps(x, y, ends, NO_SECTIONS, 'short').from[2]).toBe(ends.from[2]);
    expect(withoutSteps(x, y, ends, NO_SECTIONS, 'all').from[2]).toBe(own[2]);
  });

  it('of several stitches are told as one', () => {
    const { x, y, ends, own } = rows(LEDGE, (k) =>
      k === 2
        ? [
            [1.7, 0.6],
            [3.3, 0.72],
          ]
        : [],
    );
    expect([...withoutSteps(x, y, ends, NO_SECTIONS, 'all').from]).toEqual(own);
  });

  it('are none in rows that lead over to one another', () => {
    // each row begins on the needle point that ends the one before, and slants to the next
    const x = Float64Array.from([0, 4, 8, 12, 8, 4, 0, 4, 8, 12, 8, 4, 0]);
    const y = Float64Array.from(x, (_, k) => k / 6);
    const ends = { from: Int32Array.from([0, 3, 6, 9]), to: Int32Array.from([3, 6, 9, 12]) };
    const { from, to } = withoutSteps(x, y, ends, NO_SECTIONS, 'all');
    expect([[...from], [...to]]).toEqual([[...ends.from], [...ends.to]]);
  });
});
