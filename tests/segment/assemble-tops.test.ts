/** Pieces of one thread put together: sections with the same rows are one area where they touch, and a column that broke off goes on. */
import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, TURNS, turned } from './board.js';

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  const found = (...parts: readonly Vec[][]) =>
    findObjects(new Board().sew(...parts.map((part) => turned(part, turn))).stitches);
  const kinds = (...parts: readonly Vec[][]) => found(...parts).map(({ kind }) => kind);
  const moved = (points: readonly Vec[], x: number, y: number) => points.map((p) => vec(p.x + x, p.y + y));
  const letter = rows(0.4, 9.2, block(0, 12));

  it('filled letters that are sewn on from one to the next are one each', () => {
    expect(kinds(letter, moved(letter, 0, 12.6))).toEqual(['fill', 'fill']);
    expect(kinds(letter, moved(letter, 3, 14))).toEqual(['fill', 'fill']);
    expect(kinds(letter, moved(letter, 0, 9.6))).toEqual(['fill']);
  });

  it('sections whose rows come near each other end to end are one area, whichever is sewn first', () => {
    const left = rows(0.4, 12, block(0, 20));
    for (const gap of [0.6, 1.2]) {
      const right = moved(left, 20 + gap, 0);
      expect(found(left, [...right].reverse())).toMatchObject([{ kind: 'fill', sections: { length: 2 } }]);
      expect(found(right, [...left].reverse())).toMatchObject([{ kind: 'fill', sections: { length: 2 } }]);
    }
    // what is sewn between the two belongs to them, wherever it lies
    const between = moved(rows(0.4, 8, block(0, 6)), 6, 13.6);
    expect(kinds(left, between, moved(left, 20.6, 0))).toEqual(['fill']);
    const away = moved(left, 22.4, 0);
    expect(kinds(left, [...away].reverse())).toEqual(['fill', 'fill']);
    expect(kinds(away, [...left].reverse())).toEqual(['fill', 'fill']);
  });
});
