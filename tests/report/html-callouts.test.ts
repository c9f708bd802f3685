import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberFindings, placeCallouts } from '../../lib/report/html/callouts.js';
import type { Finding, Severity } from '../../lib/vetting/finding.js';

const finding = (code: Finding['code'], severity: Severity, at: Finding['at']): Finding =>
  ({
    code,
    params: {},
    fix: null,
    severity,
    at,
    object: null,
    stitch: null,
    measured: null,
    limit: null,
    unit: null,
    basis: '',
  }) as unknown as Finding;

const anyFindings = fc.array(
  fc
    .tuple(
      fc.constantFrom('satin-too-wide', 'missing-lock', 'dense-place'),
      fc.constantFrom<Severity>('fail', 'warn', 'note'),
      fc.option(
        fc.record({
          x: fc.double({ min: -90, max: 90, noNaN: true }),
          y: fc.double({ min: -60, max: 60, noNaN: true }),
        }),
      ),
    )
    .map(([code, severity, at]) => finding(code, severity, at)),
  { maxLength: 150 },
);

describe('the numbers of findings', () => {
  it('are shared by those of one kind near together, and by no others', () => {
    const { list, places } = numberFindings(
      [
        finding('missing-lock', 'warn', { x: 0, y: 0 }),
        finding('missing-lock', 'warn', { x: 3, y: 0 }),
        finding('missing-lock', 'warn', { x: 8, y: 0 }),
        finding('missing-lock', 'note', { x: 0, y: 0 }),
        finding('satin-too-wide', 'fail', { x: 0, y: 0 }),
        finding('no-trims', 'warn', null),
      ],
      5,
    );
    expect(list.map(({ finding: { code, severity }, number }) => [severity, code, number])).toEqual([
      ['fail', 'satin-too-wide', 1],
      ['warn', 'missing-lock', 2],
      ['warn', 'missing-lock', 2],
      ['warn', 'missing-lock', 3],
      ['warn', 'no-trims', null],
      ['note', 'missing-lock', 4],
    ]);
    expect(places.map(({ at }) => at.x)).toEqual([0, 0, 8, 0]);
  });

  it('go to every finding with a place, count up from the severest, and never get too many', () => {
    fc.assert(
      fc.property(anyFindings, fc.double({ min: 0.01, max: 20, noNaN: true }), (findings, reach) => {
        const { list, places } = numberFindings(findings, reach);
        expect(new Set(list.map((entry) => entry.finding))).toEqual(new Set(findings));
        expect(places.map(({ number }) => number)).toEqual(places.map((_, i) => i + 1));
        expect(places.length).toBeLessThanOrEqual(48);
        for (const { finding: of, number } of list) {
          expect(number === null).toBe(of.at === null);
          if (number !== null) expect(places[number - 1].severity).toBe(of.severity);
        }
        const ranks = list.map((entry) => ['fail', 'warn', 'note'].indexOf(entry.finding.severity));
        expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
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
