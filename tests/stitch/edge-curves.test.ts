import { describe, expect, it } from 'vitest';
import type { Edge } from '../../lib/stitch/edge.js';
import {
  fitEdges,
  fitEdgesOnLattice,
  numbersInEdges,
  placeOnEdge,
  type Side,
} from '../../lib/stitch/edge-curves.js';
import { fitLattice, type RowLattice } from '../../lib/stitch/row-lattice.js';

const NEAR = { withinMm: 0.1, outliers: 0 };
const round = (v: number) => Math.round(v * 10) / 10;

/** An edge of a column of swings: its ends at every second count. */
const edge = (first: 0 | 1, count: number, at: (t: number) => [number, number]): Edge => {
  const t = Array.from({ length: Math.floor((count - first) / 2) + 1 }, (_, k) => 2 * k + first);
  return { t, x: t.map((k) => round(at(k)[0])), y: t.map((k) => round(at(k)[1])) };
};

const furthest = (
  a: Edge,
  b: Edge,
  edges: ReturnType<typeof fitEdges>,
  lattice: RowLattice | null = null,
): number =>
  Math.max(
    ...(['a', 'b'] as Side[]).flatMap((side) => {
      const { t, x, y } = side === 'a' ? a : b;
      return t.map((at, k) => {
        const [px, py] = placeOnEdge(edges!, lattice, side, at);
        return Math.hypot(px - x[k], py - y[k]);
      });
    }),
  );

describe('two edges in few numbers', () => {
  it('of a straight bar take no more than a direction, a step, and where the edges lie', () => {
    const a = edge(0, 100, (t) => [3, 0.2 * t]);
    const b = edge(1, 100, (t) => [0, 0.2 * t]);
    const edges = fitEdges(a, b, NEAR, 99)!;
    expect(furthest(a, b, edges)).toBeLessThan(0.12);
    expect(numbersInEdges(edges)).toBeLessThanOrEqual(6);
  });

  it('of a ring are its center line, a width and a lead', () => {
    const on =
      (radius: number, way: 1 | -1) =>
      (t: number): [number, number] => {
        const angle = 0.03 * t;
        const lead = 0.2 * way;
        return [
          radius * Math.cos(angle) - lead * Math.sin(angle),
          radius * Math.sin(angle) + lead * Math.cos(angle),
        ];
      };
    const a = edge(0, 209, on(8, -1));
    const b = edge(1, 209, on(5, 1));
    const edges = fitEdges(a, b, NEAR, 99)!;
    expect(edges.form).toBe('center');
    expect(furthest(a, b, edges)).toBeLessThan(0.15);
    expect(numbersInEdges(edges)).toBeLessThanOrEqual(28);
  });

  it('of which one is bent and the other straight may each be told by itself', () => {
    const a = edge(0, 160, (t) => [0, 0.2 * t]);
    const b = edge(1, 160, (t) => [2 + (t < 60 ? 0 : t < 90 ? 0.1 * (t - 60) : 3), 0.2 * t]);
    const edges = fitEdges(a, b, NEAR, 99)!;
    expect(furthest(a, b, edges)).toBeLessThan(0.15);
    expect(numbersInEdges(edges)).toBeLessThanOrEqual(16);
  });

  it('of rows on a lattice tell how far along it each row ends', () => {
    const t = Array.from({ length: 60 }, (_, k) => k);
    const [ux, uy] = [Math.cos(0.5), Math.sin(0.5)];
    const place = (along: number, across: number) => [along * ux - across * uy, along * uy + across * ux];
    const line = (along: (k: number) => number): Edge => {
      const places = t.map((k) => place(along(k), 0.4 * k));
      return { t, x: places.map(([x]) => round(x)), y: places.map(([, y]) => round(y)) };
    };
    const a = line((k) => -10 - 4 * Math.sin(k / 9));
    const b = line((k) => 12 + (k > 30 ? 0.5 * (k - 30) : 0));
    const { lattice, rows } = fitLattice([{ a, b }], NEAR, 99)!;
    const edges = fitEdgesOnLattice(a, b, lattice, rows[0], NEAR, 99)!;
    expect(edges.form).toBe('rows');
    expect(furthest(a, b, edges, lattice)).toBeLessThan(0.15);
    // one number for the first row, one step for the straight edge up to its corner and one beyond it
    expect(numbersInEdges(edges)).toBeLessThanOrEqual(16);
  });

  it('are none where they take more numbers than they may', () => {
    const a = edge(0, 100, (t) => [3, 0.2 * t]);
    const b = edge(1, 100, (t) => [0, 0.2 * t]);
    expect(fitEdges(a, b, NEAR, 3)).toBeNull();
  });
});
