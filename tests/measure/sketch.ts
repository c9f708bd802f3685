/** Hand-made designs whose objects are told, not found: what is measured here does not hang on the object finder. */

import { type Design, Kind } from '../../lib/format/design.js';
import type { Diagnostic } from '../../lib/format/diagnostic.js';
import { penetrations, type Stitches } from '../../lib/format/stitches.js';
import {
  NO_UNDERLAY,
  PLAINLY_TOP,
  type StitchObject,
  type Underlay,
  type UnderlayKind,
} from '../../lib/segment/objects.js';

export type Vec = readonly [x: number, y: number];

export interface Turn {
  degrees: number;
  dx: number;
  dy: number;
  mirror: boolean;
}

type Told = Partial<
  Pick<StitchObject, 'group' | 'block' | 'locks' | 'purpose' | 'overPiece' | 'foam' | 'confidence'>
>;

export class Sketch {
  private readonly x: number[] = [];
  private readonly y: number[] = [];
  private readonly kind: number[] = [];
  readonly objects: StitchObject[] = [];
  readonly diagnostics: Diagnostic[] = [];
  private stitches = 0;

  /** @param grid places are rounded to this, mm; 0 leaves them as they are */
  constructor(
    private readonly grid = 0,
    private readonly turn: Turn = { degrees: 0, dx: 0, dy: 0, mirror: false },
  ) {}

  private record([px, py]: Vec, kind: number): this {
    const a = (this.turn.degrees * Math.PI) / 180;
    const mx = this.turn.mirror ? -px : px;
    const place = [
      mx * Math.cos(a) - py * Math.sin(a) + this.turn.dx,
      mx * Math.sin(a) + py * Math.cos(a) + this.turn.dy,
    ].map((v) => (this.grid > 0 ? Math.round(v / this.grid) * this.grid : v));
    this.x.push(place[0]);
    this.y.push(place[1]);
    this.kind.push(kind);
    if (kind === Kind.stitch) this.stitches++;
    return this;
  }

  sew(...points: Vec[]): this {
    for (const p of points) this.record(p, Kind.stitch);
    return this;
  }

  jump(...points: Vec[]): this {
    for (const p of points) this.record(p, Kind.jump);
    return this;
  }

  /** Trims, or changes colour, on the way to a place. */
  cut(to: Vec, kind: 'trim' | 'colour' | 'stop' = 'trim'): this {
    return this.record(to, Kind[kind]);
  }

  private add(
    kind: StitchObject['kind'],
    first: number,
    from: number[],
    to: number[],
    told: Told & { split?: boolean; sections?: number[]; underlay?: Underlay } = {},
  ): this {
    this.objects.push({
      id: this.objects.length + 1,
      block: told.block ?? 1,
      group: told.group ?? this.objects.length + 1,
      kind,
      range: [first, this.stitches - 1],
      from: Int32Array.from(from),
      to: Int32Array.from(to),
      sections: Int32Array.from(told.sections ?? []),
      split: told.split ?? false,
      underlay: told.underlay ?? NO_UNDERLAY,
      locks: told.locks ?? { start: true, end: true },
      ...PLAINLY_TOP,
      purpose: told.purpose ?? 'top',
      overPiece: told.overPiece ?? false,
      foam: told.foam ?? false,
      confidence: told.confidence ?? 1,
    });
    return this;
  }

  /** A column through points that lie on its two rails in turn. */
  column(rails: readonly Vec[], told: Told & { underlay?: Underlay } = {}): this {
    const first = this.stitches;
    this.sew(...rails);
    const from = rails.slice(1).map((_, i) => first + i);
    return this.add(
      'satin',
      first,
      from,
      from.map((i) => i + 1),
      told,
    );
  }

  /** A straight column upward from `at`, its left rail there; `broken` puts a needle point into every swing. */
  satin(
    at: Vec,
    size: { width: number; length: number; spacing?: number; broken?: boolean },
    told: Told & { under?: UnderlayKind[] } = {},
  ): this {
    const { width, length, spacing = 0.4, broken = false } = size;
    const under = told.under ?? [];
    const start = this.stitches;
    if (under.length > 0) this.sew([at[0] + width / 2, at[1]], [at[0] + width / 2, at[1] + 2]);
    const underlay: Underlay = {
      id: under.length > 0 ? this.objects.length + 1 : null,
      kinds: under,
      range: under.length > 0 ? [start, this.stitches - 1] : null,
      stitches: this.stitches - start,
      spacingMm: null,
      also: [],
    };
    const swings = Math.round((2 * length) / spacing);
    const ends = Array.from(
      { length: swings + 1 },
      (_, i): Vec => [at[0] + (i % 2) * width, at[1] + (i * spacing) / 2],
    );
    if (!broken) return this.column(ends, { ...told, underlay });
    const first = this.stitches;
    const from: number[] = [];
    ends.forEach((end, i) => {
      if (i > 0) this.sew([at[0] + width / 2, at[1] + ((i - 0.5) * spacing) / 2]);
      this.sew(end);
      if (i < swings) from.push(first + 2 * i);
    });
    return this.add(
      'satin',
      first,
      from,
      from.map((i) => i + 2),
      { ...told, underlay, split: true },
    );
  }

  /**
   * Rows along x, sewn there and back. Each row is given by its height and its two ends; a new section begins
   * wherever `sections` holds the number of a row.
   */
  rows(
    rows: readonly (readonly [y: number, left: number, right: number])[],
    how: { stitch?: number; sections?: number[]; stepInRow?: boolean } = {},
    told: Told = {},
  ): this {
    const { stitch = 3, sections = [0], stepInRow = false } = how;
    const first = this.stitches;
    const from: number[] = [];
    const to: number[] = [];
    rows.forEach(([y, left, right], r) => {
      const points: Vec[] = [[left, y]];
      // rows are offset against each other by a third of a stitch, as in a plain fill
      for (let x = left + stitch * (0.5 + (r % 3) / 3); x < right - 0.5; x += stitch) points.push([x, y]);
      points.push([right, y]);
      if (r % 2 === 1) points.reverse();
      from.push(this.stitches);
      this.sew(...points);
      to.push(this.stitches - 1);
    });
    // some finders count the step over to the next row to the row before it
    if (stepInRow) for (let r = 0; r + 1 < to.length; r++) to[r] = from[r + 1];
    return this.add('fill', first, from, to, { ...told, sections });
  }

  run(points: readonly Vec[], told: Told = {}): this {
    const first = this.stitches;
    return this.sew(...points).add('run', first, [], [], told);
  }

  design(): Design {
    return {
      x: Float64Array.from(this.x),
      y: Float64Array.from(this.y),
      kind: Uint8Array.from(this.kind),
      thread: null,
      header: [],
      diagnostics: this.diagnostics,
      format: 'dst',
    };
  }

  penetrations(): Stitches {
    return penetrations(this.design());
  }
}

/** Rows of a shape: at each height from its left end to its right one, `spacing` apart. */
export function rowsOf(
  spacing: number,
  height: number,
  ends: (y: number) => readonly [left: number, right: number],
): [number, number, number][] {
  const count = Math.floor(height / spacing + 1e-9) + 1;
  return Array.from({ length: count }, (_, r) => {
    const y = r * spacing;
    const [left, right] = ends(y);
    return [y, left, right];
  });
}
