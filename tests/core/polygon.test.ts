import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { area, contains, type Ring, signedArea } from '../../lib/core/polygon.js';

const square: Ring = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];
const reversed = (ring: Ring): Ring => [...ring].reverse();
const circle = (radius: number, corners: number): Ring =>
  Array.from({ length: corners }, (_, i) => {
    const a = (2 * Math.PI * i) / corners;
    return [radius * Math.cos(a), radius * Math.sin(a)];
  });
/** A star around the origin: any radii give a ring that does not cross itself. */
const star = fc.array(fc.double({ min: 1, max: 100, noNaN: true }), { minLength: 3, maxLength: 40 }).map(
  (radii): Ring =>
    radii.map((r, i) => {
      const a = (2 * Math.PI * i) / radii.length;
      return [r * Math.cos(a), r * Math.sin(a)];
    }),
);
const oracle = (ring: Ring) => new Flatten.Polygon(ring.map(([x, y]) => new Flatten.Point(x, y)));

describe('area', () => {
  it('is positive counter-clockwise with Y up', () => {
    expect(signedArea(square)).toBe(100);
    expect(signedArea(reversed(square))).toBe(-100);
    expect(area(reversed(square))).toBe(100);
  });

  it('has the closed forms of a hexagon and an irregular pentagon', () => {
    // regular hexagon of side 10: (3√3/2)·a²
    expect(area(circle(10, 6))).toBeCloseTo(259.8076, 4);
    const pentagon: Ring = [
      [0, 0],
      [40, 0],
      [40, 30],
      [20, 45],
      [0, 30],
    ];
    expect(area(pentagon)).toBe(1500);
  });

  it('agrees with an independent library on any star', () => {
    fc.assert(
      fc.property(star, (ring) => {
        expect(area(ring)).toBeCloseTo(Math.abs(oracle(ring).area()), 6);
      }),
    );
  });

  it('is nothing for fewer corners than it takes', () => {
    expect([signedArea([]), signedArea([[1, 2]]), area(square.slice(0, 2))]).toEqual([0, 0, 0]);
  });
});

describe('contains', () => {
  it('counts every edge and corner as inside, either way round', () => {
    for (const ring of [square, reversed(square)]) {
      for (const [x, y] of [
        [5, 5],
        [0, 5],
        [10, 5],
        [5, 0],
        [5, 10],
        [0, 0],
        [10, 10],
      ]) {
        expect(contains(ring, x, y)).toBe(true);
      }
      for (const [x, y] of [
        [-0.01, 5],
        [10.01, 5],
        [5, -0.01],
        [5, 10.01],
      ]) {
        expect(contains(ring, x, y)).toBe(false);
      }
    }
  });

  it('reaches out by the margin and no further', () => {
    expect(contains(square, 10.2, 5, 0.2 + 1e-9)).toBe(true);
    expect(contains(square, 10.2, 5, 0.19)).toBe(false);
    expect(contains([], 0, 0, 5)).toBe(false);
  });

  it('agrees with an independent library off the outline', () => {
    const place = fc.double({ min: -110, max: 110, noNaN: true });
    fc.assert(
      fc.property(star, place, place, (ring, x, y) => {
        const point = new Flatten.Point(x, y);
        const [distance] = oracle(ring).distanceTo(point);
        fc.pre(distance > 1e-3);
        expect(contains(ring, x, y)).toBe(oracle(ring).contains(point));
      }),
    );
  });

  it('changes nothing of its input', () => {
    const frozen = Object.freeze(square.map((p) => Object.freeze([...p]))) as unknown as Ring;
    contains(frozen, 1, 1);
    expect(frozen).toEqual(square);
  });
});
