/** New underlay under some columns, as a change to the records of their design. */
import { distance } from '../core/distance.js';
import { type Design, Kind } from '../format/design.js';
import { UNITS_PER_MM } from '../format/dst-record.js';
import { legsOf } from '../format/record-writer.js';
import { Break, type Stitches } from '../format/stitches.js';
import type { StitchObject, StitchRange } from '../segment/objects.js';
import { findThreads } from '../segment/threads.js';
import {
  type LayWay,
  LEAST_STITCH_MM,
  LONGER,
  type NeedlePoint,
  ThreadUnder,
} from '../stitch/thread-under.js';
import { underlayTakenOut } from '../stitch/underlay-taken-out.js';
import { editDesign, type NewRecord, needleAt, type Splice } from './edit-design.js';

/** Why a column cannot be relaid in some way. */
export type Refusal = 'no-room' | 'shows' | 'float' | 'stitch-length';

export interface RelayEdit {
  readonly design: Design;
  /** Where each stitch of the design before has gone, −1 for those that were taken out. */
  readonly movedTo: Int32Array;
  /** New stitches by object id, as stitch indexes of the new design. */
  readonly laid: ReadonlyMap<number, StitchRange>;
  /** Stitches before an object's top stitching that go with it, by its id. */
  readonly leading: ReadonlyMap<number, number>;
  /** Where this is not empty the design is not to be used. */
  readonly refused: ReadonlyMap<number, Refusal>;
}

/** Thread that went so far already may go this much farther, mm: new underlay begins and ends an inset away from the old. */
const FARTHER_MM = 2;

/** What is to be relaid, and in what way. */
export function relayEdit(
  design: Design,
  stitches: Stitches,
  objects: readonly StitchObject[],
  ways: ReadonlyMap<number, LayWay>,
): RelayEdit {
  return new RelaySplicer(design, stitches, objects, ways).edit();
}

/** Dropped stitches of one object, sewn in one go. */
interface DroppedPiece {
  readonly id: number;
  readonly first: number;
  readonly last: number;
}

class RelaySplicer {
  private readonly owner: Int32Array;
  /** Columns by the needle point at which their top stitching begins. */
  private readonly tops: ReadonlyMap<number, StitchObject>;
  /** Last points of the locks at thread starts. */
  private readonly lockEnds: ReadonlySet<number>;
  private readonly under = new Map<number, ThreadUnder>();
  private readonly splices: Splice[] = [];
  private readonly movedTo: Int32Array;
  private readonly laid = new Map<number, StitchRange>();
  private readonly refused = new Map<number, Refusal>();
  private sewn = 0;

  constructor(
    private readonly design: Design,
    private readonly stitches: Stitches,
    objects: readonly StitchObject[],
    private readonly ways: ReadonlyMap<number, LayWay>,
  ) {
    const chosen = objects.filter(({ id }) => ways.has(id));
    this.owner = underlayTakenOut(stitches, objects, ({ id }) => ways.has(id));
    this.lockEnds = new Set(
      findThreads(stitches).flatMap(({ lockedStart, bodyFirst }) => (lockedStart ? [bodyFirst] : [])),
    );
    for (const object of chosen) {
      this.under.set(object.id, new ThreadUnder(stitches, object, ways.get(object.id)!));
    }
    this.tops = new Map(chosen.map((object) => [this.leaveWhatShows(object), object]));
    this.movedTo = new Int32Array(stitches.count).fill(-1);
  }

  /**
   * Stitches at the ends of an underlay that lie beside its column are travel, or belong to what lies there: they stay. Those at its last end go with the top stitching: returns where that begins.
   */
  private leaveWhatShows({ id, range, underlay }: StitchObject): number {
    if (underlay.range === null) return range[0];
    const { owner } = this;
    const { breakBefore, count } = this.stitches;
    const under = this.under.get(id)!;
    // where the thread is cut a lock may reach out
    const stays = (i: number, before: number) =>
      owner[i] === id &&
      !(before >= count || breakBefore[before] >= Break.trim) &&
      !under.isUnder(this.point(i));
    let [first, last] = underlay.range;
    while (first <= last && stays(first, first)) owner[first++] = 0;
    while (last >= first && stays(last, last + 1)) owner[last--] = 0;
    return underlay.range[1] + 1 === range[0] ? last + 1 : range[0];
  }

  edit(): RelayEdit {
    const { count } = this.stitches;
    let before = -1;
    for (let i = 0; i < count; i++) {
      if (this.owner[i] > 0) continue;
      if (i > before + 1 || this.tops.has(i)) this.bridge(before, i);
      this.movedTo[i] = this.sewn++;
      before = i;
    }
    const { movedTo, laid, refused } = this;
    const leading = new Map([...this.tops].map(([first, { id, range }]) => [id, range[0] - first]));
    return { design: editDesign(this.design, this.splices), movedTo, laid, leading, refused };
  }

  private point(i: number): NeedlePoint {
    return [this.stitches.x[i], this.stitches.y[i]];
  }

  /** Puts new stitches, or none, between two that stay. */
  private bridge(before: number, next: number): void {
    const { breakBefore } = this.stitches;
    let begin = next;
    while (begin > before + 1 && breakBefore[begin] < Break.trim) begin--;
    const cut = breakBefore[begin] >= Break.trim;
    const top = this.tops.get(next);
    const pieces = this.piecesOf(begin, next);
    const own = top && pieces[pieces.length - 1]?.id === top.id ? pieces.pop() : undefined;
    let at = cut ? null : this.point(before);
    const sewn: NeedlePoint[] = [];
    if (top && at && this.lockEnds.has(next)) {
      // the lock ends on the first top stitch: it gets that end for itself
      at = this.point(next);
      sewn.push(at);
    } else if (top && at && pieces.length === 0 && !this.under.get(top.id)!.isUnder(at)) {
      // thread that comes in from beside the column is seen: it goes where it went
      at = this.point(begin);
      sewn.push(at);
    }
    pieces.forEach((piece, k) => {
      if (at === null) return;
      const goal = this.point(pieces[k + 1]?.first ?? own?.first ?? next);
      const way = this.carry(piece, at, goal);
      sewn.push(...way);
      at = sewn[sewn.length - 1] ?? at;
    });
    if (top) {
      const enters = this.point(own?.first ?? next);
      const { points, laid } = this.under.get(top.id)!.underlay(at, enters);
      if (laid !== this.ways.get(top.id)!.to || points.length === 0) this.refused.set(top.id, 'no-room');
      else {
        this.laid.set(top.id, [this.sewn + sewn.length, this.sewn + sewn.length + points.length - 1]);
        if (!points.every((point) => this.under.get(top.id)!.keepsInset(point)))
          this.refused.set(top.id, 'shows');
        this.checkStitches(top.id, points);
        sewn.push(...points);
      }
    }
    this.checkFloats(before, begin, next, cut, sewn, top ? top.id : pieces[pieces.length - 1]?.id);
    this.splice(before, next, cut, sewn);
    this.sewn += sewn.length;
  }

  private piecesOf(begin: number, next: number): DroppedPiece[] {
    const pieces: DroppedPiece[] = [];
    for (let i = begin; i < next; i++) {
      const id = this.owner[i];
      const open = pieces[pieces.length - 1];
      if (open?.id === id) pieces[pieces.length - 1] = { ...open, last: i };
      else pieces.push({ id, first: i, last: i });
    }
    return pieces;
  }

  /** Travel where underlay that goes had carried the thread; none where it is near enough anyway. */
  private carry({ id, first, last }: DroppedPiece, at: NeedlePoint, goal: NeedlePoint): NeedlePoint[] {
    const { settings } = this.ways.get(id)!;
    if (distance(...at, ...goal) <= settings.fillStitchMm) return [];
    return this.under.get(id)!.travel(at, this.point(first), this.point(last), goal);
  }

  private checkStitches(id: number, points: readonly NeedlePoint[]): void {
    const longest = LONGER * this.under.get(id)!.longestMm;
    for (let k = 1; k < points.length; k++) {
      const length = distance(...points[k - 1], ...points[k]);
      if (length < LEAST_STITCH_MM - 1e-9 || length > longest + 1e-9) this.refused.set(id, 'stitch-length');
    }
  }

  /** No stitch into the new ones or out of them may be longer than those that were there, but for a little. */
  private checkFloats(
    before: number,
    begin: number,
    next: number,
    cut: boolean,
    sewn: readonly NeedlePoint[],
    id: number | undefined,
  ): void {
    if (id === undefined) return;
    const { settings } = this.ways.get(id)!;
    const under = this.under.get(id)!;
    const goal = this.point(next);
    const farther = (from: NeedlePoint, to: NeedlePoint, was: number) => {
      const hidden = under.isUnder(from) && (to === goal ? this.tops.has(next) : under.isUnder(to));
      const most = hidden ? settings.swingMm : LONGER * settings.fillStitchMm;
      return distance(...from, ...to) > Math.max(most, was + FARTHER_MM);
    };
    const was = (a: number, b: number) => distance(...this.point(a), ...this.point(b));
    const into = sewn[0] ?? goal;
    const float =
      (!cut && farther(this.point(before), into, was(before, begin))) ||
      (sewn.length > 0 && farther(sewn[sewn.length - 1], goal, begin < next ? was(next - 1, next) : 0));
    if (float) this.refused.set(id, 'float');
  }

  private splice(before: number, next: number, cut: boolean, sewn: readonly NeedlePoint[]): void {
    const { record } = this.stitches;
    const at = before < 0 ? 0 : record[before] + 1;
    const drop = record[next] - at;
    const goal = sewn[0] ?? this.point(next);
    const put = cut ? this.movesTo(at, record[next], goal) : this.pauses(at, record[next]);
    let from = cut ? goal : this.point(before);
    for (const to of [...sewn, this.point(next)]) {
      put.push(...jumpsOnTheWay(from, to));
      from = to;
      put.push(needleAt(...to));
    }
    put.pop();
    this.splices.push({ at, drop, put });
  }

  /** Stops between two needle points without a cut: where the needle was. */
  private pauses(at: number, end: number): NewRecord[] {
    const { kind, x, y } = this.design;
    const put: NewRecord[] = [];
    for (let r = at; r < end; r++) {
      if (kind[r] === Kind.stop) put.push({ kind: Kind.stop, x: x[at - 1], y: y[at - 1] });
    }
    return put;
  }

  /**
   * What is no stitch among some records, so that it leads to `goal`: of the moves between two needle points that stay, colour changes
   * or stops, the first, as a trim if any of them was one.
   */
  private movesTo(at: number, end: number, goal: NeedlePoint): NewRecord[] {
    const { kind, x, y } = this.design;
    const put: NewRecord[] = [];
    let moves: { jumps: number; trim: boolean } | null = null;
    let open = true;
    let place: NeedlePoint = at > 0 ? [x[at - 1], y[at - 1]] : [0, 0];
    const move = (to: NeedlePoint) => {
      if (moves?.trim) put.push({ kind: Kind.trim, x: to[0], y: to[1] });
      else if (moves) {
        for (let k = 1; k <= moves.jumps; k++) {
          const [px, py] = between(place, to, k / moves.jumps);
          put.push({ kind: Kind.jump, x: px, y: py });
        }
      }
      if (moves) place = to;
      moves = null;
      open = true;
    };
    for (let r = at; r < end; r++) {
      switch (kind[r]) {
        case Kind.stitch:
          if (moves) open = false;
          break;
        case Kind.trim:
          moves = { jumps: 0, trim: true };
          break;
        case Kind.jump:
          moves ??= { jumps: 0, trim: false };
          if (open) moves.jumps++;
          break;
        default: {
          const moved = x[r] !== x[r - 1] || y[r] !== y[r - 1];
          const to: NeedlePoint = moved || moves ? [x[r], y[r]] : place;
          move(to);
          put.push({ kind: kind[r] as NewRecord['kind'], x: to[0], y: to[1] });
          place = to;
        }
      }
    }
    move(goal);
    return put;
  }
}

/** Jumps by which a file makes a stitch that is too long for one record. */
function jumpsOnTheWay(from: NeedlePoint, to: NeedlePoint): NewRecord[] {
  const units = (a: number, b: number) => Math.round(b * UNITS_PER_MM) - Math.round(a * UNITS_PER_MM);
  const legs = legsOf(units(from[0], to[0]), units(from[1], to[1]));
  return Array.from({ length: Math.max(0, legs - 1) }, (_, k) => {
    const [x, y] = between(from, to, (k + 1) / legs);
    return { kind: Kind.jump, x, y };
  });
}

const between = (a: NeedlePoint, b: NeedlePoint, share: number): NeedlePoint => [
  Math.round((a[0] + (b[0] - a[0]) * share) * UNITS_PER_MM) / UNITS_PER_MM,
  Math.round((a[1] + (b[1] - a[1]) * share) * UNITS_PER_MM) / UNITS_PER_MM,
];
