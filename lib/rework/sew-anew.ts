/** Puts a design together again from pieces that are laid anew, with everything that the machine does between them. */
import { distance } from '../core/distance.js';
import { type Design, Kind } from '../format/design.js';
import { penetrations, type Stitches } from '../format/stitches.js';
import type { StitchObject, StitchRange } from '../segment/objects.js';
import type { EnlargedDesign, LeftPart } from './enlargement.js';
import type { LaidRun } from './lay-run.js';
import type { LaidString } from './lay-string.js';
import { findPieces, type Piece } from './pieces.js';
import type { Place } from './rails.js';
import { findStrings, type StitchString } from './strings.js';

/** What stands at the place of a needle point stands within this of it, mm. */
const AT_MM = 0.15;
/** An object is laid anew if this share of its rows is. */
const MOST_OF_ROWS = 0.7;

/** How the pieces of a design are laid anew. */
export interface Layer {
  /** Whether the underlay is laid anew as well; else it stays, stitch by stitch. */
  readonly relaysUnderlay: boolean;
  /** The rows of a string; null leaves them to {@link path}, stitch by stitch. */
  string(string: StitchString, mayCross: boolean): LaidString | null;
  /** A stretch of running stitches, or of others that are in no string. Needle points that are `fixed` stay such. */
  path(path: Path): LaidRun;
  /** Where a place comes to lie that belongs to no piece. */
  carry(x: number, y: number): Place;
}

export interface Path {
  /** Stitch index of its first needle point. */
  readonly first: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Whether needle point `k` of the path must stay one. */
  readonly fixed: (k: number) => boolean;
  /** The object that it is (a part of), if it is a run. */
  readonly run: StitchObject | null;
}

interface LaidPiece extends LaidRun {
  readonly piece: Piece;
}

export function sewAnew(
  design: Design,
  stitches: Stitches,
  objects: readonly StitchObject[],
  layer: Layer,
): EnlargedDesign {
  const found = findStrings(stitches, objects).filter(({ role }) => role === 'top' || layer.relaysUnderlay);
  const strings = new Map<StitchString, LaidString>();
  found.forEach((string, i) => {
    const laid = layer.string(string, mayCross(string, found, i));
    if (laid !== null) strings.set(string, laid);
  });
  const pieces = findPieces(stitches, objects, [...strings.keys()]);
  const laid = layPieces(stitches, pieces, strings, layer, fixedPoints(stitches, objects, strings));
  const places = new Int32Array(stitches.count);
  const starts = new Map<StitchString, number>();
  let total = 0;
  for (const { piece, at, x } of laid) {
    for (let k = 0; k < at.length; k++) places[piece.first + k] = total + at[k];
    if (piece.kind === 'string') starts.set(piece.string, total);
    total += x.length;
  }
  const sewn = compose(design, stitches, laid, layer);
  const rows = new RowBook(strings, starts, places);
  return {
    design: sewn,
    stitches: penetrations(sewn),
    objects: objects.map((object) => renumbered(object, places, rows)),
    left: objects.flatMap((object) => rows.leftOf(object, layer.relaysUnderlay)),
  };
}

/** Where another string of the same object follows, the way there begins on the edge on which the string ended. */
function mayCross(string: StitchString, all: readonly StitchString[], i: number): boolean {
  const next = all[i + 1];
  return string.role === 'top' && next?.object !== string.object;
}

/** Needle points that stay such: the ends of all ranges, and of rows that are in no string. */
function fixedPoints(
  { count }: Stitches,
  objects: readonly StitchObject[],
  strings: ReadonlyMap<StitchString, LaidString>,
): Uint8Array {
  const fixed = new Uint8Array(count);
  for (const { range, underlay, from, to } of objects) {
    for (const i of [...range, ...(underlay.range ?? []), ...from, ...to]) fixed[i] = 1;
  }
  for (const { from, to } of strings.keys()) fixed.fill(0, from[0] + 1, to[to.length - 1]);
  return fixed;
}

function layPieces(
  stitches: Stitches,
  pieces: readonly Piece[],
  strings: ReadonlyMap<StitchString, LaidString>,
  layer: Layer,
  fixed: Uint8Array,
): LaidPiece[] {
  const { x, y } = stitches;
  const moves = new Map<number, Move>();
  const note = (i: number, toX: number, toY: number, across: Place | null = null) =>
    moves.set(i, moveOf(x[i], y[i], toX, toY, across));
  const laid = pieces.map((piece): LaidPiece | null => {
    if (piece.kind === 'lock') return null;
    const { first, last } = piece;
    if (piece.kind === 'path') {
      const run = layer.path({
        first,
        x: x.slice(first, last + 1),
        y: y.slice(first, last + 1),
        fixed: (k) => fixed[first + k] === 1,
        run: piece.run,
      });
      for (const i of [first, last]) note(i, run.x[run.at[i - first]], run.y[run.at[i - first]]);
      return { piece, ...run };
    }
    const string = strings.get(piece.string)!;
    const end = string.x.length - 1;
    const share = end / (last - first);
    note(first, string.x[0], string.y[0]);
    note(last, string.x[end], string.y[end], string.crossed ? lastRow(stitches, piece.string) : null);
    const at = Int32Array.from({ length: last - first + 1 }, (_, k) => Math.round(k * share));
    return { piece, x: string.x, y: string.y, at };
  });
  const lockMove = ({ first }: Piece, anchor: number | null): Move =>
    (anchor === null ? undefined : moves.get(anchor)) ??
    moveOf(x[first], y[first], ...layer.carry(x[first], y[first]), null);
  return pieces.map((piece, i) => {
    if (piece.kind !== 'lock') return laid[i]!;
    const move = lockMove(piece, piece.anchor);
    const places: Place[] = [];
    for (let k = piece.first; k <= piece.last; k++) places.push(move(x[k], y[k]));
    return {
      piece,
      x: places.map(([px]) => px),
      y: places.map(([, py]) => py),
      at: Int32Array.from(places, (_, k) => k),
    };
  });
}

type Move = (x: number, y: number) => Place;

/** Moves the tiny stitches at a needle point along with it; turned over where it has come to lie on the other edge. */
function moveOf(x: number, y: number, toX: number, toY: number, across: Place | null): Move {
  return (px, py) => {
    const [vx, vy] = [px - x, py - y];
    const twice = across === null ? 0 : 2 * (vx * across[0] + vy * across[1]);
    return [toX + vx - twice * (across?.[0] ?? 0), toY + vy - twice * (across?.[1] ?? 0)];
  };
}

/** Direction of the last row of a string. */
function lastRow({ x, y }: Stitches, { from, to }: StitchString): Place {
  const [a, b] = [from[from.length - 1], to[to.length - 1]];
  const length = distance(x[a], y[a], x[b], y[b]) || 1;
  return [(x[b] - x[a]) / length, (y[b] - y[a]) / length];
}

/** The records: needle points as laid, and before each piece what the machine did before its first needle point. */
function compose(design: Design, stitches: Stitches, laid: readonly LaidPiece[], layer: Layer): Design {
  const x: number[] = [];
  const y: number[] = [];
  const kind: number[] = [];
  const like: number[] = [];
  const add = (px: number, py: number, code: number, record: number) => {
    x.push(px);
    y.push(py);
    kind.push(code);
    like.push(record);
  };
  let done = 0;
  let before: { old: Place; now: Place } | null = null;
  const between = (end: number, after: { old: Place; now: Place } | null) => {
    for (let r = done; r < end; r++) {
      if (design.kind[r] === Kind.stitch) continue;
      const beside = [after, before].find(
        (at) => at !== null && distance(design.x[r], design.y[r], ...at.old) < AT_MM,
      );
      add(...(beside?.now ?? layer.carry(design.x[r], design.y[r])), design.kind[r], r);
    }
  };
  for (const { piece, x: px, y: py } of laid) {
    const record = stitches.record[piece.first];
    between(record, { old: [stitches.x[piece.first], stitches.y[piece.first]], now: [px[0], py[0]] });
    for (let k = 0; k < px.length; k++) add(px[k], py[k], Kind.stitch, record);
    before = {
      old: [stitches.x[piece.last], stitches.y[piece.last]],
      now: [px[px.length - 1], py[py.length - 1]],
    };
    // jumps inside a piece are parts of long stitches: whoever writes the file makes them again
    done = stitches.record[piece.last] + 1;
  }
  between(design.kind.length, null);
  const { thread } = design;
  return {
    ...design,
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    kind: Uint8Array.from(kind),
    thread: thread && Int32Array.from(like, (r) => thread[r]),
    diagnostics: [],
  };
}

/** Where the rows of objects are among the new stitches. */
class RowBook {
  private readonly strings = new Map<StitchObject, StitchString[]>();

  constructor(
    private readonly laid: ReadonlyMap<StitchString, LaidString>,
    private readonly starts: ReadonlyMap<StitchString, number>,
    private readonly places: Int32Array,
  ) {
    for (const string of laid.keys()) {
      const list = this.strings.get(string.object);
      if (list === undefined) this.strings.set(string.object, [string]);
      else list.push(string);
    }
  }

  private stringsOf(object: StitchObject, role: StitchString['role']): StitchString[] {
    return (this.strings.get(object) ?? []).filter((string) => string.role === role);
  }

  /** The rows of an object's top stitching: those of its strings as laid, others where their ends have come to lie. */
  of(object: StitchObject): Pick<StitchObject, 'from' | 'to' | 'sections'> {
    const byRow = new Map(this.stringsOf(object, 'top').map((string) => [string.row, string]));
    const from: number[] = [];
    const to: number[] = [];
    const sections: number[] = [];
    const firsts = new Set(object.sections);
    for (let k = 0; k < object.from.length; ) {
      if (firsts.has(k)) sections.push(from.length);
      const string = byRow.get(k);
      if (string === undefined) {
        from.push(this.places[object.from[k]]);
        to.push(this.places[object.to[k]]);
        k++;
        continue;
      }
      const laid = this.laid.get(string)!;
      const start = this.starts.get(string)!;
      laid.like.forEach((like, n) => {
        // where a row as found holds the step over to the next, so does one like it
        const stepBefore = object.from[k + like] < string.from[like] && n > 0;
        const stepAfter = object.to[k + like] > string.to[like] && n + 1 < laid.from.length;
        from.push(start + (stepBefore ? laid.to[n - 1] : laid.from[n]));
        to.push(start + (stepAfter ? laid.from[n + 1] : laid.to[n]));
      });
      k += string.from.length;
    }
    return { from: Int32Array.from(from), to: Int32Array.from(to), sections: Int32Array.from(sections) };
  }

  /** What of an object is in no string though it is sewn in rows. */
  leftOf(object: StitchObject, underlayToo: boolean): LeftPart[] {
    const rows = this.stringsOf(object, 'top').reduce((n, { from }) => n + from.length, 0);
    const { id, kind, from, underlay } = object;
    const left: LeftPart[] = [];
    if (kind !== 'run' && rows < MOST_OF_ROWS * from.length) {
      left.push({ object: id, part: 'top', why: 'too few of its rows lie straight beside each other' });
    }
    if (underlayToo && underlay.spacingMm !== null && this.stringsOf(object, 'underlay').length === 0) {
      left.push({
        object: id,
        part: 'underlay',
        why: 'it has too few rows that lie straight beside each other',
      });
    }
    return left;
  }

  /** Spacing of an object's underlay as a share of what it was: that of its longest string; 1 where it has none. */
  underlaySpacing(object: StitchObject): number {
    const [longest] = this.stringsOf(object, 'underlay').sort((a, b) => b.from.length - a.from.length);
    return longest === undefined ? 1 : this.laid.get(longest)!.spacing;
  }
}

function renumbered(object: StitchObject, places: Int32Array, rows: RowBook): StitchObject {
  const moved = ([a, b]: StitchRange): StitchRange => [places[a], places[b]];
  const { underlay } = object;
  const range = underlay.range && moved(underlay.range);
  const more = range && underlay.range ? range[1] - range[0] - (underlay.range[1] - underlay.range[0]) : 0;
  return {
    ...object,
    ...rows.of(object),
    range: moved(object.range),
    underlay: {
      ...underlay,
      range,
      stitches: underlay.stitches + more,
      spacingMm: underlay.spacingMm && underlay.spacingMm * rows.underlaySpacing(object),
    },
  };
}
