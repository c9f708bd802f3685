import type { UnderlayKind } from '../../../lib/segment/objects.js';
import type { Pass } from '../column-underlay.js';
import { type Draft, type Needle, needles, plainDraft } from '../draft.js';
import { type LockSpec, lock, MORE_LOCK_STYLES } from '../locks.js';
import { type Case, type Move, Pen, type Transform } from '../pen.js';
import { distance, median, stitchAlong, type Vec } from '../plane.js';
import { Random } from '../random.js';

/** How production files come to be on the machine: sized anew, turned, mirrored, with the noise of a machine. */
export function sizedAnew(random: Random): Transform {
  return {
    scale: random.chance(0.4) ? random.range(0.8, 1.2) : 1,
    mirror: random.chance(0.25),
    degrees: random.chance(0.5) ? random.range(0, 360) : random.pick([0, 0, 0, 90, 180, 270]),
    dx: random.range(-40, 40),
    dy: random.range(-40, 40),
    jitter: random.chance(0.25) ? 0.05 : 0,
  };
}

/** `narrow`: width of the narrowest column, beside whose swings tiny stitches must stay tiny. */
export function someLocks(random: Random, narrow = 99): LockSpec {
  return {
    style: random.pick(MORE_LOCK_STYLES),
    size: random.range(0.35, Math.max(0.4, Math.min(0.7, narrow * 0.5))),
    count: random.int(2, 4),
    turn: random.chance(0.6) ? 0 : random.pick([Math.PI / 2, -Math.PI / 2, Math.PI]),
    start: random.chance(0.9),
    end: random.chance(0.9),
  };
}

/** A stretch of one draft or of one piece of underlay on its way to the pen, and the move to it. */
interface Stretch {
  owner: number;
  piece: number;
  needles: Needle[];
  move: Move;
  /** How this thread would be tied. */
  locks: LockSpec;
}

/**
 * Sews drafts and pieces of underlay in any order, as a digitizer would: sewn on where the next thread begins near by, else
 * cut, and tied at both ends of every thread.
 */
export class Job {
  readonly pen = new Pen();
  readonly random: Random;
  private readonly stretches: Stretch[] = [];

  constructor(
    readonly family: string,
    readonly seed: number,
    /** Longest way that is sewn on without a cut, mm. */
    public reach = 3,
    public locks: LockSpec = someLocks(new Random(seed, 'job locks')),
  ) {
    this.random = new Random(seed, family);
  }

  /** Where the thread stands. */
  get at(): Vec | null {
    return this.stretches.at(-1)?.needles.at(-1) ?? null;
  }

  private move(points: readonly Needle[], wish: Move | null): Move {
    if (!this.at) return 'straight';
    return wish ?? (distance(this.at, points[0]) <= this.reach ? 'straight' : 'trim');
  }

  /** Takes up a draft to be sewn later; gives its number. */
  plan(draft: Draft): number {
    return this.pen.reserve(draft);
  }

  /** Sews a draft, or the one taken up under `owner`; without a `move` it is sewn on if near, else cut. */
  sew(what: Draft | number, move: Move | null = null): number {
    const owner = typeof what === 'number' ? what : this.plan(what);
    const { needles } = this.pen.drafts[owner];
    this.stretches.push({ owner, piece: -1, needles, move: this.move(needles, move), locks: this.locks });
    return owner;
  }

  /** Sews part of a draft that is made of several stretches. */
  part(owner: number, points: Needle[], move: Move | null = null): void {
    this.stretches.push({
      owner,
      piece: -1,
      needles: points,
      move: this.move(points, move),
      locks: this.locks,
    });
  }

  /** Sews one piece of underlay that lies under the drafts `serves`. */
  under(
    kinds: readonly UnderlayKind[],
    points: readonly Vec[],
    serves: readonly number[],
    move: Move | null = null,
  ): number {
    const piece = this.pen.piece(kinds, serves);
    this.more(piece, points, move);
    return piece;
  }

  /** Sews another stretch of a piece of underlay. */
  more(piece: number, points: readonly Vec[], move: Move | null = null): void {
    const own = needles(points, 'underlay');
    this.stretches.push({ owner: -1, piece, needles: own, move: this.move(own, move), locks: this.locks });
  }

  /** Sews passes of underlay that were laid for one draft as one piece. */
  passes(of: readonly Pass[], owner: number, move: Move | null = null): void {
    if (of.length > 0)
      this.under(
        of.map((p) => p.kind),
        of.flatMap((p) => p.points),
        [owner],
        move,
      );
  }

  /** Runs along a line to where something is sewn next, hidden beneath what comes later. */
  travel(to: Vec, stitch = 2.5): void {
    const last = this.stretches.at(-1);
    if (!last || !this.at || distance(this.at, to) < stitch * 0.6) return;
    const way = stitchAlong([this.at, to], stitch).slice(1, -1);
    last.needles.push(...needles(way, 'travel'));
  }

  /** `grid`: what the program that wrote the file rounds to before anything is sized anew, mm. */
  finish(note: string, transform: Transform = sizedAnew(this.random), grid = 0): Case {
    this.tie();
    if (grid > 0) this.round(grid);
    const sewn = new Set<number>();
    for (const { owner, piece, needles, move } of this.stretches) {
      if (piece >= 0) this.pen.under(piece, needles, move);
      else this.pen.needles(owner, needles, move);
      sewn.add(owner);
    }
    return this.pen.finish(
      this.family,
      this.seed,
      `${note}; locks ${this.locks.style} ${this.locks.size.toFixed(2)}${this.locks.start ? ' start' : ''}${this.locks.end ? ' end' : ''}; ${this.pen.drafts.map((d) => d.note).join(' | ')}`,
      transform,
      this.random,
    );
  }

  /** Rounds every point; a column is as wide as a ruler finds it afterward. */
  private round(grid: number): void {
    const to = (v: number) => Math.round(v / grid) * grid;
    for (const { owner, needles } of this.stretches) {
      const rails = needles.filter((p) => p.rail);
      const before = swing(rails);
      for (const p of needles) Object.assign(p, { x: to(p.x), y: to(p.y) });
      const draft = this.pen.drafts[owner];
      if (rails.length > 1 && draft?.widthMm) draft.widthMm += swing(rails) - before;
    }
  }

  /** Puts tiny stitches at both ends of every thread, and notes them with the draft whose own end it is. */
  private tie(): void {
    this.stretches.forEach((s, i) => {
      const cutBefore = i === 0 || this.stretches[i].move !== 'straight';
      const next = this.stretches[i + 1];
      const cutAfter = next?.move !== 'straight';
      const tied = lock(
        { ...plainDraft('run', []), needles: s.needles },
        {
          ...s.locks,
          start: s.locks.start && cutBefore,
          end: s.locks.end && cutAfter,
        },
      );
      s.needles = tied.needles;
      const draft = s.owner >= 0 ? this.pen.drafts[s.owner] : null;
      if (!draft) {
        this.openStart(i, cutBefore && tied.locks.start);
        return;
      }
      const firstOfIts = this.stretches.findIndex((o) => o.owner === s.owner) === i;
      const lastOfIts = !this.stretches.slice(i + 1).some((o) => o.owner === s.owner);
      if (firstOfIts) draft.locks.start = tied.locks.start;
      if (lastOfIts) draft.locks.end = tied.locks.end;
    });
  }

  /** Where a thread begins with underlay and the top that it serves is sewn straight on, whose start that is stays open. */
  private openStart(i: number, locked: boolean): void {
    const next = this.stretches[i + 1];
    if (!locked || !next || next.owner < 0 || next.move !== 'straight') return;
    const draft = this.pen.drafts[next.owner];
    draft.open = { ...draft.open, lockStart: true };
  }
}

/** The middle length of the swings between ends. */
const swing = (rails: readonly Vec[]): number =>
  rails.length > 1 ? median(rails.slice(1).map((p, i) => distance(p, rails[i]))) : 0;
