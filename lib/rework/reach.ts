/**
 * Where an object that is laid anew can put thread, known before it is laid: convex patches over a few neighboring rows or stitches each, in the frame of the design as found.
 * That a place lies in none of them is quickly told, and then nothing need be laid to know that it stays in sight.
 */
import { type Bounds, emptyBounds, growBounds, grownBy } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { type BoxIndex, indexBoxes } from '../core/index2d.js';
import { contains, hull, type Ring } from '../core/polygon.js';
import type { Stitches } from '../format/stitches.js';
import { type EdgePoint, edgeAt } from '../stitch/edge.js';
import type { Section } from '../stitch/find-sections.js';
import type { SectionShape } from '../stitch/section-shape.js';
import type { Stretch } from '../stitch/stretches.js';

/** A row laid anew has its two ends, and those of the rows beside it, within so many counts of each other. */
const ROWS_BESIDE = 3;
/** Where edges of rows are moved outward, an end may come from so many counts farther off: along a slanting outline, as far as it is moved. */
const ROWS_BESIDE_WIDENED = 7;
/** A row begins no farther than this off its edge, with room to spare, mm. */
const OFF_EDGE_MM = 0.1;
/** How many times as far as an edge of a column is moved out a place that hangs on where it ends may be: see the least sine of a widened one. */
const LEANING_END = 4;
/** A curve through needle points leaves the line between two by less than this share of the longest stitch beside them (Catmull and Rom's, as laid). */
const BULGE_SHARE = 1 / 4;
/** A stitch divided anew lies among so many needle points of those as found (three stops, each sewn there and back); the patches over them begin so many apart. */
const POINTS_REACHED = 13;
const POINTS_APART = 4;

/** What the reach of an object is told from. */
export interface Lie {
  readonly stitches: Pick<Stitches, 'x' | 'y'>;
  /** Those that hold its top stitching, in sewing order. */
  readonly stretches: readonly Stretch[];
  /** Where edges are moved outward rather than grown: how many times as far the swings of a column do between two counts, as they lean; else null. */
  readonly leaning: ((section: Section, first: number, last: number) => number) | null;
  shapeOf(section: Section): SectionShape;
  stretchAt(i: number): Stretch;
}

/** A convex patch of fabric. */
interface ReachPatch {
  readonly ring: Ring;
  /** How far beyond it thread may lie, mm; and how many times as far as edges are moved outward on top of that. */
  readonly slackMm: number;
  readonly lever: number;
}

export class ThreadReach {
  private readonly patches: ReachPatch[] = [];
  private readonly index: BoxIndex;
  private readonly mostSlackMm: number;
  private readonly mostLever: number;

  constructor(private readonly lie: Lie) {
    lie.stretches.forEach((stretch, p) => {
      this.add(stretch);
      const next = lie.stretches[p + 1];
      if (next) this.patches.push(joined(this.end(stretch, true), this.end(next, false)));
    });
    this.mostSlackMm = this.patches.reduce((most, { slackMm }) => Math.max(most, slackMm), 0);
    this.mostLever = this.patches.reduce((most, { lever }) => Math.max(most, lever), 0);
    this.index = indexBoxes(
      this.patches.flatMap(({ ring }) => {
        const { minX, minY, maxX, maxY } = boxOf(ring);
        return [minX, minY, maxX, maxY];
      }),
    );
  }

  /**
   * Whether thread may pass within so many mm of a place; where it says no, none does.
   *
   * @param outMm how far edges are moved outward at most
   */
  mayHold(px: number, py: number, withinMm: number, outMm: number): boolean {
    const most = withinMm + this.mostSlackMm + this.mostLever * outMm;
    return this.index.some(px - most, py - most, px + most, py + most, (k) => {
      const { ring, slackMm, lever } = this.patches[k];
      return contains(ring, px, py, withinMm + slackMm + lever * outMm);
    });
  }

  /** A box around all that it may lay. */
  around(outMm: number): Bounds {
    const all = emptyBounds();
    for (const { ring, slackMm, lever } of this.patches) {
      const { minX, minY, maxX, maxY } = grownBy(boxOf(ring), slackMm + lever * outMm);
      growBounds(all, minX, minY);
      growBounds(all, maxX, maxY);
    }
    return all;
  }

  private add(stretch: Stretch): void {
    if (stretch.kind === 'section') {
      const { span } = this.lie.shapeOf(stretch.section);
      for (let t = 0; t < span; t += 2) this.patches.push(this.rowsAt(stretch.section, t, t + 2));
    } else if (stretch.kind === 'lock') this.patches.push(this.lock(stretch));
    else
      for (let i = stretch.first; i <= stretch.last; i += POINTS_APART)
        this.patches.push(this.path(i, stretch));
  }

  /** The rows between two counts, those beside them taken in. */
  private rowsAt(section: Section, from: number, to: number): ReachPatch {
    const { a, b, span, rows } = this.lie.shapeOf(section);
    const beside = this.lie.leaning && !section.swings ? ROWS_BESIDE_WIDENED : ROWS_BESIDE;
    const first = Math.max(0, from - beside);
    const last = Math.min(span, to + beside);
    const places: Ring = [];
    let [aside, off] = [0, 0];
    for (const edge of [a, b]) {
      for (let t = first; t <= last; t++) places.push(edgeAt(edge.line, t));
      for (const [k, [dx, dy]] of edge.off)
        if (edge.ends[k] >= first && edge.ends[k] <= last) off = Math.max(off, Math.hypot(dx, dy));
    }
    for (let k = first; k <= Math.min(last, rows.length - 1); k++)
      for (const mm of rows[k].aside) aside = Math.max(aside, Math.abs(mm));
    const atEnd = first === 0 || last === span;
    return {
      ring: hull(places),
      slackMm: aside + off + (section.joined ? 0 : OFF_EDGE_MM),
      lever: section.swings ? (atEnd ? 2 : 1) * (this.lie.leaning?.(section, first, last) ?? 1) : 1,
    };
  }

  private path(from: number, { first, last }: Stretch): ReachPatch {
    const { x, y } = this.lie.stitches;
    const to = Math.min(last, from + POINTS_REACHED);
    let longest = 0;
    for (let i = Math.max(first, from - 1) + 1; i <= Math.min(last, to + 1); i++)
      longest = Math.max(longest, distance(x[i - 1], y[i - 1], x[i], y[i]));
    const places = Array.from({ length: to - from + 1 }, (_, k) => this.point(from + k));
    return { ring: hull(places), slackMm: BULGE_SHARE * longest, lever: 1 };
  }

  /** Stitches of a lock lie as far as found from what they lock, wherever that has come to lie. */
  private lock({ first, last, ...stretch }: Stretch): ReachPatch {
    const { x, y } = this.lie.stitches;
    const anchor = (stretch.kind === 'lock' ? stretch.anchor : null) ?? first;
    const held = this.lie.stretchAt(anchor);
    let off = 0;
    for (const at of [anchor, first])
      for (let i = first; i <= last; i++) off = Math.max(off, distance(x[at], y[at], x[i], y[i]));
    const own: ReachPatch = {
      ring: [this.point(anchor), this.point(first)],
      slackMm: off,
      lever: LEANING_END,
    };
    return held.kind === 'section' ? joined(own, this.end(held, anchor === held.last)) : own;
  }

  /** Where a stretch begins or ends. */
  private end(stretch: Stretch, last: boolean): ReachPatch {
    if (stretch.kind === 'lock') return this.lock(stretch);
    if (stretch.kind === 'path') {
      return { ring: [this.point(last ? stretch.last : stretch.first)], slackMm: 0, lever: 1 };
    }
    const at = last ? this.lie.shapeOf(stretch.section).span : 0;
    return this.rowsAt(stretch.section, at, at);
  }

  private point(i: number): EdgePoint {
    return [this.lie.stitches.x[i], this.lie.stitches.y[i]];
  }
}

function boxOf(ring: Ring): Bounds {
  const box = emptyBounds();
  for (const [x, y] of ring) growBounds(box, x, y);
  return box;
}

/** A patch around both, with as much to spare as both need: a lock at the end of a section. */
const joined = (a: ReachPatch, b: ReachPatch): ReachPatch => ({
  ring: hull([...a.ring, ...b.ring]),
  slackMm: a.slackMm + b.slackMm,
  lever: Math.max(a.lever, b.lever),
});
