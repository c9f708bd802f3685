import { describe, expect, it } from 'vitest';
import { continueRows, type EndRows } from '../../lib/segment/row-ends.js';
import { type Vec, vec } from '../generators/plane.js';
import { block, rows, sewn, walk } from './board.js';

/** Stitch indexes of the ends of each row along x. */
function rowEnds(points: readonly Vec[]): [number, number][] {
  const out: [number, number][] = [];
  points.forEach((p, i) => {
    if (i === 0 || Math.abs(p.y - points[i - 1].y) > 1e-9) out.push([i, i]);
    else out[out.length - 1][1] = i;
  });
  return out;
}
const outwards = (ends: [number, number][], inner: number, outer: number): EndRows => ({
  inner: ends[inner],
  outer: ends[outer],
});

describe('rows that get shorter toward a tip', () => {
  // a triangle, 20 mm wide at its foot and 16 mm high
  const triangle = rows(0.4, 15.9, (y) => [0.625 * y, 20 - 0.625 * y], { stitch: 3 });
  const ends = rowEnds(triangle);
  const stitches = sewn(triangle);
  const last = triangle.length - 1;

  it('are followed to the last needle point', () => {
    expect(continueRows(stitches, outwards(ends, 29, 30), 0.4, ends[30][1], last)).toBe(last);
  });

  it('are followed backward where the tip is sewn first', () => {
    const tipFirst = [...triangle].reverse();
    const back = rowEnds(tipFirst);
    const tip = back.length - 1 - 30;
    expect(continueRows(sewn(tipFirst), outwards(back, tip + 1, tip), 0.4, back[tip][0], 0)).toBe(0);
  });

  it('are followed no further than they may be', () => {
    const limit = ends[33][1];
    expect(continueRows(stitches, outwards(ends, 29, 30), 0.4, ends[30][1], limit)).toBe(limit);
  });

  it('are followed on the slant', () => {
    const slanted = sewn(triangle.map((p) => vec(p.x * 0.8 - p.y * 0.6, p.x * 0.6 + p.y * 0.8)));
    expect(continueRows(slanted, outwards(ends, 29, 30), 0.4, ends[30][1], last)).toBe(last);
  });
});

describe('what comes after the last row is not taken', () => {
  const area = rows(0.5, 10, block(0, 18));
  const ends = rowEnds(area);
  const n = ends.length;
  const start = area.length - 1;
  const right = area[start];
  const continued = (...points: Vec[]): number => {
    const stitches = sewn(area, points);
    return continueRows(stitches, outwards(ends, n - 2, n - 1), 0.5, start, stitches.count - 1);
  };

  it('where it leads back over the area', () => {
    expect(continued(...walk(2.5, vec(right.x, 9), vec(9, 4)))).toBe(start);
  });

  it('where it runs along the edge', () => {
    expect(continued(...walk(2.5, vec(18, 10), vec(0, 10), vec(0, 0)).slice(1))).toBe(start);
  });

  it('where it runs to and fro along the last row before it goes on', () => {
    expect(continued(...walk(2.5, vec(18, 10), vec(0, 10), vec(18, 10)), vec(18, 10.5))).toBe(start);
  });

  it('where it leaps ahead by more than a row', () => {
    expect(continued(vec(15, 11.2), vec(5, 11.2))).toBe(start);
  });

  it('where it goes on far beside the area', () => {
    expect(continued(vec(21.5, 10.5), vec(21.5, 11))).toBe(start);
  });

  it('but one more row is, with the step to it', () => {
    expect(continued(vec(18, 10.5), vec(12, 10.5), vec(6, 10.5), vec(0, 10.5))).toBe(start + 4);
  });

  it('and after one more row what then leads back is left', () => {
    expect(continued(vec(18, 10.5), vec(9, 10.5), vec(0, 10.5), vec(0, 6), vec(0, 2))).toBe(start + 3);
  });
});

it('rows without length or distance lead nowhere', () => {
  const stitches = sewn([vec(0, 0), vec(0, 0), vec(0, 0.4), vec(0, 0.4), vec(0, 0.8)]);
  expect(continueRows(stitches, { inner: [0, 1], outer: [2, 3] }, 0.4, 3, 4)).toBe(3);
  const same = sewn([vec(0, 0), vec(5, 0), vec(5, 0), vec(0, 0), vec(0, 0.4)]);
  expect(continueRows(same, { inner: [0, 1], outer: [2, 3] }, 0.4, 3, 4)).toBe(3);
});
