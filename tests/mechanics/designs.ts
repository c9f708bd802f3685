/** Small designs with known objects, laid out by hand: columns along a path, filled rectangles and discs, words of strokes. */
import type { Stitches } from '../../lib/format/stitches.js';
import { Break } from '../../lib/format/stitches.js';
import { PLAINLY_TOP, type StitchObject, type UnderlayKind } from '../../lib/segment/objects.js';

export type Point = readonly [x: number, y: number];

export interface TestDesign {
  stitches: Stitches;
  objects: readonly StitchObject[];
}

export interface ColumnPlan {
  width: number;
  /** Same-rail spacing. */
  spacing: number;
  underlay: readonly UnderlayKind[];
  /** Same-rail spacing of a zigzag underlay. */
  zigzag?: number;
  /** Row distance of a light fill underlay. */
  rows?: number;
  /** Stitch length of a light fill underlay. */
  stitch?: number;
  inset?: number;
}

export const COLUMN: ColumnPlan = { width: 4.5, spacing: 0.4, underlay: [] };

export interface FillPlan {
  spacing: number;
  stitch: number;
  underlay: boolean;
  angleDeg: number;
}

export const FILL: FillPlan = { spacing: 0.4, stitch: 4, underlay: true, angleDeg: 0 };

export class Sewing {
  private readonly x: number[] = [];
  private readonly y: number[] = [];
  private readonly breaks: number[] = [];
  private readonly objects: StitchObject[] = [];

  private needle(points: readonly Point[], trimFirst: boolean): [number, number] {
    const first = this.x.length;
    points.forEach(([px, py], i) => {
      this.x.push(px);
      this.y.push(py);
      this.breaks.push(this.x.length === 1 ? Break.start : i === 0 && trimFirst ? Break.trim : Break.none);
    });
    return [first, this.x.length - 1];
  }

  private add(
    kind: StitchObject['kind'],
    range: [number, number],
    ends: [number, number][],
    kinds: UnderlayKind[],
    under: [number, number] | null,
    spacingMm: number | null,
  ) {
    const id = this.objects.length + 1;
    this.objects.push({
      id,
      block: 1,
      group: id,
      kind,
      range,
      from: Int32Array.from(ends, ([a]) => a),
      to: Int32Array.from(ends, ([, b]) => b),
      sections: kind === 'fill' ? Int32Array.of(0) : new Int32Array(0),
      split: false,
      underlay: {
        id: under && id,
        kinds,
        range: under,
        stitches: under ? under[1] - under[0] + 1 : 0,
        spacingMm,
        also: [],
      },
      locks: { start: false, end: false },
      ...PLAINLY_TOP,
    });
  }

  /** Satin along a path of its centre line. */
  column(path: readonly Point[], plan: ColumnPlan): this {
    const place = along(path);
    const length = place.length;
    const inset = plan.inset ?? Math.min(0.4, plan.width / 6);
    const under: Point[] = [];
    const end = Math.min(0.6, length / 6);
    for (const kind of plan.underlay) under.push(...layer(kind, plan, place, length, end, inset));
    const swings = Math.max(2, Math.round(length / (plan.spacing / 2)));
    const top: Point[] = [];
    for (let k = 0; k <= swings; k++)
      top.push(place.at((length * k) / swings, ((k % 2 ? 1 : -1) * plan.width) / 2));
    const underRange = under.length > 0 ? this.needle(under, true) : null;
    const range = this.needle(top, !underRange);
    const ends = Array.from({ length: swings }, (_, k): [number, number] => [range[0] + k, range[0] + k + 1]);
    const spaced = plan.underlay.includes('fill')
      ? (plan.rows ?? 3)
      : plan.underlay.some((u) => u.endsWith('zigzag'))
        ? (plan.zigzag ?? 2)
        : null;
    this.add('satin', range, ends, [...plan.underlay], underRange, spaced);
    return this;
  }

  /** Rows over the part of the plane where `inside` holds, within a circle about (cx, cy). */
  fill(
    cx: number,
    cy: number,
    reach: number,
    inside: (x: number, y: number) => boolean,
    plan: FillPlan,
  ): this {
    const underRange = plan.underlay
      ? this.needle(
          hatch(cx, cy, reach, inside, { ...plan, spacing: 3, stitch: 3, angleDeg: plan.angleDeg + 90 })
            .points,
          true,
        )
      : null;
    const { points, rows } = hatch(cx, cy, reach, inside, plan);
    const range = this.needle(points, !underRange);
    const ends = rows.map(([a, b]): [number, number] => [range[0] + a, range[0] + b]);
    this.add('fill', range, ends, plan.underlay ? ['fill'] : [], underRange, plan.underlay ? 3 : null);
    return this;
  }

  run(points: readonly Point[]): this {
    this.add('run', this.needle(points, true), [], [], null, null);
    return this;
  }

  done(): TestDesign {
    const count = this.x.length;
    return {
      stitches: {
        count,
        x: Float64Array.from(this.x),
        y: Float64Array.from(this.y),
        breakBefore: Uint8Array.from(this.breaks),
        block: new Uint16Array(count),
        record: Int32Array.from({ length: count }, (_, i) => i),
      },
      objects: this.objects,
    };
  }
}

function layer(
  kind: UnderlayKind,
  plan: ColumnPlan,
  place: Along,
  length: number,
  end: number,
  inset: number,
): Point[] {
  const half = plan.width / 2 - inset;
  const steps = (from: number, to: number, step: number) => {
    const n = Math.max(1, Math.round(Math.abs(to - from) / step));
    return Array.from({ length: n + 1 }, (_, k) => from + ((to - from) * k) / n);
  };
  const zigzag = (from: number, to: number, side: number) =>
    steps(from, to, (plan.zigzag ?? 2) / 2).map((s, k) => place.at(s, (k % 2 ? -side : side) * half));
  switch (kind) {
    case 'center-run':
      return steps(end, length - end, 2.2).map((s) => place.at(s, 0));
    case 'edge-run':
      return [
        ...steps(end, length - end, 2.2).map((s) => place.at(s, half)),
        ...steps(length - end, end, 2.2).map((s) => place.at(s, -half)),
      ];
    case 'zigzag':
      return zigzag(end, length - end, 1);
    case 'double-zigzag':
      return [...zigzag(end, length - end, 1), ...zigzag(length - end, end, 1)];
    case 'fill': {
      // Rows across the column, to and fro, of short stitches.
      const rows = steps(end, length - end, plan.rows ?? 3);
      return rows.flatMap((s, r) =>
        steps(r % 2 ? half : -half, r % 2 ? -half : half, plan.stitch ?? 2).map((v) => place.at(s, v)),
      );
    }
  }
}

interface Along {
  length: number;
  at(s: number, beside: number): Point;
}

/** Places by the length along a path and the distance to its left. */
function along(path: readonly Point[]): Along {
  const lengths = [0];
  for (let i = 1; i < path.length; i++)
    lengths.push(lengths[i - 1] + Math.hypot(path[i][0] - path[i - 1][0], path[i][1] - path[i - 1][1]));
  return {
    length: lengths[lengths.length - 1],
    at(s, beside) {
      let i = 1;
      while (i < path.length - 1 && lengths[i] < s) i++;
      const [ax, ay] = path[i - 1];
      const [bx, by] = path[i];
      const l = lengths[i] - lengths[i - 1];
      const t = (s - lengths[i - 1]) / l;
      return [ax + (bx - ax) * t - ((by - ay) / l) * beside, ay + (by - ay) * t + ((bx - ax) / l) * beside];
    },
  };
}

function hatch(
  cx: number,
  cy: number,
  reach: number,
  inside: (x: number, y: number) => boolean,
  plan: FillPlan,
) {
  const c = Math.cos((plan.angleDeg * Math.PI) / 180);
  const s = Math.sin((plan.angleDeg * Math.PI) / 180);
  const points: Point[] = [];
  const rows: [number, number][] = [];
  const step = 0.05;
  let way = 1;
  for (let v = -reach; v <= reach; v += plan.spacing) {
    let low = Infinity;
    let high = -Infinity;
    for (let u = -reach; u <= reach; u += step)
      if (inside(cx + u * c - v * s, cy + u * s + v * c)) {
        low = Math.min(low, u);
        high = Math.max(high, u);
      }
    if (high - low < 0.5) continue;
    const shift = ((rows.length % 4) * plan.stitch) / 4;
    const row = [low];
    for (let k = Math.ceil((low + 0.4 - shift) / plan.stitch); k * plan.stitch + shift < high - 0.4; k++)
      row.push(k * plan.stitch + shift);
    row.push(high);
    if (way < 0) row.reverse();
    rows.push([points.length, points.length + row.length - 1]);
    for (const u of row) points.push([cx + u * c - v * s, cy + u * s + v * c]);
    way = -way;
  }
  return { points, rows };
}

export const rectangle = (
  sewing: Sewing,
  cx: number,
  cy: number,
  width: number,
  height: number,
  plan: FillPlan,
): Sewing =>
  sewing.fill(
    cx,
    cy,
    Math.hypot(width, height) / 2,
    (x, y) => Math.abs(x - cx) <= width / 2 && Math.abs(y - cy) <= height / 2,
    plan,
  );

export const disc = (sewing: Sewing, cx: number, cy: number, radius: number, plan: FillPlan): Sewing =>
  sewing.fill(cx, cy, radius, (x, y) => Math.hypot(x - cx, y - cy) <= radius, plan);

/** Strokes of block letters in a box one high: width of the box, and the centre lines. */
const LETTERS: Record<string, { wide: number; strokes: Point[][] }> = {
  A: {
    wide: 0.75,
    strokes: [
      [
        [0, 0],
        [0.36, 1],
      ],
      [
        [0.4, 1],
        [0.75, 0],
      ],
      [
        [0.16, 0.33],
        [0.6, 0.33],
      ],
    ],
  },
  E: {
    wide: 0.55,
    strokes: [
      [
        [0, 0],
        [0, 1],
      ],
      [
        [0.1, 0.93],
        [0.55, 0.93],
      ],
      [
        [0.1, 0.5],
        [0.5, 0.5],
      ],
      [
        [0.1, 0.07],
        [0.55, 0.07],
      ],
    ],
  },
  I: {
    wide: 0,
    strokes: [
      [
        [0, 0],
        [0, 1],
      ],
    ],
  },
  K: {
    wide: 0.6,
    strokes: [
      [
        [0, 0],
        [0, 1],
      ],
      [
        [0.12, 0.5],
        [0.58, 1],
      ],
      [
        [0.25, 0.5],
        [0.6, 0],
      ],
    ],
  },
  L: {
    wide: 0.5,
    strokes: [
      [
        [0, 1],
        [0, 0],
      ],
      [
        [0.1, 0.07],
        [0.5, 0.07],
      ],
    ],
  },
  N: {
    wide: 0.65,
    strokes: [
      [
        [0, 0],
        [0, 1],
      ],
      [
        [0.08, 0.95],
        [0.57, 0.05],
      ],
      [
        [0.65, 0],
        [0.65, 1],
      ],
    ],
  },
  O: {
    wide: 0.8,
    strokes: [
      Array.from(
        { length: 49 },
        (_, k): Point => [0.4 + 0.4 * Math.cos((k * Math.PI) / 24), 0.5 + 0.5 * Math.sin((k * Math.PI) / 24)],
      ),
    ],
  },
  R: {
    wide: 0.55,
    strokes: [
      [
        [0, 0],
        [0, 1],
      ],
      Array.from(
        { length: 13 },
        (_, k): Point => [
          0.25 + 0.28 * Math.sin((k * Math.PI) / 12),
          0.73 + 0.22 * Math.cos((k * Math.PI) / 12),
        ],
      ),
      [
        [0.2, 0.45],
        [0.55, 0],
      ],
    ],
  },
  S: {
    wide: 0.6,
    strokes: [
      Array.from({ length: 33 }, (_, k): Point => {
        const t = k / 32;
        const a = t < 0.5 ? 0.35 + 1.3 * t * 2 : 0;
        return t < 0.5
          ? [0.3 + 0.28 * Math.cos(a * Math.PI * 0.9), 0.74 + 0.24 * Math.sin(a * Math.PI * 0.9)]
          : [
              0.3 - 0.28 * Math.cos((0.35 + 1.3 * (1 - t) * 2) * Math.PI * 0.9),
              0.26 - 0.24 * Math.sin((0.35 + 1.3 * (1 - t) * 2) * Math.PI * 0.9),
            ];
      }),
    ],
  },
  T: {
    wide: 0.7,
    strokes: [
      [
        [0, 0.93],
        [0.7, 0.93],
      ],
      [
        [0.35, 0.85],
        [0.35, 0],
      ],
    ],
  },
  V: {
    wide: 0.75,
    strokes: [
      [
        [0, 1],
        [0.36, 0],
      ],
      [
        [0.4, 0],
        [0.75, 1],
      ],
    ],
  },
};

/** A word of block letters about the origin; `height` of the centre lines, turned by `turnDeg`. */
export function word(text: string, height: number, plan: ColumnPlan, turnDeg = 0): TestDesign {
  const gap = plan.width + 1.5;
  const total = [...text].reduce((sum, ch) => sum + LETTERS[ch].wide * height, 0) + gap * (text.length - 1);
  const c = Math.cos((turnDeg * Math.PI) / 180);
  const s = Math.sin((turnDeg * Math.PI) / 180);
  const sewing = new Sewing();
  let left = -total / 2;
  for (const ch of text) {
    for (const stroke of LETTERS[ch].strokes)
      sewing.column(
        stroke.map(([u, v]): Point => {
          const x = left + u * height;
          const y = (v - 0.5) * height;
          return [x * c - y * s, x * s + y * c];
        }),
        plan,
      );
    left += LETTERS[ch].wide * height + gap;
  }
  return sewing.done();
}

/** The same design turned about the origin. */
export function turned(design: TestDesign, angleDeg: number): TestDesign {
  const c = Math.cos((angleDeg * Math.PI) / 180);
  const s = Math.sin((angleDeg * Math.PI) / 180);
  const { stitches } = design;
  return {
    ...design,
    stitches: {
      ...stitches,
      x: stitches.x.map((x, i) => x * c - stitches.y[i] * s),
      y: stitches.x.map((x, i) => x * s + stitches.y[i] * c),
    },
  };
}

/** The same stitches scaled about the origin, as a machine does. */
export function scaled(design: TestDesign, factor: number): TestDesign {
  const { stitches } = design;
  return {
    ...design,
    stitches: { ...stitches, x: stitches.x.map((v) => v * factor), y: stitches.y.map((v) => v * factor) },
  };
}
