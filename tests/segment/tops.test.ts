import { describe, expect, it } from 'vitest';
import { assembleTops } from '../../lib/segment/assemble-tops.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { findPatches } from '../../lib/segment/patches.js';
import type { Top } from '../../lib/segment/tops.js';
import { turned, type Vec, vec } from '../generators/plane.js';
import { block, rows, sewn, walk, zigzag } from './board.js';

function topsOf(...parts: readonly Vec[][]): Top[] {
  const stitches = sewn(...parts);
  const legs = new LegFinder(stitches, stitches.count).find(0, stitches.count - 1);
  return assembleTops(stitches, findPatches(stitches, legs), 0);
}
const shifted = (points: readonly Vec[], dx: number, dy: number) =>
  points.map((p) => vec(p.x + dx, p.y + dy));

describe('a column', () => {
  it('goes on behind a stray stitch', () => {
    const column = zigzag(vec(0, 0), vec(24, 0), 5, 0.4);
    // off to the side in mid swing and back
    const broken = [...column.slice(0, 61), vec(10.5, -0.5), vec(10.5, 0), ...column.slice(61)];
    const tops = topsOf(broken);
    expect(tops.map((t) => [t.kind, t.patches.length])).toEqual([['satin', 2]]);
    expect([tops[0].first, tops[0].last]).toEqual([0, broken.length - 1]);
    expect(tops[0].from.length).toBeGreaterThanOrEqual(117);
  });

  it('and another one beside it are two', () => {
    const tops = topsOf(
      zigzag(vec(0, 0), vec(20, 0), 4, 0.4),
      walk(2, vec(20, 3), vec(0, 6)),
      zigzag(vec(0, 9), vec(20, 9), 4, 0.4),
    );
    expect(tops.map((t) => t.kind)).toEqual(['satin', 'satin']);
  });

  it('is split where its swings are', () => {
    expect(topsOf(zigzag(vec(0, 0), vec(20, 0), 9, 0.4, 2)).map((t) => [t.kind, t.split])).toEqual([
      ['satin', true],
    ]);
    expect(topsOf(zigzag(vec(0, 0), vec(20, 0), 9, 0.4))[0].split).toBe(false);
    expect(topsOf(rows(0.4, 12, block(0, 20)))[0].split).toBe(false);
  });
});

describe('the sections of a fill', () => {
  /** Two towers on a base, as the rows of a U lie: the base, up one arm, over to the other arm. */
  const base = rows(0.5, 6, block(0, 30));
  const arm = rows(0.5, 10, block(0, 10));
  const wayOver = walk(2.5, vec(9, 16), vec(9, 5), vec(21, 5));

  it('are one fill where they touch, with the travel between them', () => {
    const tops = topsOf(base, shifted(arm, 0, 6.5), wayOver, shifted(arm, 20, 6.5));
    // the rows of the first arm go on from those of the base
    expect(tops.map((t) => [t.kind, t.patches.length])).toEqual([['fill', 2]]);
    expect(tops[0].first).toBe(0);
    expect(tops[0].last).toBeGreaterThan(base.length + arm.length + wayOver.length);
  });

  it('are one each where they do not', () => {
    const tops = topsOf(base, walk(2.5, vec(30, 8), vec(60, 20)), shifted(base, 60, 20));
    expect(tops.map((t) => t.kind)).toEqual(['fill', 'fill']);
  });

  it('are one each where their rows lie in two directions', () => {
    const up = rows(0.5, 14, block(0, 14)).map((p) => {
      const q = turned(p, Math.PI / 2);
      return vec(q.x + 14, q.y + 6.5);
    });
    const tops = topsOf(base, up);
    expect(tops.map((t) => t.kind)).toEqual(['fill', 'fill']);
  });

  it('are one each where their rows are not as dense', () => {
    const light = rows(1.2, 12, block(0, 30));
    expect(topsOf(base, shifted(light, 0, 7.2)).map((t) => t.kind)).toEqual(['fill', 'fill']);
  });
});

describe('the ends of a fill', () => {
  const tip = rows(0.4, 15.9, (y) => [0.625 * y, 20 - 0.625 * y]);

  it('are taken in to the tip, but for what belongs to something else', () => {
    const [top] = topsOf(tip);
    top.takeRowEnds(-1, tip.length);
    expect([top.first, top.last]).toEqual([0, tip.length - 1]);
    const [held] = topsOf(tip);
    const { last } = held;
    held.takeRowEnds(-1, last + 1);
    expect(held.last).toBe(last);
  });

  it('and travel at the end over what is sewn belongs to it, a run round it or into the open does not', () => {
    const area = rows(0.4, 12, block(0, 20));
    const last = area[area.length - 1];
    const inside = walk(2.5, last, vec(10, 6)).slice(1);
    const [over] = topsOf(area, inside);
    over.takeStrayRows(area.length + inside.length - 1);
    expect(over.last).toBe(area.length + inside.length - 1);

    const round = walk(2.5, last, vec(0.5, 11.5), vec(0.5, 0.5), vec(19.5, 0.5), vec(19.5, 11)).slice(1);
    const [bordered] = topsOf(area, round);
    const end = bordered.last;
    bordered.takeStrayRows(area.length + round.length - 1);
    expect(bordered.last).toBe(end);

    const away = walk(2.5, last, vec(40, 30)).slice(1);
    const [open] = topsOf(area, away);
    const before = open.last;
    open.takeStrayRows(area.length + away.length - 1);
    expect(open.last).toBe(before);
  });

  it('of a column stay where they are', () => {
    const [top] = topsOf(zigzag(vec(0, 0), vec(12, 0), 4, 0.4), walk(2, vec(12.4, -2), vec(12.4, 2)));
    const { first, last } = top;
    top.takeRowEnds(-1, last + 3);
    top.takeStrayRows(last + 3);
    expect([top.first, top.last]).toEqual([first, last]);
  });
});

it('no patches are no tops', () => {
  expect(assembleTops(sewn([vec(0, 0)]), [], 0)).toEqual([]);
});
