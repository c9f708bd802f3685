import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import { placeOnEdge } from '../../lib/stitch/edge-curves.js';
import { type EditableObject, type EditableSection, numbersIn, type Way } from '../../lib/stitch/editable.js';
import { sewEditable } from '../../lib/stitch/sew-editable.js';
import { FAMILIES } from '../generators/families/index.js';
import { PRODUCTION } from '../generators/production/index.js';
import { everyNth, IN_FULL } from '../in-full.js';
import { type ObjectRead, readObjects, sampleDesign } from './objects-read.js';

/** What the property asks for: a fifth as many numbers as stitches (short objects have a floor), nearly all needle points near, none far. */
const NUMBERS_SHARE = 1 / 5;
const NUMBERS_FLOOR = 40;
const NEAR_MM = 0.15;
const NEAR_SHARE = 0.95;
const FAR_MM = 0.4;

interface Places {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

/** Distance from each place to the nearest of the others, looked for among all, mm. */
function nearest(places: Places, others: Places): number[] {
  return Array.from({ length: places.x.length }, (_, i) => {
    let least = Number.POSITIVE_INFINITY;
    for (let j = 0; j < others.x.length; j++) {
      const square = (places.x[i] - others.x[j]) ** 2 + (places.y[i] - others.y[j]) ** 2;
      if (square < least) least = square;
    }
    return Math.sqrt(least);
  });
}

const needles = ({ x, y }: Stitches, [first, last]: readonly [number, number]): Places => ({
  x: x.subarray(first, last + 1),
  y: y.subarray(first, last + 1),
});

function expectReturns({
  stitches,
  object,
  count,
  editable,
}: ObjectRead & { editable: EditableObject }): void {
  expect(numbersIn(editable)).toBeLessThanOrEqual(Math.max(NUMBERS_FLOOR, NUMBERS_SHARE * count));
  const was = needles(stitches, object.range);
  const sewn = sewEditable(editable);
  for (const off of [nearest(was, sewn), nearest(sewn, was)]) {
    expect(Math.max(...off)).toBeLessThanOrEqual(FAR_MM);
    expect(off.filter((mm) => mm <= NEAR_MM).length).toBeGreaterThanOrEqual(NEAR_SHARE * off.length);
  }
  expect(Math.abs(sewn.x.length - count)).toBeLessThanOrEqual(0.02 * count + 2);
}

const COLUMNS = [
  'satin-straight',
  'satin-slant',
  'satin-curved',
  'satin-ring',
  'satin-taper',
  'satin-fixed',
  'satin-corner',
  'satin-wide',
  'letters-single',
] as const;
const AREAS = ['fill-simple', 'underlay-fill', 'plain-areas'] as const;

describe('an object read into a description and sewn again', () => {
  it.each(COLUMNS)('has its needle points back where it is a column (%s)', (family) => {
    let read = 0;
    let editable = 0;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5000 }), (seed) => {
        for (const object of readObjects(FAMILIES[family](seed).design)) {
          read++;
          if (object.editable === null) continue;
          editable++;
          expectReturns({ ...object, editable: object.editable });
        }
      }),
      { numRuns: 6 },
    );
    expect(read).toBeGreaterThan(0);
    expect(editable).toBeGreaterThanOrEqual(0.8 * read);
  });

  it('is nearly always possible with columns', () => {
    const all = COLUMNS.flatMap((family) =>
      everyNth(4, [11, 12, 13, 14]).flatMap((seed) => readObjects(FAMILIES[family](seed).design)),
    );
    const editable = all.filter((object) => object.editable !== null);
    expect(editable.length).toBeGreaterThanOrEqual(0.95 * all.length);
  });

  it('has its needle points back where it is an area, and is mostly possible', () => {
    const all = AREAS.flatMap((family) =>
      everyNth(2, [1, 2, 3, 4]).flatMap((seed) =>
        readObjects(FAMILIES[family](seed).design).filter(({ object }) => object.kind === 'fill'),
      ),
    );
    const editable = all.filter((object) => object.editable !== null);
    for (const object of editable) expectReturns({ ...object, editable: object.editable! });
    expect(editable.length).toBeGreaterThanOrEqual(0.85 * all.length);
  });

  // The long runs have the one of many sections as well.
  it.each(IN_FULL ? ['name-drop.dst', 'cap-front.dst'] : ['name-drop.dst'])(
    'has its needle points back in %s',
    (name) => {
      for (const object of readObjects(sampleDesign(name))) {
        if (object.editable !== null) expectReturns({ ...object, editable: object.editable });
      }
    },
  );

  it('is not possible where needle points are scattered at random', () => {
    const why = readObjects(PRODUCTION['satin-ragged'](1).design).map(({ why }) => why);
    expect(why.length).toBeGreaterThan(0);
    expect(new Set(why)).toEqual(new Set(['too-many-numbers']));
  });
});

const WHOLE = { lattice: null, inside: { kind: 'whole' }, stepMm: null, travelMm: null } as const;
/** A bar of 20 swings, 4 mm wide and 4 mm long, its first end at the origin. */
const BAR: EditableSection = {
  kind: 'section',
  swings: true,
  joined: true,
  rows: 20,
  edges: {
    form: 'center',
    center: { from: 0, start: [0, 0], arcs: [{ to: 20, points: [[4, 0]] }] },
    half: { from: 0, start: [2], arcs: [] },
    lead: { from: 0, start: [0], arcs: [] },
  },
  off: { a: { short: [], placed: [] }, b: { short: [], placed: [] } },
  phasesMm: null,
  odd: [],
  oddSteps: [],
};

describe('a description', () => {
  const sewn = (section: EditableSection, object: Omit<EditableObject, 'parts'> = WHOLE) =>
    sewEditable({ ...object, parts: [section] });

  it('of a bar is seven numbers, and is sewn as that bar', () => {
    expect(numbersIn({ ...WHOLE, parts: [BAR] })).toBe(7);
    const { x, y } = sewn(BAR);
    expect(x).toHaveLength(21);
    x.forEach((px, k) => {
      expect(px).toBeCloseTo(0.2 * k, 9);
      expect(y[k]).toBeCloseTo(k % 2 === 0 ? 2 : -2, 9);
    });
  });

  it('that leads makes the swings lean', () => {
    const { x } = sewn({
      ...BAR,
      edges: { ...BAR.edges, lead: { from: 0, start: [0.5], arcs: [] } } as never,
    });
    expect(x[0]).toBeCloseTo(0.5, 9);
    expect(x[1]).toBeCloseTo(0.2 - 0.5, 9);
  });

  it('with short ends stops them before their edge, and only them', () => {
    const depth = { from: 3, start: [1], arcs: [] };
    const off = { ...BAR.off, b: { short: [{ first: 3, step: 4, ends: 3, depth }], placed: [] } };
    const { y } = sewn({ ...BAR, off });
    const short = y.flatMap((py, k) => (k % 2 === 1 && py > -1.5 ? [k] : []));
    expect(short).toEqual([3, 7, 11]);
    for (const k of short) expect(y[k]).toBeCloseTo(-1, 2);
  });

  it('with a placed end has it there', () => {
    const off = { ...BAR.off, a: { short: [], placed: [{ t: 8, place: [1.7, 2.4] as [number, number] }] } };
    const { x, y } = sewn({ ...BAR, off });
    expect([x[8], y[8]]).toEqual([1.7, 2.4]);
    expect(numbersIn({ ...WHOLE, parts: [{ ...BAR, off }] })).toBe(10);
  });

  it('with a pattern breaks its swings', () => {
    const inside = { kind: 'shares', overMm: 3, turns: [[[0.5]]] } as const;
    const { x, y } = sewn(BAR, { ...WHOLE, inside });
    expect(x).toHaveLength(41);
    for (let k = 1; k < 41; k += 2) expect(y[k]).toBeCloseTo(0, 9);
    expect(numbersIn({ ...WHOLE, inside, parts: [BAR] })).toBe(9);
  });

  it('of a way has legs of even stitches, as few as are not too long', () => {
    const way: Way = {
      kind: 'way',
      start: [1, 1],
      legs: [
        { to: [7, 4], stitches: 3 },
        { to: [7, 9], stitches: null },
      ],
      onwards: null,
    };
    const object: EditableObject = { ...WHOLE, travelMm: 2.6, parts: [way] };
    const { x, y } = sewEditable(object);
    expect(x.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([1, 3, 5, 7, 7, 7]);
    expect(y.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([1, 2, 3, 4, 6.5, 9]);
    // the longest stitch, the start, two places, and the count that is not as few as it may be
    expect(numbersIn(object)).toBe(8);
  });

  it('of a way between sections leads to where the next begins, and does not sew that again', () => {
    const beside: EditableSection = {
      ...BAR,
      edges: {
        ...BAR.edges,
        center: { from: 0, start: [10, 0], arcs: [{ to: 20, points: [[14, 0]] }] },
      } as never,
    };
    const way: Way = { kind: 'way', start: null, legs: [], onwards: { stitches: 4 } };
    const { x } = sewEditable({ ...WHOLE, travelMm: 9, parts: [BAR, way, beside] });
    expect(x).toHaveLength(21 + 3 + 21);
    expect(x.slice(20, 25).map((v) => Math.round(v * 1e9) / 1e9)).toEqual([4, 5.5, 7, 8.5, 10]);
  });

  it('of rows that step over has both ends of each row', () => {
    const rows: EditableSection = {
      ...BAR,
      swings: false,
      joined: false,
      rows: 5,
      edges: {
        form: 'rows',
        first: 0,
        falls: false,
        skips: [],
        a: { from: 0, start: [-6], arcs: [] },
        b: { from: 0, start: [6], arcs: [] },
      },
    };
    const across = { from: 0, start: [0], arcs: [{ to: 4, points: [[2]] }] };
    const lattice = { angleDeg: 90, across };
    const { x, y } = sewn(rows, { ...WHOLE, lattice });
    expect(x).toHaveLength(10);
    expect(y.map((v) => Math.round(v))).toEqual([-6, 6, 6, -6, -6, 6, 6, -6, -6, 6]);
    // up the rows at 90° lies across to the left
    expect(x[9]).toBeCloseTo(-2, 9);
    expect(placeOnEdge(rows.edges, lattice, 'a', 2)[0]).toBeCloseTo(-1, 9);
  });

  it('of rows begun at random tells a phase only for rows in which the needle goes down, and nothing that follows from the lattice', () => {
    const rows: EditableSection = {
      ...BAR,
      swings: false,
      joined: false,
      rows: 4,
      edges: {
        form: 'rows',
        first: 0,
        falls: false,
        skips: [],
        a: { from: 0, start: [0], arcs: [] },
        b: { from: 0, start: [1], arcs: [{ to: 3, points: [[10]] }] },
      },
      phasesMm: [null, 0.5, 1.5, 1],
    };
    const across = { from: 0, start: [0], arcs: [{ to: 3, points: [[1.5]] }] };
    const inside = {
      kind: 'staggered',
      from: 'axis',
      angleDeg: 0,
      stitchMm: 3,
      clearMm: 0.4,
      phasesMm: [],
      driftMm: 0,
    } as const;
    const object: EditableObject = {
      ...WHOLE,
      lattice: { angleDeg: 0, across },
      inside,
      parts: [rows],
    };
    const { x, y } = sewEditable(object);
    const inRow = (k: number) => x.filter((_, n) => Math.abs(y[n] - 0.5 * k) < 1e-9).sort((p, q) => p - q);
    expect([0, 1, 2, 3].map((k) => inRow(k).slice(1, -1))).toEqual([[], [0.5, 3.5], [1.5, 4.5], [1, 4, 7]]);
    // lattice: angle, two for the distances; edges 1 and 2; how many rows; stitch, clear; three phases
    expect(numbersIn(object)).toBe(3 + 3 + 1 + 2 + 3);
  });
});
