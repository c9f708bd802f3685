/** Puts a design together again from stretches that are laid anew, with everything that the machine does between them. */
import { distance } from '../core/distance.js';
import { memoize } from '../core/memoize.js';
import { type Design, Kind } from '../format/design.js';
import { penetrations, type Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { EdgePoint } from '../stitch/edge.js';
import { isTop, type Section } from '../stitch/find-sections.js';
import type { NewEdges } from '../stitch/new-edges.js';
import { returningSections } from '../stitch/returns.js';
import { patternsOf, type SectionPattern } from '../stitch/section-pattern.js';
import { type SectionShape, shapeOf } from '../stitch/section-shape.js';
import type { LaidRun } from '../stitch/sew-run.js';
import { sewSection } from '../stitch/sew-section.js';
import { findStretches, type Stretch } from '../stitch/stretches.js';
import type { Growing } from './enlargement.js';
import { type Lie, ThreadReach } from './reach.js';
import { type Laid, type NewPlaces, RowBook, topped, underlayOf } from './row-book.js';

/** What stands at the place of a needle point stands within this of it, mm. */
const AT_MM = 0.15;

/** How the stretches of a design are laid anew with a certain growth. */
export interface StretchLayer {
  /** Where the edges of a section come to lie. */
  edges(section: Section, shape: SectionShape): NewEdges;
  /** A stretch of running stitches, or of others that are in no section. Needle points that are `fixed` stay such. */
  path(path: Path): LaidRun;
  /** Where a place comes to lie that belongs to no stretch: a move along the axes. */
  carry(x: number, y: number): EdgePoint;
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

interface SewnStretch extends LaidRun {
  readonly stretch: Stretch;
}

/** Pieces one after another as laid. */
interface SewnStretches extends NewPlaces {
  readonly laid: readonly SewnStretch[];
}

/** A design taken apart once, to be sewn anew with any growth. */
export class TakenApart {
  private readonly sections: readonly Section[];
  private readonly following = new Map<Section, Section>();
  private readonly stretches: readonly Stretch[];
  /** The stretch that each needle point is in. */
  private readonly stretchOf: Int32Array;
  private readonly fixed: Uint8Array;
  /** Needle points of objects that are left. */
  private readonly left: Uint8Array;
  private readonly book: RowBook;
  readonly shape: (section: Section) => SectionShape;
  private readonly pattern: (section: Section) => SectionPattern;
  private readonly reach: (k: number) => ThreadReach;

  /**
   * @param relaysUnderlay whether the underlay is laid anew as well; else it stays, stitch by stitch
   * @param leave ids of objects of which each stitch stays
   * @param leaning for a layer that moves edges outward: see {@link Lie}
   */
  constructor(
    readonly design: Design,
    readonly stitches: Stitches,
    readonly objects: readonly StitchObject[],
    private readonly relaysUnderlay: boolean,
    leave: ReadonlySet<number>,
    private readonly leaning: Lie['leaning'] = null,
  ) {
    this.shape = memoize((section) => shapeOf(stitches, section));
    const { sections, unlike } = returningSections(stitches, objects, leave, this.shape);
    this.sections = sections.filter((section) => isTop(section) || relaysUnderlay);
    this.pattern = patternsIn(this.sections, this.shape);
    this.left = new Uint8Array(stitches.count);
    for (const { id, range } of objects)
      if (leave.has(id) || unlike.has(id)) this.left.fill(1, range[0], range[1] + 1);
    this.sections.slice(1).forEach((section, i) => {
      this.following.set(this.sections[i], section);
    });
    this.stretches = findStretches(stitches, objects, this.sections);
    this.stretchOf = new Int32Array(stitches.count);
    this.stretches.forEach(({ first, last }, p) => {
      this.stretchOf.fill(p, first, last + 1);
    });
    this.fixed = fixedPoints(stitches, objects, this.sections);
    this.book = new RowBook(this.sections, unlike);
    this.reach = memoize((k) => this.reachOf(k));
  }

  /** Sews it anew. */
  grow(layer: StretchLayer): Growing {
    const { objects, relaysUnderlay, book } = this;
    const sewnSection = memoize((section: Section) =>
      sewSection(
        this.shape(section),
        layer.edges(section, this.shape(section)),
        () => this.pattern(section),
        section.joined,
        mayCross(section, this.following.get(section)),
      ),
    );
    const sewnStretch: (p: number) => SewnStretch = memoize((p: number) =>
      this.lay(p, layer, sewnSection, sewnStretch),
    );
    const sew = (first: number, last: number) => {
      const sewn = sewnFrom(this.stretches.slice(first, last + 1).map((_, n) => sewnStretch(first + n)));
      const design = compose(
        this.design,
        this.stitches,
        sewn.laid,
        layer,
        last + 1 === this.stretches.length,
      );
      return { sewn, design, stitches: penetrations(design) };
    };
    return {
      whole: () => {
        const { sewn, design, stitches } = sew(0, this.stretches.length - 1);
        return {
          design,
          stitches,
          objects: objects.map((object) => ({
            ...topped(object, sewn, book, sewnSection),
            underlay: underlayOf(object, sewn, book, sewnSection),
          })),
          left: objects.flatMap((object) => book.leftOf(object, relaysUnderlay)),
        };
      },
      alone: (k) => {
        const { sewn, design, stitches } = sew(...this.stretchesOf(objects[k]));
        return { design, stitches, objects: [topped(objects[k], sewn, book, sewnSection)] };
      },
      mayHold: (k, x, y, withinMm) => {
        // back to where the place lay in the design as found, which nothing brings nearer than it is
        const [x0, y0] = layer.carry(0, 0);
        const [x1, y1] = layer.carry(1, 1);
        const [sx, sy] = [x1 - x0, y1 - y0];
        const within = withinMm / Math.min(1, sx, sy);
        return this.reach(k).mayHold((x - x0) / sx, (y - y0) / sy, within, layer.outMm);
      },
      reach: (k) => {
        const box = this.reach(k).around(layer.outMm);
        const [minX, minY] = layer.carry(box.minX, box.minY);
        const [maxX, maxY] = layer.carry(box.maxX, box.maxY);
        return { minX, minY, maxX, maxY };
      },
    };
  }

  private stretchesOf({ range: [first, last] }: StitchObject): [first: number, last: number] {
    return [this.stretchOf[first], this.stretchOf[last]];
  }

  private reachOf(k: number): ThreadReach {
    const [first, last] = this.stretchesOf(this.objects[k]);
    return new ThreadReach({
      stitches: this.stitches,
      stretches: this.stretches.slice(first, last + 1),
      leaning: this.leaning,
      shapeOf: this.shape,
      stretchAt: (i) => this.stretches[this.stretchOf[i]],
    });
  }

  private lay(
    p: number,
    layer: StretchLayer,
    sewnSection: Laid,
    sewnStretch: (p: number) => SewnStretch,
  ): SewnStretch {
    const { x, y } = this.stitches;
    const stretch = this.stretches[p];
    const { first, last } = stretch;
    if (stretch.kind === 'path' && this.left.subarray(first, last + 1).includes(1)) {
      const places = Array.from({ length: last - first + 1 }, (_, k) =>
        layer.carry(x[first + k], y[first + k]),
      );
      return through(stretch, places);
    }
    if (stretch.kind === 'path') {
      const run = layer.path({
        first,
        x: x.slice(first, last + 1),
        y: y.slice(first, last + 1),
        fixed: (k) => this.fixed[first + k] === 1,
        run: stretch.run,
      });
      return { stretch, ...run };
    }
    if (stretch.kind === 'section') {
      const section = sewnSection(stretch.section);
      const share = (section.x.length - 1) / (last - first);
      const at = Int32Array.from({ length: last - first + 1 }, (_, k) => Math.round(k * share));
      return { stretch, x: section.x, y: section.y, at };
    }
    const move =
      this.moveWith(stretch.anchor, sewnSection, sewnStretch) ??
      moveOf(x[first], y[first], ...layer.carry(x[first], y[first]), null);
    const places: EdgePoint[] = [];
    for (let k = first; k <= last; k++) places.push(move(x[k], y[k]));
    return through(stretch, places);
  }

  /** How a needle point at the end of a stretch has moved; null for any other. */
  private moveWith(
    anchor: number | null,
    sewnSection: Laid,
    sewnStretch: (p: number) => SewnStretch,
  ): Move | null {
    if (anchor === null) return null;
    const p = this.stretchOf[anchor];
    const stretch = this.stretches[p];
    const { kind, first, last } = stretch;
    if (kind === 'lock' || (anchor !== first && anchor !== last)) return null;
    const laid = sewnStretch(p);
    const n = laid.at[anchor - first];
    const turned = kind === 'section' && anchor === last && sewnSection(stretch.section).crossed;
    const { x, y } = this.stitches;
    return moveOf(
      x[anchor],
      y[anchor],
      laid.x[n],
      laid.y[n],
      turned ? lastRow(this.stitches, stretch.section) : null,
    );
  }
}

/** The pattern of each section, one for all of an object that are sewn alike. */
function patternsIn(
  sections: readonly Section[],
  shapeOf: (section: Section) => SectionShape,
): (section: Section) => SectionPattern {
  const keyOf = ({ object, role, swings }: Section) => `${object.id} ${role} ${swings}`;
  const alike = new Map<string, Section[]>();
  for (const section of sections) alike.set(keyOf(section), [...(alike.get(keyOf(section)) ?? []), section]);
  const read = memoize((key: string) => {
    const group = alike.get(key)!;
    const patterns = patternsOf(
      group.map((section) => ({ shape: shapeOf(section), joined: section.joined })),
    );
    return new Map(group.map((section, n) => [section, patterns[n]]));
  });
  return (section) => read(keyOf(section)).get(section)!;
}

function sewnFrom(laid: readonly SewnStretch[]): SewnStretches {
  const base = laid[0].stretch.first;
  const places = new Int32Array(laid[laid.length - 1].stretch.last - base + 1);
  const starts = new Map<Section, number>();
  let total = 0;
  for (const { stretch, at, x } of laid) {
    for (let k = 0; k < at.length; k++) places[stretch.first - base + k] = total + at[k];
    if (stretch.kind === 'section') starts.set(stretch.section, total);
    total += x.length;
  }
  return { laid, place: (i) => places[i - base], start: (section) => starts.get(section)! };
}

/** A stretch sewn through the places that its points come to lie at. */
const through = (stretch: Stretch, places: readonly EdgePoint[]): SewnStretch => ({
  stretch,
  x: places.map(([px]) => px),
  y: places.map(([, py]) => py),
  at: Int32Array.from(places, (_, k) => k),
});

/** Where another section of the same object follows, the way there begins on the edge on which the section ended. */
function mayCross(section: Section, next: Section | undefined): boolean {
  return section.role === 'top' && next?.object !== section.object;
}

/** Needle points that stay such: the ends of all ranges, and of rows that are in no section. */
function fixedPoints(
  { count }: Stitches,
  objects: readonly StitchObject[],
  sections: readonly Section[],
): Uint8Array {
  const fixed = new Uint8Array(count);
  for (const { range, underlay, from, to } of objects) {
    for (const i of [...range, ...(underlay.range ?? []), ...from, ...to]) fixed[i] = 1;
  }
  for (const { from, to } of sections) fixed.fill(0, from[0] + 1, to[to.length - 1]);
  return fixed;
}

type Move = (x: number, y: number) => EdgePoint;

/** Moves the tiny stitches at a needle point along with it; turned over where it has come to lie on the other edge. */
function moveOf(x: number, y: number, toX: number, toY: number, across: EdgePoint | null): Move {
  return (px, py) => {
    const [vx, vy] = [px - x, py - y];
    const twice = across === null ? 0 : 2 * (vx * across[0] + vy * across[1]);
    return [toX + vx - twice * (across?.[0] ?? 0), toY + vy - twice * (across?.[1] ?? 0)];
  };
}

/** Direction of the last row of a section. */
function lastRow({ x, y }: Stitches, { from, to }: Section): EdgePoint {
  const [a, b] = [from[from.length - 1], to[to.length - 1]];
  const length = distance(x[a], y[a], x[b], y[b]) || 1;
  return [(x[b] - x[a]) / length, (y[b] - y[a]) / length];
}

/** The records: needle points as laid, and before each stretch what the machine did before its first needle point. */
function compose(
  design: Design,
  stitches: Stitches,
  laid: readonly SewnStretch[],
  layer: StretchLayer,
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
  const { first } = laid[0].stretch;
  let done = first > 0 ? stitches.record[first] : 0;
  let before: { old: EdgePoint; now: EdgePoint } | null = null;
  const between = (end: number, after: { old: EdgePoint; now: EdgePoint } | null) => {
    for (let r = done; r < end; r++) {
      if (design.kind[r] === Kind.stitch) continue;
      const beside = [after, before].find(
        (at) => at !== null && distance(design.x[r], design.y[r], ...at.old) < AT_MM,
      );
      add(...(beside?.now ?? layer.carry(design.x[r], design.y[r])), design.kind[r], r);
    }
  };
  for (const { stretch, x: px, y: py } of laid) {
    const record = stitches.record[stretch.first];
    between(record, { old: [stitches.x[stretch.first], stitches.y[stretch.first]], now: [px[0], py[0]] });
    for (let k = 0; k < px.length; k++) add(px[k], py[k], Kind.stitch, record);
    before = {
      old: [stitches.x[stretch.last], stitches.y[stretch.last]],
      now: [px[px.length - 1], py[py.length - 1]],
    };
    // jumps inside a stretch are parts of long stitches: whoever writes the file makes them again
    done = stitches.record[stretch.last] + 1;
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
