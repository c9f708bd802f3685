import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import { cutString, fits } from '../../lib/segment/cuts.js';
import { findLegStrings, type LegString } from '../../lib/segment/leg-strings.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { columnTop } from '../generators/column.js';
import { Curve, path } from '../generators/curve.js';
import { between, radians, turned, type Vec, vec } from '../generators/plane.js';
import { Random } from '../generators/random.js';
import { block, rows, sewn, zigzag } from './board.js';

interface Piece {
  /** First and last leg. */
  start: number;
  end: number;
  pitch: number[];
}

function onlyString(stitches: Stitches): LegString {
  const legs = new LegFinder(stitches, stitches.count).find(0, stitches.count - 1);
  const strings = findLegStrings(stitches, legs, 4);
  expect(strings).toHaveLength(1);
  return strings[0];
}

function pieces(points: readonly Vec[]): Piece[] {
  const stitches = sewn(points);
  const out: Piece[] = [];
  cutString(stitches, onlyString(stitches), ({ raw }, start, end) => {
    const long = end - start >= 3;
    if (long) out.push({ start, end, pitch: [...raw.subarray(start, end)] });
    return long;
  });
  return out;
}
const spans = (points: readonly Vec[]) => pieces(points).map(({ start, end }) => [start, end]);

/** A zigzag from where the last one ended, so that the last point of the one is the first of the other. */
const onwards = (points: Vec[]): Vec[] => points.slice(1);

describe('a string of legs stays whole', () => {
  it('in a dense column, however its swings slant', () => {
    const upright = zigzag(vec(0, 0), vec(15, 0), 4, 0.4);
    expect(spans(upright)).toEqual([[0, 74]]);
    expect(spans(upright.map((p) => vec(p.x + 0.8 * p.y, p.y)))).toEqual([[0, 74]]);
  });

  it('in an open zigzag and in rows', () => {
    expect(spans(zigzag(vec(0, 0), vec(30, 0), 4, 3))).toEqual([[0, 19]]);
    // its swings lead on farther than they go across
    expect(spans(zigzag(vec(0, 0), vec(40, 0), 2, 5))).toEqual([[0, 15]]);
    expect(spans(rows(0.4, 8, block(0, 12)))).toEqual([[0, 20]]);
    expect(spans(rows(3, 24, block(0, 20)))).toEqual([[0, 8]]);
  });

  it('where every second inner point of a bend is held back', () => {
    const bend: Vec[] = [];
    for (let k = 0; k < 100; k++) {
      const a = (k * Math.PI) / 100;
      const outer = turned(vec(9, 0), a);
      bend.push(k % 2 === 0 ? outer : between(outer, turned(vec(2, 0), a), k % 4 === 1 ? 1 : 0.6));
    }
    expect(spans(bend)).toEqual([[0, 98]]);
  });

  it('where the rows of a fill are ragged', () => {
    const ragged = rows(0.4, 12, (y) => [(y * 7) % 5, 14 + ((y * 11) % 6)]);
    expect(spans(ragged)).toEqual([[0, 30]]);
  });

  it('round a corner in which the swings fan out', () => {
    const corner = radians(50);
    const centre = new Curve([
      ...path((t) => vec(t, 0), 0, 12, 12),
      ...path((t) => vec(12 + t * Math.cos(corner), t * Math.sin(corner)), 0, 12, 12).slice(1),
    ]);
    const { needles } = columnTop(
      { centre, half: () => 1.5, lie: { kind: 'mitre', corner: 12, turn: corner, reach: 5 } },
      { spacing: 0.4, zag: 'symmetric', comp: 0, split: null, short: 0, overlap: 0 },
      false,
      1,
      new Random(3),
      '',
    );
    expect(pieces(needles)).toHaveLength(1);
  });
});

describe('a string of legs is cut', () => {
  it('where a zigzag turns to go back the way it came', () => {
    const out = zigzag(vec(0, 0), vec(24, 0), 4, 3);
    const back = zigzag(vec(24, 0), vec(0, 0), -4, 3);
    expect(out[16]).toEqual(back[0]);
    const [there, home, ...more] = pieces([...out, ...onwards(back)]);
    expect(more).toEqual([]);
    expect(Math.abs(there.end - 15)).toBeLessThanOrEqual(1);
    expect(Math.abs(home.start - 16)).toBeLessThanOrEqual(1);
    expect(Math.sign(there.pitch[3])).toBe(-Math.sign(home.pitch[3]));
  });

  it('where an open zigzag comes back as the dense top', () => {
    const out = zigzag(vec(0, 0), vec(24, 0), 4, 3);
    const top = zigzag(vec(24, 0), vec(0, 0), -4, 0.4);
    const [under, over, ...more] = pieces([...out, ...onwards(top)]);
    expect(more).toEqual([]);
    expect(Math.abs(under.end - 15)).toBeLessThanOrEqual(1);
    expect(over.end).toBe(16 + 120 - 1);
    for (const p of over.pitch) expect(Math.abs(Math.abs(p) - 0.2)).toBeLessThan(0.06);
  });

  it('where an open zigzag goes on as a dense one, and the other way about', () => {
    const open = zigzag(vec(0, 0), vec(24, 0), 4, 3);
    const dense = zigzag(vec(24, 0), vec(44, 0), 4, 0.4);
    const [first, second, ...more] = pieces([...open, ...onwards(dense)]);
    expect(more).toEqual([]);
    // the swing at the joint may go to either, or to neither
    expect(Math.abs(first.end - 15)).toBeLessThanOrEqual(1);
    expect(Math.abs(second.start - 16)).toBeLessThanOrEqual(1);
    expect(second.end).toBe(115);

    const [third, fourth, ...others] = pieces([...open, ...onwards(dense)].reverse());
    expect(others).toEqual([]);
    expect(Math.abs(third.end - 99)).toBeLessThanOrEqual(1);
    expect(Math.abs(fourth.start - 100)).toBeLessThanOrEqual(1);
  });

  it('where the thread steps over from one filled letter to the next', () => {
    const letter = rows(0.4, 9.2, block(0, 12));
    const above = (by: number) => letter.map((p) => vec(p.x, p.y + 9.2 + by));
    expect(spans([...letter, ...above(3.4)])).toEqual([
      [0, 23],
      [24, 47],
    ]);
    expect(spans([...letter, ...above(1)])).toHaveLength(1);
  });

  it('where a row leads straight on into the next letter, and belongs to neither', () => {
    const low = rows(0.4, 9.2, block(0, 12));
    const next = rows(0.4, 9.2, (y) => (y === 0 ? [0, 28] : [16, 28])).map((p) => vec(p.x, p.y + 9.6));
    expect(spans([...low, ...next])).toEqual([
      [0, 23],
      [25, 47],
    ]);
    const beside = rows(0.4, 9.2, (y) => (y === 0 ? [0, 24] : [12.5, 24])).map((p) => vec(p.x, p.y + 9.6));
    expect(spans([...low, ...beside])).toHaveLength(1);
  });

  it.each([
    [-1.4, 2],
    [-3, 2],
    [2.4, 2],
  ])('behind a stray swing to the column, from (%s, %s), and nothing of the column is lost', (x, y) => {
    expect(spans([vec(x, y), ...zigzag(vec(0, 0), vec(12, 0), -4, 0.4)])).toEqual([[1, 60]]);
  });
});

describe('two pitches', () => {
  it('fit where they have one sign and are of one size', () => {
    expect(fits(0.4, 0.4)).toBe(true);
    expect(fits(0.2, 0.4)).toBe(true);
    expect(fits(0.9, 0.4)).toBe(true);
    expect(fits(-0.4, 0.4)).toBe(false);
    expect(fits(0.1, 0.4)).toBe(false);
    expect(fits(2, 0.4)).toBe(false);
    expect(fits(0.4, 0)).toBe(false);
  });
});
