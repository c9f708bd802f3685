import { type Design, Kind } from '../../lib/format/design.js';
import type { ObjectKind, StitchRange, UnderlayKind } from '../../lib/segment/objects.js';
import { meanAxis } from './axis.js';
import type { Draft, Needle, Open, Pattern, Purpose, Role } from './draft.js';
import { radians, turned, type Vec, vec } from './plane.js';
import type { Random } from './random.js';

/** What is true of one object of a generated design. */
export interface TruthObject {
  kind: Draft['kind'];
  block: number;
  /** Top stitching, locks left out. */
  range: StitchRange;
  widthMm: number | null;
  wideMm: number | null;
  spacingMm: number | null;
  angleDeg: number | null;
  angleOpen: boolean;
  /** Kinds and range of the piece that is its own, or else of the one that it shares. */
  underlay: { kinds: UnderlayKind[]; range: StitchRange | null };
  /** All pieces that lie under it, as indices into the design's. */
  pieces: number[];
  split: boolean;
  locks: { start: boolean; end: boolean };
  alsoKinds: readonly ObjectKind[];
  purposes: readonly Purpose[];
  patterns: readonly (Pattern | null)[];
  passes: readonly number[];
  foam: boolean;
  open: Open;
  note: string;
}

/** One piece of underlay and the objects that lie on it. */
export interface TruthUnderlay {
  kinds: UnderlayKind[];
  range: StitchRange;
  serves: number[];
}

export interface Totals {
  stitches: number;
  jumps: number;
  trims: number;
  colourChanges: number;
  stops: number;
}

export interface Case {
  family: string;
  seed: number;
  note: string;
  design: Design;
  objects: TruthObject[];
  underlays: TruthUnderlay[];
  /** Height of its satin capitals, where it holds lettering whose height is known. */
  capMm: number | null;
  totals: Totals;
  /** Per needle penetration: index of its object (−1 for underlay of its own) and what it is for. */
  owner: Int32Array;
  role: Role[];
}

/** Applied to the whole design in this order: scale, mirror (x → −x), turn, move; then noise on every point. */
export interface Transform {
  scale: number;
  mirror: boolean;
  degrees: number;
  dx: number;
  dy: number;
  jitter: number;
}

export const STILL: Transform = { scale: 1, mirror: false, degrees: 0, dx: 0, dy: 0, jitter: 0 };

export function randomTransform(random: Random): Transform {
  return {
    scale: random.chance(0.3) ? random.range(0.94, 1.06) : 1,
    mirror: random.chance(0.3),
    degrees: random.chance(0.6) ? random.range(0, 360) : random.pick([0, 0, 90, 180, 270]),
    dx: random.range(-40, 40),
    dy: random.range(-40, 40),
    jitter: random.chance(0.35) ? 0.05 : 0,
  };
}

export type Move = 'straight' | 'jump' | 'trim' | 'colour' | 'stop';

interface Op extends Vec {
  what: Move | 'needle';
  owner: number;
  piece: number;
  role: Role;
  rail: boolean;
}

/** The longest move of one record of the three-byte format, mm. */
const LONGEST = 12.1;

/** Collects drafts in sewing order and the moves between them, and turns them into a design and its truth. */
export class Pen {
  private readonly ops: Op[] = [];
  readonly drafts: Draft[] = [];
  /** Pieces of underlay that are no draft's own. */
  private readonly pieces: { kinds: UnderlayKind[]; serves: number[] }[] = [];
  /** Height of the satin capitals before any transform. */
  capMm: number | null = null;

  /** Sews a whole object. */
  sew(draft: Draft, move: Move = this.ops.length ? 'trim' : 'straight'): number {
    const owner = this.reserve(draft);
    this.needles(owner, draft.needles, move);
    return owner;
  }

  /** Takes an object up without sewing it, for those of which parts are sewn before others. */
  reserve(draft: Draft): number {
    this.drafts.push(draft);
    return this.drafts.length - 1;
  }

  /** Takes up a piece of underlay that lies under the drafts `serves`, sewn when its maker likes. */
  piece(kinds: readonly UnderlayKind[], serves: readonly number[]): number {
    this.pieces.push({ kinds: [...new Set(kinds)], serves: [...serves] });
    return this.pieces.length - 1;
  }

  /** Sews points of such a piece. */
  under(piece: number, points: readonly Needle[], move: Move = 'straight'): void {
    this.lay(-1, piece, points, move);
  }

  needles(owner: number, points: readonly Needle[], move: Move = 'straight'): void {
    this.lay(owner, -1, points, move);
  }

  private lay(owner: number, piece: number, points: readonly Needle[], move: Move): void {
    if (move !== 'straight')
      this.ops.push({ what: move, x: 0, y: 0, owner: -1, piece: -1, role: 'travel', rail: false });
    for (const p of points)
      this.ops.push({ what: 'needle', x: p.x, y: p.y, owner, piece, role: p.role, rail: p.rail === true });
  }

  /** Where the needle stands. */
  get at(): Vec {
    for (let i = this.ops.length - 1; i >= 0; i--) if (this.ops[i].what === 'needle') return this.ops[i];
    return vec(0, 0);
  }

  finish(family: string, seed: number, note: string, t: Transform, random: Random): Case {
    const x: number[] = [];
    const y: number[] = [];
    const kind: number[] = [];
    const owner: number[] = [];
    const piece: number[] = [];
    const role: Role[] = [];
    /** Ends of swings by object, where they come to lie. */
    const rails: Vec[][] = this.drafts.map(() => []);
    const map = (p: Vec): Vec => {
      const q = turned(vec(p.x * t.scale * (t.mirror ? -1 : 1), p.y * t.scale), radians(t.degrees));
      const n = () => (t.jitter ? random.range(-t.jitter, t.jitter) : 0);
      return vec(Math.round((q.x + t.dx + n()) * 10) / 10, Math.round((q.y + t.dy + n()) * 10) / 10);
    };
    const greedy = random.chance(0.5);
    const trimFirst = random.chance(0.5);
    let cx = 0;
    let cy = 0;
    const record = (px: number, py: number, k: number) => {
      x.push(px);
      y.push(py);
      kind.push(k);
      cx = px;
      cy = py;
    };
    /** Jump records toward a place as long as one more record could not reach it. */
    const jumps = (p: Vec, all: boolean) => {
      const far = () => Math.max(Math.abs(p.x - cx), Math.abs(p.y - cy));
      let n = Math.ceil(far() / LONGEST - 1e-9);
      for (; n > 1 || (all && n > 0); n--) {
        const f = greedy && n > 1 ? Math.min(1, LONGEST / far()) : 1 / n;
        record(
          Math.round((cx + (p.x - cx) * f) * 10) / 10,
          Math.round((cy + (p.y - cy) * f) * 10) / 10,
          Kind.jump,
        );
      }
    };
    let pending: Move | null = null;
    let fresh = true;
    let blocks = 1;
    const blockOf: number[] = [];
    for (const op of this.ops) {
      if (op.what !== 'needle') {
        pending = op.what as Move;
        continue;
      }
      const p = map(op);
      if (pending === 'trim') record(p.x, p.y, Kind.trim);
      else if (pending === 'colour') {
        blocks++;
        if (trimFirst) {
          record(p.x, p.y, Kind.trim);
          record(p.x, p.y, Kind.colour);
        } else {
          record(cx, cy, Kind.colour);
          jumps(p, true);
        }
      } else if (pending === 'stop') {
        record(cx, cy, Kind.stop);
        jumps(p, true);
      } else if (pending === 'jump' || fresh) jumps(p, true);
      else jumps(p, false);
      // A needle point that falls on the one before it after rounding would not be in a file.
      if (
        !pending &&
        !fresh &&
        op.role !== 'lock' &&
        p.x === cx &&
        p.y === cy &&
        kind[kind.length - 1] === Kind.stitch
      )
        continue;
      record(p.x, p.y, Kind.stitch);
      owner.push(op.owner);
      piece.push(op.piece);
      role.push(op.role);
      if (op.rail) rails[op.owner].push(p);
      if (op.owner >= 0 && (blockOf[op.owner] === undefined || op.role === 'top')) blockOf[op.owner] = blocks;
      pending = null;
      fresh = false;
    }
    if (random.chance(0.95)) record(cx, cy, Kind.end);
    const count = (k: number) => kind.filter((v) => v === k).length;
    return {
      family,
      seed,
      note,
      design: {
        x: Float64Array.from(x),
        y: Float64Array.from(y),
        kind: Uint8Array.from(kind),
        thread: null,
        header: [],
        diagnostics: [],
        format: 'dst',
      },
      ...this.truth(owner, piece, role, blockOf, rails, t),
      capMm: this.capMm === null ? null : this.capMm * t.scale,
      totals: {
        stitches: count(Kind.stitch),
        jumps: count(Kind.jump),
        trims: count(Kind.trim),
        colourChanges: count(Kind.colour),
        stops: count(Kind.stop),
      },
      owner: Int32Array.from(owner),
      role,
    };
  }

  private truth(
    owner: number[],
    piece: number[],
    role: Role[],
    blockOf: number[],
    rails: Vec[][],
    t: Transform,
  ): { objects: TruthObject[]; underlays: TruthUnderlay[] } {
    const axis = (degrees: number): number => {
      const d = (t.mirror ? -degrees : degrees) + t.degrees;
      return ((d % 180) + 180) % 180;
    };
    const found = this.drafts.map((d, i) => ({
      kind: d.kind,
      block: blockOf[i],
      range: span((k) => owner[k] === i && role[k] === 'top', owner.length) as StitchRange,
      widthMm: d.widthMm === null ? null : d.widthMm * t.scale,
      wideMm: d.widthMm === null ? null : (d.wideMm ?? d.widthMm) * t.scale,
      spacingMm: d.spacingMm === null ? null : d.spacingMm * t.scale,
      ...(d.kind === 'satin'
        ? meanAxis(rails[i].slice(1).map((p, k) => vec(p.x - rails[i][k].x, p.y - rails[i][k].y)))
        : { angleDeg: d.angleDeg === null ? null : axis(d.angleDeg), angleOpen: false }),
      underlay: {
        kinds: [...new Set(d.underlay)],
        range: span((k) => owner[k] === i && role[k] === 'underlay', owner.length),
      },
      pieces: [] as number[],
      split: d.split,
      locks: { ...d.locks },
      alsoKinds: d.alsoKinds ?? [],
      purposes: d.purposes ?? (['top'] as const),
      patterns: d.patterns ?? (d.kind === 'fill' ? (['rows'] as const) : [null]),
      passes: d.passes ?? [1],
      foam: d.foam ?? false,
      open: { ...d.open },
      note: d.note,
    }));
    const order = found.map((_, i) => i).sort((a, b) => found[a].range[0] - found[b].range[0]);
    const rank = order.map((_, i) => order.indexOf(i));
    const underlays: TruthUnderlay[] = [];
    found.forEach((o, i) => {
      if (o.underlay.range)
        underlays.push({ kinds: o.underlay.kinds, range: o.underlay.range, serves: [rank[i]] });
    });
    this.pieces.forEach(({ kinds, serves }, p) => {
      const range = span((k) => piece[k] === p && role[k] === 'underlay', owner.length) as StitchRange;
      underlays.push({ kinds, range, serves: serves.map((i) => rank[i]).sort((a, b) => a - b) });
    });
    underlays.sort((a, b) => a.range[0] - b.range[0]);
    const objects: TruthObject[] = order.map((i) => found[i]);
    underlays.forEach(({ kinds, range, serves }, u) => {
      for (const o of serves) {
        objects[o].pieces.push(u);
        // What lies under it alone comes before what it shares.
        const own = objects[o].underlay;
        if (!own.range || serves.length === 1) objects[o].underlay = { kinds: [...kinds], range };
      }
    });
    for (let i = 0; i < owner.length; i++) if (owner[i] >= 0) owner[i] = rank[owner[i]];
    return { objects, underlays };
  }
}

/** First and last stitch of those that are meant. */
function span(meant: (stitch: number) => boolean, count: number): StitchRange | null {
  let first = -1;
  let last = -1;
  for (let i = 0; i < count; i++)
    if (meant(i)) {
      if (first < 0) first = i;
      last = i;
    }
  return first < 0 ? null : [first, last];
}
