/** Puts a design together again from pieces that are laid anew, with everything that the machine does between them. */
import { grownBy } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { remember } from '../core/remember.js';
import { type Design, Kind } from '../format/design.js';
import { penetrations, type Stitches } from '../format/stitches.js';
import type { StitchObject, StitchRange } from '../segment/objects.js';
import type { Growing, LeftPart } from './enlargement.js';
import { type Ground, groundOf } from './ground.js';
import type { LaidRun } from './lay-run.js';
import { type LaidString, layString, type NewEdges } from './lay-string.js';
import { findPieces, type Piece } from './pieces.js';
import type { Place } from './rails.js';
import { type StringShape, shapeOf } from './string-shape.js';
import { findStrings, type StitchString } from './strings.js';
import { type Lie, Terrain } from './terrain.js';

/** What stands at the place of a needle point stands within this of it, mm. */
const AT_MM = 0.15;
/** An object is laid anew if this share of its rows is. */
const MOST_OF_ROWS = 0.7;

/** How the pieces of a design are laid anew with a certain growth. */
export interface Layer {
  /** Where the edges of a string come to lie. */
  edges(string: StitchString, shape: StringShape): NewEdges;
  /** A stretch of running stitches, or of others that are in no string. Needle points that are `fixed` stay such. */
  path(path: Path): LaidRun;
  /** Where a place comes to lie that belongs to no piece: a move along the axes. */
  carry(x: number, y: number): Place;
  /** Furthest that an edge is moved out beyond where {@link carry} takes it, mm. */
  readonly outMm: number;
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

/** Pieces one after another as laid. */
interface Sewn {
  readonly laid: readonly LaidPiece[];
  /** The new number of a needle point as found. */
  place(i: number): number;
  /** That of the first needle point of a string. */
  start(string: StitchString): number;
}

/** A design taken apart once, to be sewn anew with any growth. */
export class TakenApart {
  private readonly strings: readonly StitchString[];
  private readonly following = new Map<StitchString, StitchString>();
  private readonly pieces: readonly Piece[];
  /** The piece that each needle point is in. */
  private readonly pieceOf: Int32Array;
  private readonly fixed: Uint8Array;
  private readonly book: RowBook;
  readonly shape: (string: StitchString) => StringShape;
  private readonly ground: (k: number) => Ground;
  private readonly terrain: (k: number) => Terrain;

  /**
   * @param relaysUnderlay whether the underlay is laid anew as well; else it stays, stitch by stitch
   * @param leaning for a layer that moves edges outward: see {@link Lie}
   */
  constructor(
    readonly design: Design,
    readonly stitches: Stitches,
    readonly objects: readonly StitchObject[],
    private readonly relaysUnderlay: boolean,
    private readonly leaning: Lie['leaning'] = null,
  ) {
    this.strings = findStrings(stitches, objects).filter(({ role }) => role === 'top' || relaysUnderlay);
    this.strings.slice(1).forEach((string, i) => {
      this.following.set(this.strings[i], string);
    });
    this.pieces = findPieces(stitches, objects, this.strings);
    this.pieceOf = new Int32Array(stitches.count);
    this.pieces.forEach(({ first, last }, p) => {
      this.pieceOf.fill(p, first, last + 1);
    });
    this.fixed = fixedPoints(stitches, objects, this.strings);
    this.book = new RowBook(this.strings);
    this.shape = remember((string) => shapeOf(stitches, string));
    this.ground = remember((k) => this.groundOf(k));
    this.terrain = remember((k) => this.terrainOf(k));
  }

  /** Sews it anew. */
  grow(layer: Layer): Growing {
    const { objects, relaysUnderlay, book } = this;
    const laidString = remember((string: StitchString) =>
      layString(
        this.shape(string),
        layer.edges(string, this.shape(string)),
        string.joined,
        mayCross(string, this.following.get(string)),
      ),
    );
    const laidPiece: (p: number) => LaidPiece = remember((p: number) =>
      this.lay(p, layer, laidString, laidPiece),
    );
    const sew = (first: number, last: number) => {
      const sewn = sewnFrom(this.pieces.slice(first, last + 1).map((_, n) => laidPiece(first + n)));
      const design = compose(this.design, this.stitches, sewn.laid, layer, last + 1 === this.pieces.length);
      return { sewn, design, stitches: penetrations(design) };
    };
    return {
      whole: () => {
        const { sewn, design, stitches } = sew(0, this.pieces.length - 1);
        return {
          design,
          stitches,
          objects: objects.map((object) => ({
            ...topped(object, sewn, book, laidString),
            underlay: underlayOf(object, sewn, book, laidString),
          })),
          left: objects.flatMap((object) => book.leftOf(object, relaysUnderlay)),
        };
      },
      alone: (k) => {
        const { sewn, design, stitches } = sew(...this.piecesOf(objects[k]));
        return { design, stitches, objects: [topped(objects[k], sewn, book, laidString)] };
      },
      mayHold: (k, x, y, withinMm) => {
        // back to where the place lay in the design as found, which nothing brings nearer than it is
        const [x0, y0] = layer.carry(0, 0);
        const [x1, y1] = layer.carry(1, 1);
        const [sx, sy] = [x1 - x0, y1 - y0];
        const within = withinMm / Math.min(1, sx, sy);
        return this.terrain(k).mayHold((x - x0) / sx, (y - y0) / sy, within, layer.outMm);
      },
      reach: (k) => {
        const { box, slackMm, lever } = this.ground(k);
        const [minX, minY] = layer.carry(box.minX, box.minY);
        const [maxX, maxY] = layer.carry(box.maxX, box.maxY);
        return grownBy({ minX, minY, maxX, maxY }, slackMm + lever * layer.outMm);
      },
    };
  }

  private piecesOf({ range: [first, last] }: StitchObject): [first: number, last: number] {
    return [this.pieceOf[first], this.pieceOf[last]];
  }

  private groundOf(k: number): Ground {
    const [first, last] = this.piecesOf(this.objects[k]);
    return groundOf(this.stitches, this.pieces.slice(first, last + 1), this.shape);
  }

  private terrainOf(k: number): Terrain {
    const object = this.objects[k];
    const [first, last] = this.piecesOf(object);
    return new Terrain({
      stitches: this.stitches,
      pieces: this.pieces.slice(first, last + 1),
      object,
      leaning: this.leaning,
      shapeOf: this.shape,
      pieceAt: (i) => this.pieces[this.pieceOf[i]],
      isFixed: (i) => this.fixed[i] === 1,
    });
  }

  private lay(p: number, layer: Layer, laidString: Laid, laidPiece: (p: number) => LaidPiece): LaidPiece {
    const { x, y } = this.stitches;
    const piece = this.pieces[p];
    const { first, last } = piece;
    if (piece.kind === 'path') {
      const run = layer.path({
        first,
        x: x.slice(first, last + 1),
        y: y.slice(first, last + 1),
        fixed: (k) => this.fixed[first + k] === 1,
        run: piece.run,
      });
      return { piece, ...run };
    }
    if (piece.kind === 'string') {
      const string = laidString(piece.string);
      const share = (string.x.length - 1) / (last - first);
      const at = Int32Array.from({ length: last - first + 1 }, (_, k) => Math.round(k * share));
      return { piece, x: string.x, y: string.y, at };
    }
    const move =
      this.moveWith(piece.anchor, laidString, laidPiece) ??
      moveOf(x[first], y[first], ...layer.carry(x[first], y[first]), null);
    const places: Place[] = [];
    for (let k = first; k <= last; k++) places.push(move(x[k], y[k]));
    return {
      piece,
      x: places.map(([px]) => px),
      y: places.map(([, py]) => py),
      at: Int32Array.from(places, (_, k) => k),
    };
  }

  /** How a needle point at the end of a piece has moved; null for any other. */
  private moveWith(
    anchor: number | null,
    laidString: Laid,
    laidPiece: (p: number) => LaidPiece,
  ): Move | null {
    if (anchor === null) return null;
    const p = this.pieceOf[anchor];
    const piece = this.pieces[p];
    const { kind, first, last } = piece;
    if (kind === 'lock' || (anchor !== first && anchor !== last)) return null;
    const laid = laidPiece(p);
    const n = laid.at[anchor - first];
    const turned = kind === 'string' && anchor === last && laidString(piece.string).crossed;
    const { x, y } = this.stitches;
    return moveOf(
      x[anchor],
      y[anchor],
      laid.x[n],
      laid.y[n],
      turned ? lastRow(this.stitches, piece.string) : null,
    );
  }
}

function sewnFrom(laid: readonly LaidPiece[]): Sewn {
  const base = laid[0].piece.first;
  const places = new Int32Array(laid[laid.length - 1].piece.last - base + 1);
  const starts = new Map<StitchString, number>();
  let total = 0;
  for (const { piece, at, x } of laid) {
    for (let k = 0; k < at.length; k++) places[piece.first - base + k] = total + at[k];
    if (piece.kind === 'string') starts.set(piece.string, total);
    total += x.length;
  }
  return { laid, place: (i) => places[i - base], start: (string) => starts.get(string)! };
}

/** Where another string of the same object follows, the way there begins on the edge on which the string ended. */
function mayCross(string: StitchString, next: StitchString | undefined): boolean {
  return string.role === 'top' && next?.object !== string.object;
}

/** Needle points that stay such: the ends of all ranges, and of rows that are in no string. */
function fixedPoints(
  { count }: Stitches,
  objects: readonly StitchObject[],
  strings: readonly StitchString[],
): Uint8Array {
  const fixed = new Uint8Array(count);
  for (const { range, underlay, from, to } of objects) {
    for (const i of [...range, ...(underlay.range ?? []), ...from, ...to]) fixed[i] = 1;
  }
  for (const { from, to } of strings) fixed.fill(0, from[0] + 1, to[to.length - 1]);
  return fixed;
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
function compose(
  design: Design,
  stitches: Stitches,
  laid: readonly LaidPiece[],
  layer: Layer,
  toTheEnd: boolean,
): Design {
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
  const { first } = laid[0].piece;
  let done = first > 0 ? stitches.record[first] : 0;
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
  if (toTheEnd) between(design.kind.length, null);
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

type Laid = (string: StitchString) => LaidString;

/** Which strings the rows of an object are in. */
class RowBook {
  private readonly strings = new Map<StitchObject, StitchString[]>();

  constructor(strings: readonly StitchString[]) {
    for (const string of strings) {
      const list = this.strings.get(string.object);
      if (list === undefined) this.strings.set(string.object, [string]);
      else list.push(string);
    }
  }

  private stringsOf(object: StitchObject, role: StitchString['role']): StitchString[] {
    return (this.strings.get(object) ?? []).filter((string) => string.role === role);
  }

  /** The rows of an object's top stitching: those of its strings as laid, others where their ends have come to lie. */
  rows(object: StitchObject, sewn: Sewn, laidString: Laid): Pick<StitchObject, 'from' | 'to' | 'sections'> {
    const byRow = new Map(this.stringsOf(object, 'top').map((string) => [string.row, string]));
    const from: number[] = [];
    const to: number[] = [];
    const sections: number[] = [];
    const firsts = new Set(object.sections);
    for (let k = 0; k < object.from.length; ) {
      if (firsts.has(k)) sections.push(from.length);
      const string = byRow.get(k);
      if (string === undefined) {
        from.push(sewn.place(object.from[k]));
        to.push(sewn.place(object.to[k]));
        k++;
        continue;
      }
      const laid = laidString(string);
      const start = sewn.start(string);
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
  underlaySpacing(object: StitchObject, laidString: Laid): number {
    const [longest] = this.stringsOf(object, 'underlay').sort((a, b) => b.from.length - a.from.length);
    return longest === undefined ? 1 : laidString(longest).spacing;
  }
}

const renumbered = ([a, b]: StitchRange, { place }: Sewn): StitchRange => [place(a), place(b)];

/** An object with its top stitching among the new stitches. */
function topped(object: StitchObject, sewn: Sewn, book: RowBook, laidString: Laid): StitchObject {
  return { ...object, ...book.rows(object, sewn, laidString), range: renumbered(object.range, sewn) };
}

function underlayOf(
  object: StitchObject,
  sewn: Sewn,
  book: RowBook,
  laidString: Laid,
): StitchObject['underlay'] {
  const { underlay } = object;
  const range = underlay.range && renumbered(underlay.range, sewn);
  const more = range && underlay.range ? range[1] - range[0] - (underlay.range[1] - underlay.range[0]) : 0;
  return {
    ...underlay,
    range,
    stitches: underlay.stitches + more,
    spacingMm: underlay.spacingMm && underlay.spacingMm * book.underlaySpacing(object, laidString),
  };
}
