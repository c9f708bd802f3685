import { type Design, Kind, type KindCode } from '../../lib/format/design.js';
import { distance, type Point, toward } from './plane.js';
import { Part, type PartCode, type Plan, type TrueObject } from './truth.js';

/** A stitch shorter than this is left out, unless it locks. */
const SHORTEST_MM = 0.5;
/** Longest move of one record, mm, along each axis. */
const REACH_MM = 12.1;

interface Piece {
  readonly plan: Plan;
  readonly block: number;
  readonly group: number;
  readonly thread: number;
}

/**
 * The needle: takes penetrations one after another, sets them on the 0.1 mm grid of the file and writes down what each was sewn
 * for, so that the true outcome is known without reading the design back.
 */
export class Sewing {
  readonly #x: number[] = [];
  readonly #y: number[] = [];
  readonly #kind: KindCode[] = [];
  /** One entry a penetration: its part, the piece it belongs to (-1: none) and the stretch of thread between two cuts. */
  readonly #part: PartCode[] = [];
  readonly #piece: number[] = [];
  readonly #threads: number[] = [];
  readonly #pieces: Piece[] = [];
  readonly #careless: boolean;
  #at: Point = { x: 0, y: 0 };
  #before: Point = { x: 0, y: 0 };
  #block = 1;
  #group = 1;
  #thread = 0;
  #colourDue = false;

  /** `careless` sews what a good digitizer would not: stitches of any shortness. */
  constructor(careless = false) {
    this.#careless = careless;
  }

  get needle(): Point {
    return this.#at;
  }

  get stitches(): number {
    return this.#part.length;
  }

  /** Objects opened so far. */
  get pieces(): number {
    return this.#pieces.length;
  }

  get started(): boolean {
    return this.#part.length > 0;
  }

  /** Room for the next piece; call before its underlay is sewn. */
  open(plan: Plan): number {
    this.#pieces.push({ plan, block: this.#block, group: this.#group, thread: this.#thread });
    return this.#pieces.length - 1;
  }

  /** One penetration; false where it was too near to the last one and was left out. */
  stitch(to: Point, part: PartCode, piece = -1): boolean {
    const p = { x: Math.round(to.x * 10) / 10, y: Math.round(to.y * 10) / 10 };
    const first = !this.started || this.#threads[this.#threads.length - 1] !== this.#thread;
    if (!first && part !== Part.lock && !this.#careless && distance(this.#at, p) < SHORTEST_MM - 1e-9)
      return false;
    if (Math.max(Math.abs(p.x - this.#at.x), Math.abs(p.y - this.#at.y)) > REACH_MM + 1e-9)
      throw new Error(`A stitch of ${distance(this.#at, p).toFixed(1)} mm is too long for one record.`);
    this.#record(p, Kind.stitch);
    this.#part.push(part);
    this.#piece.push(piece);
    this.#threads.push(this.#thread);
    return true;
  }

  sew(points: readonly Point[], part: PartCode, piece = -1): void {
    for (const p of points) this.stitch(p, part, piece);
  }

  /** Three tiny stitches at the needle, laid towards `into` so that what follows (or came before) hides them. */
  lock(into: Point): void {
    const home = this.#at;
    for (const reach of [0.8, 0.1, 0.7]) this.stitch(toward(home, into, reach), Part.lock);
  }

  /** Locks along the last stitch, where its own thread hides the tiny ones. */
  lockBack(): void {
    this.lock(this.#before);
  }

  /** Cuts the thread, if there is any, and starts a new one at `to` with a lock towards `into`. */
  begin(to: Point, into: Point, locked = true): void {
    const p = { x: Math.round(to.x * 10) / 10, y: Math.round(to.y * 10) / 10 };
    if (this.started) {
      this.#record(p, Kind.trim);
      if (this.#colourDue) this.#record(p, Kind.colour);
      this.#group++;
      this.#thread++;
    } else this.#jumps(p);
    if (this.#colourDue) this.#block++;
    this.#colourDue = false;
    this.stitch(p, locked ? Part.lock : Part.travel);
    if (locked) this.lock(into);
  }

  /** The next `begin` takes the next colour. */
  nextColour(): void {
    this.#colourDue = true;
  }

  /** Moves on without a cut, in as few jumps as it takes, and goes on sewing there: a fault. */
  dragTo(to: Point): void {
    this.#jumps(to);
    this.#group++;
  }

  #jumps(to: Point): void {
    const from = this.#at;
    const steps = Math.ceil(Math.max(Math.abs(to.x - from.x), Math.abs(to.y - from.y)) / REACH_MM - 1e-9);
    for (let i = 1; i <= steps; i++) {
      const part = (a: number, b: number): number => Math.round((a + ((b - a) * i) / steps) * 10) / 10;
      this.#record({ x: part(from.x, to.x), y: part(from.y, to.y) }, Kind.jump);
    }
  }

  #record(p: Point, kind: KindCode): void {
    this.#x.push(p.x);
    this.#y.push(p.y);
    this.#kind.push(kind);
    this.#before = this.#at;
    this.#at = p;
  }

  /** The finished design, its end record included; `label` goes into the header. */
  design(label: string): Design {
    return {
      x: Float64Array.from([...this.#x, this.#at.x]),
      y: Float64Array.from([...this.#y, this.#at.y]),
      kind: Uint8Array.from([...this.#kind, Kind.end]),
      thread: null,
      header: [{ key: 'LA', value: label, byte: 0 }],
      diagnostics: [],
      format: 'dst',
    };
  }

  /** Counts and the size of what is sewn, mm to 0.1. */
  figures(): { stitches: number; trims: number; colourChanges: number; widthMm: number; heightMm: number } {
    const count = (kind: KindCode): number => this.#kind.filter((k) => k === kind).length;
    const sewn = (positions: readonly number[]): number[] =>
      positions.filter((_, i) => this.#kind[i] === Kind.stitch);
    const extent = (values: readonly number[]): number =>
      Math.round((values.reduce((a, b) => Math.max(a, b)) - values.reduce((a, b) => Math.min(a, b))) * 10) /
      10;
    return {
      stitches: this.stitches,
      trims: count(Kind.trim),
      colourChanges: count(Kind.colour),
      widthMm: extent(sewn(this.#x)),
      heightMm: extent(sewn(this.#y)),
    };
  }

  /** One letter a penetration: `l`ock, `t`ravel, `u`nderlay or `s`titching that shows. */
  parts(): string {
    return this.#part.map((p) => 'ltus'[p]).join('');
  }

  /** The true objects, in sewing order. */
  objects(): TrueObject[] {
    return this.#pieces.map(({ plan, block, group, thread }, i) => {
      const top = this.#range(i, Part.top);
      const under = this.#range(i, Part.underlay);
      if (!top) throw new Error(`${plan.label} has no top stitching.`);
      const [first, last] = [under ? under[0] : top[0], top[1]];
      const sameThread = (k: number): boolean => this.#threads[k] === thread;
      const { underlay, underlaySpacingMm, ...rest } = plan;
      return {
        id: i + 1,
        block,
        group,
        ...rest,
        stitchRange: top,
        stitches: top[1] - top[0] + 1,
        underlay: {
          kinds: underlay,
          stitchRange: under,
          stitches: under ? under[1] - under[0] + 1 : 0,
          spacingMm: underlaySpacingMm,
        },
        locks: {
          start: first > 0 && sameThread(first - 1) && this.#lockBefore(first),
          end: this.#part[last + 1] === Part.lock && sameThread(last + 1),
        },
      };
    });
  }

  /** A lock ends right before `index`, or is parted from it by travel of the same thread alone. */
  #lockBefore(index: number): boolean {
    let k = index - 1;
    while (k >= 0 && this.#part[k] === Part.travel && this.#threads[k] === this.#threads[index]) k--;
    return k >= 0 && this.#part[k] === Part.lock && this.#threads[k] === this.#threads[index];
  }

  #range(piece: number, part: PartCode): [number, number] | null {
    let first = -1;
    let last = -1;
    for (let k = 0; k < this.#part.length; k++) {
      if (this.#piece[k] !== piece || this.#part[k] !== part) continue;
      if (first >= 0 && last !== k - 1)
        throw new Error(`${this.#pieces[piece].plan.label} is sewn in two goes.`);
      if (first < 0) first = k;
      last = k;
    }
    return first < 0 ? null : [first, last];
  }
}
