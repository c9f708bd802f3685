import { describe, expect, it } from 'vitest';
import type { Edge } from '../../lib/stitch/edge.js';
import {
  type EdgePair,
  fitLattice,
  latticeRow,
  numbersInLattice,
  placeOnLattice,
} from '../../lib/stitch/row-lattice.js';

const NEAR = { withinMm: 0.09, outliers: 0 };
const PITCH = 0.45;
const TURN = (28 * Math.PI) / 180;
const tenth = (mm: number) => Math.round(mm * 10) / 10;

/** Rows of these numbers, from 3 to 15 mm along the direction of 28°, as a file rounds them. */
function section(numbers: readonly number[]): EdgePair {
  const edge = (along: (row: number) => number): Edge => {
    const places = numbers.map((row) => {
      const [s, v] = [along(row), PITCH * row];
      return [s * Math.cos(TURN) - v * Math.sin(TURN), s * Math.sin(TURN) + v * Math.cos(TURN)];
    });
    return {
      t: numbers.map((_, k) => k),
      x: places.map(([x]) => tenth(x)),
      y: places.map(([, y]) => tenth(y)),
    };
  };
  return { a: edge((row) => 3 + row / 20), b: edge((row) => 15 - row / 10) };
}

const span = (from: number, to: number) =>
  Array.from({ length: Math.abs(to - from) + 1 }, (_, k) => from + Math.sign(to - from) * k);

describe('the lattice of rows', () => {
  it('has the direction and the distance of the rows, in three numbers', () => {
    const { lattice } = fitLattice([section(span(0, 59))], NEAR, 99)!;
    expect(Math.abs(lattice.angleDeg - 28)).toBeLessThan(0.1);
    expect(numbersInLattice(lattice)).toBe(3);
    const [p, q] = [placeOnLattice(lattice, 10, 0), placeOnLattice(lattice, 20, 0)];
    expect(Math.hypot(p[0] - q[0], p[1] - q[1])).toBeCloseTo(10 * PITCH, 1);
  });

  it('numbers the rows of all sections, whichever way they are sewn', () => {
    const { rows } = fitLattice(
      [section(span(0, 39)), section(span(52, 45)), section(span(60, 75))],
      NEAR,
      99,
    )!;
    const firsts = rows.map((each) => latticeRow(each, 0));
    const lasts = [39, 7, 15].map((t, s) => latticeRow(rows[s], t));
    expect(firsts.map((row) => row - firsts[0])).toEqual([0, 52, 60]);
    expect(lasts.map((row) => row - firsts[0])).toEqual([39, 45, 75]);
    expect(rows.map(({ falls }) => falls)).toEqual([false, true, false]);
  });

  it('tells of rows that are left out, and of one that is sewn twice', () => {
    const { rows } = fitLattice(
      [section(span(0, 39)), section([...span(50, 58), ...span(61, 70), ...span(70, 75)])],
      NEAR,
      99,
    )!;
    expect(rows[1].skips).toEqual([
      { after: 8, rows: 2 },
      { after: 18, rows: -1 },
    ]);
    expect(latticeRow(rows[1], 24) - latticeRow(rows[1], 0)).toBe(25);
  });

  it('is none where a section lies between the rows of another', () => {
    expect(
      fitLattice([section(span(0, 39)), section(span(50, 70).map((row) => row + 0.5))], NEAR, 99),
    ).toBeNull();
  });

  it('is none where more than one row in twenty lies elsewhere', () => {
    const read = (rows: number) => {
      const odd = section(span(0, rows - 1));
      // two rows lie half a row off
      const beside = (edge: Edge): Edge => ({
        ...edge,
        x: edge.x.map((x, k) => x - (k === 9 || k === 19 ? 0.5 * PITCH * Math.sin(TURN) : 0)),
        y: edge.y.map((y, k) => y + (k === 9 || k === 19 ? 0.5 * PITCH * Math.cos(TURN) : 0)),
      });
      return fitLattice([{ a: beside(odd.a), b: beside(odd.b) }, section(span(80, 150))], NEAR, 99);
    };
    expect(read(32)).toBeNull();
    expect(read(44)).not.toBeNull();
  });

  it('passes over a single row that lies elsewhere', () => {
    const odd = section(span(0, 39));
    const beside = { ...odd.a, y: odd.a.y.map((y, k) => (k === 20 ? y + 1 : y)) };
    const { rows } = fitLattice([{ a: beside, b: odd.b }, section(span(50, 70))], NEAR, 99)!;
    expect(rows[1].first - rows[0].first).toBe(50);
  });
});
