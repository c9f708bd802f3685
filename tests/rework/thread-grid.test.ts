import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areaMm2, SQUARE_MM, squareOf, ThreadGrid, type Window } from '../../lib/rework/thread-grid.js';

const WINDOW: Window = { x: -40, y: 7, width: 75, height: 31 };
const squares = fc.array(fc.tuple(fc.integer({ min: -44, max: 38 }), fc.integer({ min: 4, max: 41 })), {
  maxLength: 12,
});
const inWindow = ([x, y]: readonly [number, number]) => x >= -40 && x < 35 && y >= 7 && y < 38;

const gridOf = (set: readonly (readonly [number, number])[]): ThreadGrid => {
  const grid = new ThreadGrid(WINDOW);
  for (const [x, y] of set) grid.set(x, y);
  return grid;
};

/** Every square of the window, and whether it should be set. */
function expectSquares(grid: ThreadGrid, should: (x: number, y: number) => boolean): void {
  for (let x = WINDOW.x - 2; x < WINDOW.x + WINDOW.width + 2; x++) {
    for (let y = WINDOW.y - 2; y < WINDOW.y + WINDOW.height + 2; y++) {
      if (grid.has(x, y) !== (inWindow([x, y]) && should(x, y))) {
        throw new Error(`square ${x}, ${y} is ${grid.has(x, y) ? 'set' : 'not set'}`);
      }
    }
  }
}

describe('a window of fabric as squares', () => {
  it('keeps what is set in it, and nothing outside', () => {
    fc.assert(
      fc.property(squares, (set) => {
        expectSquares(gridOf(set), (x, y) => set.some(([px, py]) => px === x && py === y));
      }),
      { numRuns: 30 },
    );
  });

  it('grows by a disc about each square', () => {
    fc.assert(
      fc.property(squares, fc.integer({ min: 0, max: 9 }), (set, radius) => {
        const inside = set.filter(inWindow);
        expectSquares(gridOf(set).grown(radius), (x, y) =>
          inside.some(([px, py]) => (px - x) ** 2 + (py - y) ** 2 <= radius * radius),
        );
      }),
      { numRuns: 30 },
    );
  });

  it('closes gaps narrower than twice the radius, and no wider ones', () => {
    const lines = (apart: number) => {
      const grid = new ThreadGrid({ x: 0, y: 0, width: 90, height: 90 });
      for (const x of [40, 40 + apart]) grid.draw(x / 10, 3, x / 10, 6);
      return grid.closed(4);
    };
    expect(lines(7).has(43, 45)).toBe(true);
    expect(lines(12).has(46, 45)).toBe(false);
    // nothing is added beyond the threads themselves
    expect(lines(7).has(35, 45)).toBe(false);
  });

  it('draws a thread without a gap', () => {
    const grid = new ThreadGrid({ x: -50, y: -50, width: 100, height: 100 });
    grid.draw(-3, 1, 4, -2.3);
    for (let k = 0; k <= 100; k++) {
      const [x, y] = [-30 + 0.7 * k, 10 - 0.33 * k];
      const near = [-1, 0, 1].some((dx) =>
        [-1, 0, 1].some((dy) => grid.has(Math.round(x) + dx, Math.round(y) + dy)),
      );
      expect(near).toBe(true);
    }
  });

  it('tells what is set in one and not in another, and in both', () => {
    fc.assert(
      fc.property(squares, squares, (a, b) => {
        const [p, q] = [gridOf(a), gridOf(b)];
        expectSquares(p.without(q), (x, y) => p.has(x, y) && !q.has(x, y));
        expectSquares(p.within(q), (x, y) => p.has(x, y) && q.has(x, y));
      }),
      { numRuns: 20 },
    );
  });

  it('counts the squares of a part of it, and says where the first is', () => {
    fc.assert(
      fc.property(squares, (set) => {
        const inner: Window = { x: -30, y: 10, width: 50, height: 20 };
        const inside = set.filter(([x, y]) => x >= -30 && x < 20 && y >= 10 && y < 30);
        const { squares: count, first } = gridOf(set).counted(inner);
        expect(count).toBe(new Set(inside.map(String)).size);
        expect(first === null).toBe(inside.length === 0);
        if (first !== null) {
          expect(inside.some(([x, y]) => squareOf(first.x) === x && squareOf(first.y) === y)).toBe(true);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('has squares of a tenth of a millimeter', () => {
    expect(SQUARE_MM).toBe(0.1);
    expect(areaMm2(250)).toBeCloseTo(2.5, 9);
    expect(squareOf(-1.25)).toBe(-12);
  });
});
