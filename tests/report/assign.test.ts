import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assign, type Candidate } from '../../lib/report/assign.js';

/** The least cost by trying every pairing. */
function leastCost(rows: number, columns: number, cost: (number | null)[][], alone: number): number {
  const taken = new Set<number>();
  const from = (row: number): number => {
    if (row === rows) return 0;
    let best = alone + from(row + 1);
    for (let column = 0; column < columns; column++) {
      const c = cost[row][column];
      if (c === null || taken.has(column)) continue;
      taken.add(column);
      best = Math.min(best, c + from(row + 1));
      taken.delete(column);
    }
    return best;
  };
  return from(0);
}

describe('pairing at the least cost', () => {
  it('gives way where taking the cheapest pair first would leave others alone', () => {
    const candidates = [
      { row: 0, column: 0, cost: 0.5 },
      { row: 0, column: 1, cost: 0.4 },
      { row: 1, column: 1, cost: 0.45 },
    ];
    expect([...assign(2, 2, candidates, 2)]).toEqual([0, 1]);
  });

  it('leaves alone what is too unlike', () => {
    expect([...assign(1, 1, [{ row: 0, column: 0, cost: 3 }], 2)]).toEqual([-1]);
    expect([...assign(2, 0, [], 2)]).toEqual([-1, -1]);
    expect([...assign(0, 3, [], 2)]).toEqual([]);
  });

  it('refuses a cost that is negative or no number', () => {
    expect(() => assign(1, 1, [{ row: 0, column: 0, cost: Number.NaN }], 1)).toThrow(RangeError);
  });

  it('is as cheap as the best of all pairings', () => {
    const instance = fc
      .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 5 }))
      .chain(([rows, columns]) =>
        fc.array(
          fc.array(fc.option(fc.double({ min: 0, max: 3, noNaN: true }), { freq: 3 }), {
            minLength: columns,
            maxLength: columns,
          }),
          { minLength: rows, maxLength: rows },
        ),
      );
    fc.assert(
      fc.property(instance, (cost) => {
        const columns = cost[0].length;
        const candidates: Candidate[] = [];
        cost.forEach((line, row) => {
          line.forEach((c, column) => {
            if (c !== null) candidates.push({ row, column, cost: c });
          });
        });
        const columnOf = assign(cost.length, columns, candidates, 2);
        const used = [...columnOf].filter((c) => c >= 0);
        expect(new Set(used).size).toBe(used.length);
        const total = [...columnOf].reduce((sum, c, row) => sum + (c < 0 ? 2 : cost[row][c]!), 0);
        expect(total).toBeCloseTo(leastCost(cost.length, columns, cost, 2), 9);
      }),
      { numRuns: 300 },
    );
  });
});
