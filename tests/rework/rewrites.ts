/** What rewriting a design must never do, held against the truth of who laid the design or against the design as found. */
import { UNBOUNDED } from '../../lib/core/budget.js';
import type { Design } from '../../lib/format/design.js';
import { Break, penetrations, type Stitches } from '../../lib/format/stitches.js';
import { measureObject } from '../../lib/measure/measure-object.js';
import type { EnlargedDesign, Enlargement } from '../../lib/rework/enlargement.js';
import { centreOf } from '../../lib/rework/machine-scaled.js';
import { failingObjects, provenRelay } from '../../lib/rework/proven.js';
import { ENLARGE } from '../../lib/rework/resew.js';
import type { ResewMode } from '../../lib/rework/resew-mode.js';
import { asWritten, type WrittenDesign } from '../../lib/rework/resew-written.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import type { LaidUnderlay } from '../../lib/stitch/laid-underlay.js';

export interface Read {
  readonly design: Design;
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
}

export function readDesign(design: Design): Read {
  const stitches = penetrations(design);
  return { design, stitches, objects: findObjects(stitches) };
}

/** A design whose top stitches are known: by its maker, or, for a file, by the finder. */
export interface Sewn {
  readonly name: string;
  readonly design: Design;
  readonly isTop: (stitch: number) => boolean;
}

/** What one relaying did. */
export interface RelayTally {
  readonly asked: number;
  readonly askedWide: number;
  readonly relaidWide: number;
  readonly lost: number;
  readonly why: readonly string[];
}

/** Columns at least this wide are to be relaid, nearly all, mm. */
export const WIDE_MM = 3.5;

/** Every satin column of a design named for relaying, as the command does it. */
export async function relayAll({ design, isTop }: Sewn, to: LaidUnderlay = 'fill'): Promise<RelayTally> {
  const before = readDesign(design);
  const satins = before.objects.filter(({ kind }) => kind === 'satin');
  const choices = new Map(satins.map(({ id }) => [id, to]));
  const made = await provenRelay(before, choices, 'dst', UNBOUNDED);
  const wide = satins.filter((object) => measureObject(before.stitches, object).widthMm!.median >= WIDE_MM);
  return {
    asked: satins.length,
    askedWide: wide.length,
    relaidWide: wide.filter(({ id }) => made.relaid.has(id)).length,
    lost: topsLost(before.stitches, penetrations(made.design), isTop),
    why: wide.flatMap(({ id }) => {
      const why = made.failed.get(id)?.because ?? made.left.get(id);
      return why ? [`${id} ${why}`] : [];
    }),
  };
}

/** A design made larger as the command does it, and the areas and columns that are left or told of. */
export async function enlargeProven(
  before: Read,
  mode: ResewMode,
  by: Enlargement,
): Promise<{ made: WrittenDesign; told: ReadonlySet<number> }> {
  const failed = await failingObjects(before, mode, by, 'dst', UNBOUNDED);
  const leave = new Set(failed.keys());
  const made = asWritten(ENLARGE[mode](before.design, before.stitches, before.objects, leave)(by).whole());
  const parts = made.left?.filter(({ part }) => part === 'top') ?? [];
  return { made, told: new Set([...leave, ...parts.map(({ object }) => object)]) };
}

/**
 * Top stitches of the design before that do not follow each other in the design after, in order and at the same place, of the same colour block. What is sewn besides
 * does not matter: each is looked for from the place where the one before was found.
 */
export function topsLost(before: Stitches, after: Stitches, isTop: (stitch: number) => boolean): number {
  let lost = 0;
  let next = 0;
  for (let i = 0; i < before.count; i++) {
    if (!isTop(i)) continue;
    let at = next;
    while (
      at < after.count &&
      !(
        Math.abs(after.x[at] - before.x[i]) < 1e-6 &&
        Math.abs(after.y[at] - before.y[i]) < 1e-6 &&
        after.block[at] === before.block[i]
      )
    )
      at++;
    if (at < after.count) next = at + 1;
    else lost++;
  }
  return lost;
}

/** A place of the old stitching that lies bare in the new. */
export interface BarePlace {
  readonly object: number;
  readonly x: number;
  readonly y: number;
  readonly gapMm: number;
}

/** Width of fabric that one thread covers, mm (common practice, no source: 40-weight). */
const THREAD_MM = 0.4;
/** A gap between threads that nobody would call bare, mm: uneven rows of a sound file gape so far. */
const BORNE_MM = 0.35;
/** Places looked at along a thread, mm apart, and so many objects of a long design. */
const LOOKED_AT_MM = 0.7;

/**
 * Places of the old top stitching that no thread of the new covers where they have come to lie: grown with the design where it grew, where they were where
 * it was widened. As wide as the old rows gaped, grown as they may have grown, none counts.
 */
export function barePlaces(
  before: Read,
  after: EnlargedDesign,
  mode: ResewMode,
  by: Enlargement,
): BarePlace[] {
  const centre = centreOf(before.stitches);
  const carry = (x: number, y: number): [number, number] =>
    mode === 'widen'
      ? [x + by.dx, y + by.dy]
      : [centre.x + (x - centre.x) * (1 + by.x) + by.dx, centre.y + (y - centre.y) * (1 + by.y) + by.dy];
  const nearest = nearestThread(after.stitches);
  const own = nearestOther(before.stitches);
  const bare: BarePlace[] = [];
  const { x, y, breakBefore } = before.stitches;
  for (const { id, range, kind } of before.objects) {
    if (kind === 'run') continue;
    for (let i = range[0] + 1; i <= range[1]; i++) {
      if (breakBefore[i] >= Break.trim) continue;
      const length = Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
      const parts = Math.max(1, Math.round(length / LOOKED_AT_MM));
      for (let k = 0; k < parts; k++) {
        const f = (k + 0.5) / parts;
        const px = x[i - 1] + (x[i] - x[i - 1]) * f;
        const py = y[i - 1] + (y[i] - y[i - 1]) * f;
        const gap = nearest(...carry(px, py), 3) - THREAD_MM / 2;
        if (gap <= BORNE_MM) continue;
        // half of what the old threads there lie apart, grown
        const apart = own(px, py, i) * (1 + Math.max(by.x, by.y));
        if (gap > BORNE_MM + apart / 2) bare.push({ object: id, x: px, y: py, gapMm: gap });
      }
    }
  }
  return bare;
}

/** Distance from a place to the nearest thread, mm; `most` where none is so near. */
function nearestThread({ x, y, breakBefore, count }: Stitches) {
  const cells = new Cells();
  for (let i = 1; i < count; i++) {
    if (breakBefore[i] < Break.trim) cells.add(i, x[i - 1], y[i - 1], x[i], y[i]);
  }
  return (px: number, py: number, most: number) => {
    let least = most;
    cells.near(px, py, most, (i) => {
      least = Math.min(least, toSegment(px, py, x[i - 1], y[i - 1], x[i], y[i]));
    });
    return least;
  };
}

/** Distance from a place on thread `i` to the nearest thread of any other, mm; 2 where none is so near. */
function nearestOther({ x, y, breakBefore, count }: Stitches) {
  const cells = new Cells();
  for (let i = 1; i < count; i++) {
    if (breakBefore[i] < Break.trim) cells.add(i, x[i - 1], y[i - 1], x[i], y[i]);
  }
  return (px: number, py: number, i: number) => {
    let least = 2;
    cells.near(px, py, 2, (j) => {
      if (Math.abs(j - i) > 1) least = Math.min(least, toSegment(px, py, x[j - 1], y[j - 1], x[j], y[j]));
    });
    return least;
  };
}

class Cells {
  private readonly byCell = new Map<number, number[]>();
  private static readonly SIZE_MM = 2;

  private key = (cx: number, cy: number) => cx * 65536 + cy;

  add(i: number, ax: number, ay: number, bx: number, by: number): void {
    const steps = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / (Cells.SIZE_MM / 2)));
    let before = Number.NaN;
    for (let k = 0; k <= steps; k++) {
      const f = k / steps;
      const key = this.key(
        Math.floor((ax + (bx - ax) * f) / Cells.SIZE_MM),
        Math.floor((ay + (by - ay) * f) / Cells.SIZE_MM),
      );
      if (key === before) continue;
      before = key;
      const list = this.byCell.get(key);
      if (list) list.push(i);
      else this.byCell.set(key, [i]);
    }
  }

  near(px: number, py: number, reach: number, visit: (i: number) => void): void {
    const cell = (v: number) => Math.floor(v / Cells.SIZE_MM);
    for (let cx = cell(px - reach - 1); cx <= cell(px + reach + 1); cx++) {
      for (let cy = cell(py - reach - 1); cy <= cell(py + reach + 1); cy++) {
        for (const i of this.byCell.get(this.key(cx, cy)) ?? []) visit(i);
      }
    }
  }
}

export function toSegment(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const l2 = (bx - ax) ** 2 + (by - ay) ** 2;
  const f = l2 > 0 ? Math.max(0, Math.min(1, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / l2)) : 0;
  return Math.hypot(px - ax - (bx - ax) * f, py - ay - (by - ay) * f);
}
