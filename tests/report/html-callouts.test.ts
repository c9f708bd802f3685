import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { letterOf, numberedPlaces, numbersOf, placeCallouts } from '../../lib/report/pictures/callouts.js';
import type { Severity } from '../../lib/vetting/finding.js';

type At = { x: number; y: number } | null;

const kind = (severity: Severity, ...places: At[]) => ({ severity, all: places.map((at) => ({ at })) });

const anyPlace = fc.option(
  fc.record({
    x: fc.double({ min: -90, max: 90, noNaN: true }),
    y: fc.double({ min: -60, max: 60, noNaN: true }),
  }),
);
const anyKinds = fc.array(
  fc
    .tuple(
      fc.constantFrom<Severity>('fail', 'warn', 'note'),
      fc.array(anyPlace, { minLength: 1, maxLength: 60 }),
    )
    .map(([severity, places]) => kind(severity, ...places)),
  { maxLength: 20 },
);

describe('the numbers of findings', () => {
  it('are letters on paper, as columns of a sheet are lettered', () => {
    expect([1, 2, 26, 27, 52, 53, 702, 703].map(letterOf)).toEqual([
      'A',
      'B',
      'Z',
      'AA',
      'AZ',
      'BA',
      'ZZ',
      'AAA',
    ]);
  });

  it('are one a kind, which stands once where findings are near together', () => {
    const kinds = [
      kind('fail', { x: 0, y: 0 }),
      kind('warn', { x: 0, y: 0 }, { x: 3, y: 0 }, { x: 8, y: 0 }),
      kind('warn', null),
      kind('note', { x: 0, y: 0 }),
    ];
    expect(numbersOf(kinds)).toEqual([1, 2, null, 3]);
    expect(numberedPlaces(kinds, 5).map(({ number, at }) => [number, at.x])).toEqual([
      [1, 0],
      [2, 0],
      [2, 8],
      [3, 0],
    ]);
  });

  it('stand at every finding with a place or near it, and are never too many', () => {
    fc.assert(
      fc.property(anyKinds, fc.double({ min: 0.01, max: 20, noNaN: true }), (kinds, reach) => {
        const numbers = numbersOf(kinds);
        const places = numberedPlaces(kinds, reach);
        expect(places.length).toBeLessThanOrEqual(48);
        const given = numbers.filter((number) => number !== null);
        expect(given).toEqual(given.map((_, i) => i + 1));
        expect(new Set(places.map(({ number }) => number))).toEqual(new Set(given));
        for (const { number, severity } of places)
          expect(kinds[numbers.indexOf(number)].severity).toBe(severity);
        for (const [i, { all }] of kinds.entries())
          expect(numbers[i] === null).toBe(all.every(({ at }) => at === null));
      }),
    );
  });
});

describe('the places of callouts', () => {
  it('lie on the paper and apart from one another, however crowded the findings are', () => {
    const paper = { width: 640, height: 200, radius: 13 };
    // Findings may lie off the paper, too: a move may lead where no needle goes.
    const anchor = fc.record({
      x: fc.double({ min: -100, max: 740, noNaN: true }),
      y: fc.double({ min: -100, max: 300, noNaN: true }),
    });
    const crowd = fc.record({
      x: fc.double({ min: 300, max: 320, noNaN: true }),
      y: fc.double({ min: 90, max: 100, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(fc.oneof(anchor, crowd), { maxLength: 48 }), (anchors) => {
        const spots = placeCallouts(anchors, paper);
        expect(spots).toHaveLength(anchors.length);
        for (const [i, { x, y }] of spots.entries()) {
          expect(x).toBeGreaterThanOrEqual(13);
          expect(x).toBeLessThanOrEqual(640 - 13);
          expect(y).toBeGreaterThanOrEqual(13);
          expect(y).toBeLessThanOrEqual(200 - 13);
          for (const other of spots.slice(0, i))
            expect(Math.hypot(other.x - x, other.y - y)).toBeGreaterThanOrEqual(26);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('are the findings themselves where there is room', () => {
    const anchors = [
      { x: 100, y: 100 },
      { x: 300, y: 100 },
    ];
    expect(placeCallouts(anchors, { width: 640, height: 200, radius: 13 })).toEqual(anchors);
  });

  it('leave neither of two findings on one spot out of reach', () => {
    const spot = { x: 320, y: 100 };
    for (const { x, y } of placeCallouts([spot, spot], { width: 640, height: 200, radius: 13 }))
      expect(Math.hypot(x - spot.x, y - spot.y)).toBeLessThan(13 * 4);
  });
});
