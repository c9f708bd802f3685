/** Areas whose rows change from a first line to a last, laid here as one might sew them, on the grid of a file, read and sewn again. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { Blend } from '../../lib/stitch/blend.js';
import type { EdgePoint } from '../../lib/stitch/edge.js';
import { type EditableObject, numbersIn } from '../../lib/stitch/editable.js';
import { readEditable } from '../../lib/stitch/read-editable.js';
import { sewEditable } from '../../lib/stitch/sew-editable.js';

/** Turned, mirrored, larger or smaller, moved, and each needle point shaken, before it comes to lie on the step of a file (0.1 mm). */
interface Laid {
  readonly degrees: number;
  readonly mirror: boolean;
  readonly scale: number;
  readonly shake: readonly number[];
}

const LAID: fc.Arbitrary<Laid> = fc.record({
  degrees: fc.double({ min: 0, max: 360, noNaN: true }),
  mirror: fc.boolean(),
  scale: fc.double({ min: 0.9, max: 1.2, noNaN: true }),
  shake: fc.array(fc.double({ min: -0.03, max: 0.03, noNaN: true }), { minLength: 11, maxLength: 11 }),
});

const onGrid = (points: readonly EdgePoint[], { degrees, mirror, scale, shake }: Laid): EdgePoint[] => {
  const [c, s] = [scale * Math.cos((degrees * Math.PI) / 180), scale * Math.sin((degrees * Math.PI) / 180)];
  const step = (mm: number, n: number) => Math.round(10 * (mm + shake[n % shake.length])) / 10;
  return points.map(([px, y], n) => {
    const x = mirror ? -px : px;
    return [step(x * c - y * s + 31, 2 * n), step(x * s + y * c - 17, 2 * n + 1)];
  });
};

/** As the one area of a design in which no straight rows are found. */
function read(points: readonly EdgePoint[]): EditableObject | null {
  const stitches = {
    x: Float64Array.from(points, ([x]) => x),
    y: Float64Array.from(points, ([, y]) => y),
    count: points.length,
  } as Partial<Stitches> as Stitches;
  const object = { kind: 'fill', range: [0, points.length - 1] } as Partial<StitchObject> as StitchObject;
  return readEditable(stitches, object, []).editable;
}

/** What is promised of every description: few numbers, nearly all needle points near and none far, looked for among all. */
function expectTold(points: readonly EdgePoint[], mostNumbers: number): Blend {
  const editable = read(points);
  expect(editable).not.toBeNull();
  expect(numbersIn(editable!)).toBeLessThanOrEqual(mostNumbers);
  const { x, y } = sewEditable(editable!);
  const sewn = x.map((px, n): EdgePoint => [px, y[n]]);
  for (const [from, to] of [
    [points, sewn],
    [sewn, points],
  ] as const) {
    const off = from.map(([px, py]) => Math.min(...to.map(([qx, qy]) => Math.hypot(px - qx, py - qy))));
    expect(Math.max(...off)).toBeLessThanOrEqual(0.4);
    expect(off.filter((mm) => mm <= 0.15).length).toBeGreaterThanOrEqual(0.95 * off.length);
  }
  return editable!.parts.find((part) => part.kind === 'blend')!;
}

/** Needle points so far apart along a line given by many points, begun `first` on, and its last point. */
function stitched(line: readonly EdgePoint[], first: number, stitch: number): EdgePoint[] {
  const out: EdgePoint[] = [line[0]];
  let [next, s] = [first, 0];
  for (let n = 1; n < line.length; n++) {
    const [[ax, ay], [bx, by]] = [line[n - 1], line[n]];
    const way = Math.hypot(bx - ax, by - ay);
    for (; next <= s + way; next += stitch)
      out.push([ax + ((bx - ax) * (next - s)) / way, ay + ((by - ay) * (next - s)) / way]);
    s += way;
  }
  const last = line[line.length - 1];
  const [px, py] = out[out.length - 1];
  if (Math.hypot(last[0] - px, last[1] - py) < 0.7) out.pop();
  return [...out, last];
}

/** A path from one radius to another about an oval, as long as it is told. */
function wound(inner: number, outer: number, pitch: number, flat: number): EdgePoint[] {
  const turns = (outer - inner) / pitch;
  return Array.from({ length: Math.ceil(turns * 200) }, (_, n): EdgePoint => {
    const r = inner + (pitch * n) / 200;
    const angle = (2 * Math.PI * n) / 200;
    return [r * Math.cos(angle), flat * r * Math.sin(angle)];
  });
}

const pointsOf = (line: readonly EdgePoint[], stitch: number) => stitched(line, stitch, stitch);

/** Rings about the origin from corners at full size inward, so many, each leg begun a little farther on than in the ring before. */
function ringed(corners: readonly EdgePoint[], rings: number, stitch: number): EdgePoint[] {
  return Array.from({ length: rings }, (_, ring) => {
    const share = 1 - ring / (rings + 1);
    const at = [...corners, corners[0]].map(([x, y]): EdgePoint => [x * share, y * share]);
    const first = stitch * (0.35 + ((0.41 * ring) % 0.6));
    return at
      .slice(1)
      .flatMap((corner, n) => stitched([at[n], corner], first, stitch).slice(n === 0 ? 0 : 1));
  }).flat();
}

/** Rows to and fro along an arc of so many degrees, from the inner to the outer radius. */
function bowed(inner: number, outer: number, pitch: number, degrees: number, stitch: number): EdgePoint[] {
  const rows = Math.floor((outer - inner) / pitch);
  return Array.from({ length: rows }, (_, row) => {
    const line = Array.from({ length: 201 }, (_, n): EdgePoint => {
      const angle = ((n / 200 - 0.5) * degrees * Math.PI) / 180;
      return [(inner + row * pitch) * Math.sin(angle), (inner + row * pitch) * Math.cos(angle)];
    });
    return stitched(row % 2 === 0 ? line : line.reverse(), stitch * (row % 2 === 0 ? 0.5 : 0.9), stitch);
  }).flat();
}

describe('an area whose rows change from a first line to a last', () => {
  it('is told by a middle and two distances where it winds round a disc, inward and outward', () => {
    fc.assert(
      fc.property(LAID, fc.boolean(), (laid, inward) => {
        const path = wound(2.5, 9, 0.5, 1);
        const blend = expectTold(onGrid(pointsOf(inward ? path.reverse() : path, 2.4), laid), 20);
        expect(blend.way).toBe('winding');
        expect(blend.rows).toBeCloseTo(13, 0);
        const ends = blend.lines.map(({ start }) => start[0] / laid.scale);
        expect(inward ? ends.reverse() : ends).toEqual([expect.closeTo(2.5, 0), expect.closeTo(9, 0)]);
      }),
      { numRuns: 6 },
    );
  });

  it('is told by two ovals where it winds between these', () => {
    fc.assert(
      fc.property(LAID, (laid) => {
        const blend = expectTold(onGrid(pointsOf(wound(3, 10, 0.5, 0.75), 2.4), laid), 60);
        expect(blend.way).toBe('winding');
      }),
      { numRuns: 4 },
    );
  });

  it('is told by the corners of two rings where rings follow an outline', () => {
    const outlines: EdgePoint[][] = [
      [
        [-12, -9],
        [13, -8],
        [10, 9],
        [-11, 10],
      ],
      [
        [0, 13],
        [-12, -8],
        [12, -8],
      ],
      [
        [12, 0],
        [4, 11],
        [-10, 7],
        [-10, -7],
        [4, -11],
      ],
    ];
    fc.assert(
      fc.property(LAID, fc.constantFrom(...outlines), (laid, corners) => {
        const blend = expectTold(onGrid(ringed(corners, 18, 2.7), laid), 60);
        expect(blend).toMatchObject({ way: 'rings', rows: 18, middle: null });
        for (const { arcs } of blend.lines) expect(arcs).toHaveLength(corners.length);
      }),
      { numRuns: 8, endOnFailure: true },
    );
  });

  it('is told with its last ring left open', () => {
    const points = ringed(
      [
        [-12, -9],
        [13, -8],
        [10, 9],
        [-11, 10],
      ],
      18,
      2.7,
    ).slice(0, -1);
    expect(expectTold(onGrid(points, { degrees: 33, mirror: true, scale: 1, shake: [0] }), 60).missing).toBe(
      1,
    );
  });

  it('is told by two bows where rows go to and fro along a curve', () => {
    fc.assert(
      fc.property(LAID, (laid) => {
        const blend = expectTold(onGrid(bowed(20, 31, 0.5, 80, 3), laid), 52);
        expect(blend).toMatchObject({ way: 'to-and-fro', rows: 22 });
      }),
      { numRuns: 5 },
    );
  });

  it('is not told where its stitches follow no rule', () => {
    // drawn by hand, once: a fraction of a stitch by which each is longer or shorter
    const uneven = [0.31, -0.22, 0.05, 0.38, -0.35, 0.12, -0.09, 0.27, -0.3, 0.18, -0.14];
    const path = wound(2.5, 9, 0.5, 1);
    const points: EdgePoint[] = [];
    for (let n = 0, at = 0; at < path.length; n++) {
      points.push(path[at]);
      at += Math.max(1, Math.round(12 * (1 + uneven[(n * n) % uneven.length])));
    }
    expect(points.length).toBeGreaterThan(200);
    expect(read(onGrid(points, { degrees: 0, mirror: false, scale: 1, shake: [0] }))).toBeNull();
  });
});

describe('a blend', () => {
  const square = (half: number) => ({
    from: 0,
    start: [half, half],
    arcs: [
      [-half, half],
      [-half, -half],
      [half, -half],
      [half, half],
    ].map((point, n) => ({ to: (n + 1) / 4, points: [point] })),
  });
  const rings: Blend = {
    kind: 'blend',
    way: 'rings',
    rows: 3,
    middle: null,
    lines: [square(6), square(2)],
    needles: {
      kind: 'anew',
      firstMm: { least: 1, range: 2, begin: 0, step: 1.5 },
      stitchMm: { from: 0, start: [3], arcs: [] },
      clearMm: 0.5,
      odd: [],
    },
    missing: 0,
  };
  const object = (blend: Blend): EditableObject => ({
    lattice: null,
    inside: { kind: 'whole' },
    stepMm: null,
    travelMm: null,
    parts: [blend],
  });

  it('of rings has its corners, and needle points begun anew from each', () => {
    const { x, y } = sewEditable(object(rings));
    const round = (mm: number) => Math.round(mm * 1e6) / 1e6;
    // first 1, 2.5 and, begun anew past 3, 2 mm on
    expect(x.slice(0, 6).map(round)).toEqual([6, 5, 2, -1, -4, -6]);
    expect(y.slice(0, 6).map(round)).toEqual([6, 6, 6, 6, 6, 6]);
    const second = x.findIndex((px, n) => round(px) === 4 && round(y[n]) === 4);
    expect(x.slice(second, second + 4).map(round)).toEqual([4, 1.5, -1.5, -4]);
    expect([x[x.length - 1], y[y.length - 1]].map(round)).toEqual([2, 2]);
  });

  it('of rings tells two lines that close, the rule for the first stitches, one stitch, how many, and how clear of corners', () => {
    const line = 2 + 4 * 2 + 3 - 2;
    expect(numbersIn(object(rings))).toBe(1 + 2 * line + 4 + 1 + 1);
    expect(numbersIn(object({ ...rings, missing: 1 }))).toBe(1 + 2 * line + 4 + 1 + 1 + 1);
  });

  it('with an odd leg has as many needle points there as are told', () => {
    const needles = { ...rings.needles, odd: [{ row: 0, leg: 1, points: 2 }] } as Blend['needles'];
    const { x, y } = sewEditable(object({ ...rings, needles }));
    const onLeft = y.filter((_, n) => Math.abs(x[n] + 6) < 1e-9);
    expect(onLeft).toEqual([6, 5, 2, -6].map((mm) => expect.closeTo(mm, 6)));
    expect(numbersIn(object({ ...rings, needles }))).toBe(numbersIn(object(rings)) + 3);
  });

  it('without its last needle points ends before them', () => {
    const whole = sewEditable(object(rings));
    const open = sewEditable(object({ ...rings, missing: 2 }));
    expect(open.x).toEqual(whole.x.slice(0, -2));
  });

  it('that winds goes evenly from one distance to the other, the way that is told', () => {
    const needles = {
      kind: 'along',
      count: 5,
      alongMm: { from: 0, start: [0], arcs: [{ to: 4, points: [[1e3]] }] },
    } as const;
    const winding: Blend = {
      ...rings,
      way: 'winding',
      rows: 2.5,
      middle: { at: [10, 20], fromDeg: 90, clockwise: true },
      lines: [
        { from: 0, start: [8], arcs: [] },
        { from: 0, start: [3], arcs: [] },
      ],
      needles,
    };
    const { x, y } = sewEditable(object(winding));
    expect([x[0], y[0]]).toEqual([expect.closeTo(10, 9), expect.closeTo(28, 9)]);
    // two and a half turns on it ends on the other side
    expect([x[4], y[4]]).toEqual([expect.closeTo(10, 9), expect.closeTo(17, 9)]);
    const early = sewEditable(
      object({ ...winding, needles: { ...needles, alongMm: { from: 0, start: [1], arcs: [] } } }),
    );
    expect(early.x[0]).toBeGreaterThan(10);
    expect(numbersIn(object(winding))).toBe(1 + 3 + 2 + 1 + 2);
  });
});
