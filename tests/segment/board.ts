/** Stitching laid by hand, needle point by needle point, as the object finder gets it. */
import { type Design, Kind } from '../../lib/format/design.js';
import { penetrations, type Stitches } from '../../lib/format/stitches.js';
import { distance, stitchAlong, type Vec, vec } from '../generators/plane.js';

export class Board {
  private readonly x: number[] = [];
  private readonly y: number[] = [];
  private readonly kind: number[] = [];

  /** @param grid places are rounded to this, mm, as in a file; 0 leaves them as they are */
  constructor(private readonly grid = 0.1) {}

  sew(...parts: readonly (readonly Vec[])[]): this {
    for (const p of parts.flat()) this.record(this.snap(p.x), this.snap(p.y), Kind.stitch);
    return this;
  }

  /** What lies between the needle points before and those after. */
  move(what: 'jump' | 'trim' | 'colour' | 'stop'): this {
    this.record(0, 0, Kind[what]);
    return this;
  }

  /** Number of needle points so far: the index of the next. */
  get next(): number {
    return this.kind.filter((k) => k === Kind.stitch).length;
  }

  get design(): Design {
    return {
      x: Float64Array.from(this.x),
      y: Float64Array.from(this.y),
      kind: Uint8Array.from(this.kind),
      thread: null,
      header: [],
      diagnostics: [],
      format: 'dst',
    };
  }

  get stitches(): Stitches {
    return penetrations(this.design);
  }

  private snap(v: number): number {
    return this.grid > 0 ? Math.round(v / this.grid) * this.grid : v;
  }

  private record(x: number, y: number, kind: number): void {
    this.x.push(x);
    this.y.push(y);
    this.kind.push(kind);
  }
}

export const sewn = (...parts: readonly (readonly Vec[])[]): Stitches => new Board().sew(...parts).stitches;

/** Running stitches through corners. */
export const walk = (stitch: number, ...corners: Vec[]): Vec[] => stitchAlong(corners, stitch);

/**
 * Swings across the line from `a` to `b`, on its left first. `spacing` lies between neighbouring points of one side;
 * `broken` puts needle points into every swing, so many.
 */
export function zigzag(a: Vec, b: Vec, width: number, spacing: number, broken = 0): Vec[] {
  const length = distance(a, b);
  const t = vec((b.x - a.x) / length, (b.y - a.y) / length);
  const ends = Array.from({ length: Math.round((2 * length) / spacing) + 1 }, (_, k) => {
    const s = (k * spacing) / 2;
    const v = k % 2 === 0 ? width / 2 : -width / 2;
    return vec(a.x + t.x * s - t.y * v, a.y + t.y * s + t.x * v);
  });
  return broken === 0
    ? ends
    : ends.flatMap((p, k) => (k === 0 ? [p] : inParts(ends[k - 1], p, broken + 1).slice(1)));
}

function inParts(a: Vec, b: Vec, parts: number): Vec[] {
  return Array.from({ length: parts + 1 }, (_, k) =>
    vec(a.x + ((b.x - a.x) * k) / parts, a.y + ((b.y - a.y) * k) / parts),
  );
}

/**
 * Rows along x up from y = 0, sewn to and fro; the points of every second row lie half a stitch on. They are joined by a
 * short step along the edge, or (`direct`) each leads slantwise to where the next one begins.
 */
export function rows(
  apart: number,
  height: number,
  ends: (y: number) => readonly [left: number, right: number],
  { stitch = 3, direct = false } = {},
): Vec[] {
  const out: Vec[] = [];
  const count = Math.floor(height / apart + 1e-9) + 1;
  for (let r = 0; r < count; r++) {
    const y = r * apart;
    const [left, right] = ends(y);
    const forth = r % 2 === 0;
    const [a, b] = forth ? [left, right] : [right, left];
    if (!direct || r === 0) out.push(vec(a, y));
    for (let s = stitch * (forth ? 1 : 0.5); s < Math.abs(b - a) - 0.6; s += stitch) {
      const f = s / Math.abs(b - a);
      out.push(vec(a + (b - a) * f, y + (direct ? apart * f : 0)));
    }
    out.push(vec(b, direct ? y + apart : y));
  }
  return out;
}

export const block = (left: number, right: number) => (): readonly [number, number] => [left, right];

/** Ways to lay a design that must change nothing that is found. */
export const TURNS = [
  { degrees: 0, mirror: false },
  { degrees: 37, mirror: false },
  { degrees: 90, mirror: true },
  { degrees: 201, mirror: true },
] as const;

export type Turn = (typeof TURNS)[number];

/** Points turned about the origin, and mirrored first where asked. */
export function turned(points: readonly Vec[], { degrees, mirror }: Turn): Vec[] {
  const c = Math.cos((degrees * Math.PI) / 180);
  const s = Math.sin((degrees * Math.PI) / 180);
  return points.map((p) => {
    const x = mirror ? -p.x : p.x;
    return vec(x * c - p.y * s, x * s + p.y * c);
  });
}

/** Swings across a ring, closed, `spacing` apart along its middle. */
export function ringZigzag(radius: number, width: number, spacing: number): Vec[] {
  const count = 2 * Math.round((2 * Math.PI * radius) / spacing);
  return Array.from({ length: count + 1 }, (_, k) => {
    const r = radius + (k % 2 === 0 ? width / 2 : -width / 2);
    const a = (2 * Math.PI * k) / count;
    return vec(r * Math.cos(a), r * Math.sin(a));
  });
}

/** Running stitches round a ring, `times` over. */
export function ringRun(radius: number, stitch: number, times = 1): Vec[] {
  const count = Math.round((2 * Math.PI * radius) / stitch);
  return Array.from({ length: count * times + 1 }, (_, k) => {
    const a = (2 * Math.PI * k) / count;
    return vec(radius * Math.cos(a), radius * Math.sin(a));
  });
}

/** A blanket edge along x: steps on, and a prong out to the side and back at each. */
export function blanket(steps: number, step: number, prong: number): Vec[] {
  return Array.from({ length: steps }, (_, k) => [
    vec(k * step, 0),
    vec(k * step, prong),
    vec(k * step, 0),
  ]).flat();
}
