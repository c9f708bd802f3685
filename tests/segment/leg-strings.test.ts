import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import { findLegStrings, type LegString } from '../../lib/segment/leg-strings.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { arc } from '../generators/curve.js';
import { stitchCurve, turned, vec } from '../generators/plane.js';
import { block, rows, sewn, walk, zigzag } from './board.js';

function strings(stitches: Stitches, fewest = 4): LegString[] {
  return findLegStrings(
    stitches,
    new LegFinder(stitches, stitches.count).find(0, stitches.count - 1),
    fewest,
  );
}
const sizes = (stitches: Stitches): number[] => strings(stitches).map((s) => s.from.length);

describe('legs that turn back beside each other', () => {
  it('are the swings of a column, all in one string', () => {
    const [string, ...more] = strings(sewn(zigzag(vec(0, 0), vec(12, 0), 5, 0.4)));
    expect(more).toEqual([]);
    expect([...string.from]).toEqual(Array.from({ length: 60 }, (_, k) => k));
    expect([...string.to]).toEqual(Array.from({ length: 60 }, (_, k) => k + 1));
  });

  it('are rows whose step along the edge ends a little way into the next', () => {
    const stepped = rows(0.4, 8, block(0, 12)).flatMap((p, i, all) => {
      const next = all[i + 1];
      const isStep = next !== undefined && Math.abs(next.y - p.y) > 0.2;
      return isStep ? [p, next, vec(next.x === 0 ? 0.3 : 11.7, next.y)] : [p];
    });
    for (const angle of [0, 0.7, 1.9, 3.3])
      expect(sizes(sewn(stepped.map((p) => turned(p, angle))))).toEqual([21]);
  });

  it('are rows with long steps along a slanted edge, however they are turned', () => {
    const slanted = rows(2.4, 24, (y) => [y, 20 + y]);
    for (const angle of [0, 0.7, 1.9, 3.3])
      expect(sizes(sewn(slanted.map((p) => turned(p, angle))))).toEqual([11]);
  });

  it('are swings that slant, and swings that fan round a bend', () => {
    const slanted = zigzag(vec(0, 0), vec(12, 0), 5, 0.4).map((p) => vec(p.x + 0.6 * p.y, p.y));
    expect(sizes(sewn(slanted))).toEqual([60]);
    const fanned = Array.from({ length: 80 }, (_, k) => {
      const a = (k * Math.PI) / 80;
      return vec((k % 2 ? 4 : 9) * Math.cos(a), (k % 2 ? 4 : 9) * Math.sin(a));
    });
    expect(sizes(sewn(fanned))).toEqual([79]);
  });

  it.each([
    ['dense rows', 0.4, 9],
    ['rows far apart', 3, 9],
    ['rows far apart beside which a step is long', 5, 21],
  ])('are rows without the steps between them: %s', (_, apart, reach) => {
    const stitches = sewn(rows(apart, apart * 9, block(0, reach)));
    const [string, ...more] = strings(stitches);
    expect(more).toEqual([]);
    expect(string.from).toHaveLength(10);
    const { x, y } = stitches;
    for (let k = 0; k < 10; k++) {
      expect(y[string.from[k]]).toBeCloseTo(y[string.to[k]], 9);
      expect(Math.abs(x[string.from[k]] - x[string.to[k]])).toBeCloseTo(reach, 9);
    }
  });

  it('are rows behind a long step only where they run back exactly, and behind a short one anyhow', () => {
    const back = (step: number, degrees: number) => {
      const a = (degrees * Math.PI) / 180;
      const to = vec(9 - 9 * Math.cos(a), step + 9 * Math.sin(a));
      return strings(sewn(walk(3, vec(0, 0), vec(9, 0)), walk(3, vec(9, step), to)), 2).length;
    };
    expect([0, 20].map((degrees) => back(3, degrees))).toEqual([1, 1]);
    expect(back(0.8, 20)).toBe(1);
    expect(back(3, 40)).toBe(0);
  });

  it('are rows that lead straight on to the next', () => {
    expect(sizes(sewn(rows(0.4, 8, block(0, 15), { direct: true })))).toEqual([21]);
  });
});

describe('legs that do not', () => {
  it('are those of a run round a square, a star, or a circle', () => {
    const round = [vec(0, 0), vec(10, 0), vec(10, 10), vec(0, 10), vec(0, 0)];
    expect(sizes(sewn(walk(2, ...round, ...round)))).toEqual([]);
    // the points of a five-pointed star turn back by 144°, but always the same way
    const star = Array.from({ length: 11 }, (_, k) =>
      vec(9 * Math.cos((k * 4 * Math.PI) / 5), 9 * Math.sin((k * 4 * Math.PI) / 5)),
    );
    expect(sizes(sewn(walk(2, ...star)))).toEqual([]);
    expect(sizes(sewn(star))).toEqual([]);
    expect(sizes(sewn(stitchCurve(arc(vec(0, 0), 8, 0, 6), 2)))).toEqual([]);
  });

  it('are runs in a wide curve to and fro', () => {
    const out = stitchCurve(arc(vec(0, 0), 8, 0, 3), 2);
    const toAndFro = [0, 1, 2, 3, 4, 5].flatMap((k) => (k % 2 === 0 ? out : [...out].reverse()));
    expect(sizes(sewn(toAndFro))).toEqual([]);
  });

  it('part one column from the next', () => {
    const stitches = sewn(
      zigzag(vec(0, 0), vec(8, 0), 4, 0.4),
      walk(2, vec(8, 2), vec(16, 2), vec(16, 12)),
      zigzag(vec(16, 14), vec(24, 14), 4, 0.4),
    );
    const found = strings(stitches);
    expect(found).toHaveLength(2);
    for (const string of found) expect(string.from.length).toBeGreaterThanOrEqual(40);
    expect(found[0].to[found[0].to.length - 1]).toBeLessThan(found[1].from[0]);
  });

  it('may be too few', () => {
    const three = sewn(zigzag(vec(0, 0), vec(0.6, 0), 4, 0.4));
    expect(strings(three, 4)).toEqual([]);
    expect(strings(three, 3)).toHaveLength(1);
    expect(strings(sewn([vec(0, 0)]))).toEqual([]);
  });

  it('may follow what looked like a step between rows: then the step is a leg too', () => {
    // a row, 0.8 mm up, and a row back that strays from it by 40°
    const back = vec(9 - 9 * Math.cos((40 * Math.PI) / 180), 0.8 + 9 * Math.sin((40 * Math.PI) / 180));
    const stitches = sewn(walk(3, vec(0, 0), vec(9, 0)), walk(3, vec(9, 0.8), back));
    expect(strings(stitches, 1).map(({ from, to }) => [from[0], to[0]])).toEqual([
      [0, 3],
      [3, 4],
      [4, 7],
    ]);
  });
});
