/**
 * Where a design that is laid anew can put thread, patch by patch, known before any of it is laid: in the frame of the design as found. That a place lies on none of it is
 * quickly told, and then nothing need be laid to know that it stays in sight.
 */
import { emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { type BoxIndex, indexBoxes } from '../core/index2d.js';
import { contains, hull, type Ring } from '../core/polygon.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { edgeAt, type Place } from '../stitch/edge.js';
import type { Section } from '../stitch/find-sections.js';
import type { SectionEdge, SectionShape } from '../stitch/section-shape.js';
import { pathStops } from '../stitch/sew-run.js';
import type { Stretch } from '../stitch/stretches.js';

/** A row laid anew has its two ends, and those of the rows beside it, within so many counts of each other. */
const ROWS_BESIDE = 3;
/** Where edges of rows are moved outward, an end may come from so many counts farther off: along a slanting outline, as far as it is moved. */
const ROWS_BESIDE_WIDENED = 7;
/** A row begins no farther than this off its edge, with room to spare, mm. */
const OFF_EDGE_MM = 0.1;
/** How many times as far as an edge of a column is moved out a place that hangs on where it ends may be: see the least sine of a widened one. */
const LEANING_END = 4;
/** A stretch of a curve between two needle points leaves the line between them by this share of what it turns by (Catmull and Rom's, as laid). */
const BULGE_SHARE = 1 / 8;
/** Stitches divided anew reach over so many of those as found. */
const STOPS_REACHED = 3;

/** A convex patch of ground. */
interface Patch {
  readonly ring: Ring;
  /** How far beyond it thread may lie, mm; and how many times as far as edges are moved outward on top of that. */
  readonly slackMm: number;
  readonly lever: number;
}

/** What a terrain is made from. */
export interface Lie {
  readonly stitches: Pick<Stitches, 'x' | 'y'>;
  /** Pieces that hold the top stitching of the object, in sewing order. */
  readonly stretches: readonly Stretch[];
  readonly object: StitchObject;
  /** Where edges are moved outward rather than grown: how many times as far the swings of a column do between two counts, as they lean; else null. */
  readonly leaning: ((section: Section, first: number, last: number) => number) | null;
  shapeOf(section: Section): SectionShape;
  stretchAt(i: number): Stretch;
  isFixed(i: number): boolean;
}

export class Terrain {
  private readonly patches: Patch[] = [];
  private readonly index: BoxIndex;
  private readonly mostSlackMm: number;
  private readonly mostLever: number;

  constructor(private readonly lie: Lie) {
    lie.stretches.forEach((stretch, p) => {
      this.add(stretch);
      const next = lie.stretches[p + 1];
      if (next) this.join([this.end(stretch, true), this.end(next, false)]);
    });
    this.addLooseRows();
    this.mostSlackMm = this.patches.reduce((most, { slackMm }) => Math.max(most, slackMm), 0);
    this.mostLever = this.patches.reduce((most, { lever }) => Math.max(most, lever), 0);
    this.index = indexBoxes(
      this.patches.flatMap(({ ring }) => {
        const box = emptyBounds();
        for (const [px, py] of ring) growBounds(box, px, py);
        return [box.minX, box.minY, box.maxX, box.maxY];
      }),
    );
  }

  /**
   * Whether thread may pass within so many mm of a place; where it says no, none does.
   *
   * @param outMm how far edges are moved outward at most
   */
  mayHold(px: number, py: number, withinMm: number, outMm: number): boolean {
    const reach = withinMm + this.mostSlackMm + this.mostLever * outMm;
    return this.index.some(px - reach, py - reach, px + reach, py + reach, (k) => {
      const { ring, slackMm, lever } = this.patches[k];
      return contains(ring, px, py, withinMm + slackMm + lever * outMm);
    });
  }

  private join(patches: readonly Patch[]): void {
    this.patches.push({
      ring: hull(patches.flatMap(({ ring }) => ring)),
      slackMm: Math.max(...patches.map(({ slackMm }) => slackMm)),
      lever: Math.max(...patches.map(({ lever }) => lever)),
    });
  }

  private point(i: number): Place {
    return [this.lie.stitches.x[i], this.lie.stitches.y[i]];
  }

  private add(stretch: Stretch): void {
    if (stretch.kind === 'section') {
      const { span } = this.lie.shapeOf(stretch.section);
      for (let t = 0; t < span; t += 2) this.patches.push(this.rowsAt(stretch.section, t, t + 2));
    } else if (stretch.kind === 'path') this.addPath(stretch);
    else this.patches.push(this.lock(stretch));
  }

  /** The ground of rows between two counts, those beside them taken in. */
  private rowsAt(section: Section, from: number, to: number): Patch {
    const { a, b, span, rows } = this.lie.shapeOf(section);
    const beside = this.lie.leaning && !section.swings ? ROWS_BESIDE_WIDENED : ROWS_BESIDE;
    const first = Math.max(0, from - beside);
    const last = Math.min(span, to + beside);
    let aside = 0;
    for (let k = first; k <= Math.min(last, rows.length - 1); k++)
      for (const mm of rows[k].aside) aside = Math.max(aside, Math.abs(mm));
    const atEnd = first === 0 || last === span;
    return {
      ring: hull([...edgePlaces(a, first, last), ...edgePlaces(b, first, last)]),
      slackMm: aside + (section.joined ? 0 : OFF_EDGE_MM),
      lever: section.swings ? (atEnd ? 2 : 1) * (this.lie.leaning?.(section, first, last) ?? 1) : 1,
    };
  }

  private addPath({ first, last }: Stretch): void {
    const { stitches, isFixed } = this.lie;
    const stops = pathStops(stitches.x.slice(first, last + 1), stitches.y.slice(first, last + 1), (k) =>
      isFixed(first + k),
    ).map((k) => this.point(first + k));
    const ways = stops.slice(1).map(([px, py], j): Place => [px - stops[j][0], py - stops[j][1]]);
    const bulge = ways.map(([vx, vy], j) => {
      const turn = (other: Place | undefined) => (other ? distance(vx, vy, other[0], other[1]) : 0);
      return BULGE_SHARE * Math.max(turn(ways[j - 1]), turn(ways[j + 1]));
    });
    for (let j = 0; j < Math.max(1, stops.length - STOPS_REACHED); j++) {
      this.patches.push({
        ring: hull(stops.slice(j, j + STOPS_REACHED + 1)),
        slackMm: Math.max(0, ...bulge.slice(j, j + STOPS_REACHED)),
        lever: 1,
      });
    }
  }

  /** Stitches of a lock lie as far as found from what they lock, wherever that has come to lie. */
  private lock({ first, last, ...stretch }: Stretch): Patch {
    const anchor = stretch.kind === 'lock' ? stretch.anchor : null;
    const held = anchor === null ? null : this.lie.stretchAt(anchor);
    const at = this.point(anchor ?? first);
    const own: Patch = { ring: [at, this.point(first)], slackMm: 0, lever: LEANING_END };
    const goal = held?.kind === 'section' ? this.end(held, anchor === held.last) : own;
    let off = 0;
    for (let i = first; i <= last; i++) {
      off = Math.max(
        off,
        distance(...at, ...this.point(i)),
        distance(...this.point(first), ...this.point(i)),
      );
    }
    return {
      ring: hull([...goal.ring, ...own.ring]),
      slackMm: goal.slackMm + off,
      lever: Math.max(goal.lever, own.lever),
    };
  }

  /** Where a stretch begins or ends. */
  private end(stretch: Stretch, last: boolean): Patch {
    if (stretch.kind === 'lock') return this.lock(stretch);
    if (stretch.kind === 'path') {
      return { ring: [this.point(last ? stretch.last : stretch.first)], slackMm: 0, lever: 1 };
    }
    const { span } = this.lie.shapeOf(stretch.section);
    return last ? this.rowsAt(stretch.section, span, span) : this.rowsAt(stretch.section, 0, 0);
  }

  /** The ground between rows that are in no section, or of which one is in none. */
  private addLooseRows(): void {
    const { object } = this.lie;
    const ground = (k: number): Patch | null => {
      const stretch = this.lie.stretchAt(object.from[k]);
      return stretch.kind === 'section' ? null : this.row(k);
    };
    for (let k = 0; k + 1 < object.from.length; k++) {
      const pair = [ground(k), ground(k + 1)];
      if (pair.every((patch) => patch === null)) continue;
      this.join([pair[0] ?? this.sectionAt(k, true), pair[1] ?? this.sectionAt(k + 1, false)]);
    }
  }

  private row(k: number): Patch {
    const { from, to } = this.lie.object;
    const places: Ring = [];
    for (let i = from[k]; i <= to[k]; i++) places.push(this.point(i));
    return { ring: hull(places), slackMm: 0, lever: LEANING_END };
  }

  private sectionAt(k: number, last: boolean): Patch {
    const stretch = this.lie.stretchAt(this.lie.object.from[k]);
    const [end, row] = [this.end(stretch, last), this.row(k)];
    return { ...end, ring: hull([...end.ring, ...row.ring]) };
  }
}

/** Places that the ends of rows on an edge lie between, from one count to another. */
function edgePlaces({ line, ends, off }: SectionEdge, first: number, last: number): Ring {
  const places: Ring = [];
  for (let t = first; t <= last; t++) places.push(edgeAt(line, t));
  if (off.size === 0) return places;
  const on = [...places];
  ends.forEach((t, k) => {
    const by = off.get(k);
    if (by === undefined || t < first || t > last) return;
    for (const [px, py] of on) places.push([px + by[0], py + by[1]]);
  });
  return places;
}
