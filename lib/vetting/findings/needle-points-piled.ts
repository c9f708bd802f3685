import type { Stitches } from '../../format/stitches.js';
import type { Finder } from '../context.js';
import { judge, mildest } from '../limits.js';
import { LockMark } from '../lock-mask.js';
import { gatherCells, type NeedleCells, slotOf } from '../needle-cells.js';
import { ownerOf } from '../spans.js';
import { counted } from '../words.js';

/** Points within a circle this wide are on one spot, mm (common practice, no source). */
const ACROSS_MM = 0.3;
/** Steps in which a circle moves to where its points are thickest. */
const STEPS = 5;

interface Pile {
  points: number;
  x: number;
  y: number;
  /** The last needle point in it. */
  stitch: number;
}

/** Needle points piled on one spot, so that they cut the fabric: the worst pile of each object. */
export const needlePointsPiled: Finder = ({ stitches, objects, limits, locks }) => {
  const limit = limits['needle-points-piled'];
  const most = mildest(limit);
  const worst = new Map<number | null, Pile>();
  for (const pile of piles(stitches, locks, most)) {
    const owner = ownerOf(objects, pile.stitch);
    const seen = worst.get(owner);
    if (!seen || pile.points > seen.points) worst.set(owner, pile);
  }
  return [...worst].flatMap(([object, { points, x, y, stitch }]) => {
    const verdict = judge(limit, points);
    if (!verdict) return [];
    return {
      code: 'needle-points-piled',
      ...verdict,
      object,
      stitch,
      at: { x, y },
      measured: points,
      unit: 'points',
      message: `${counted(points, 'needle point', 'needle points')} on one spot: so many holes cut the fabric and break thread. Spread them, or shorten every second stitch at a tight turn.`,
      basis: limit.basis,
    };
  });
};

/** Every spot that may hold more than `most` points; neighbouring cells may find the same one. */
function piles(stitches: Stitches, locks: Uint8Array, most: number): Pile[] {
  const { x, y } = stitches;
  const cells = gatherCells(stitches, ACROSS_MM, (k) => locks[k] === LockMark.ordinary);
  const found: Pile[] = [];
  const near = new Int32Array(9);
  for (let slot = 0; slot < cells.head.length; slot++) {
    // a pile touches at most four cells, so one of them holds a quarter of it
    if (cells.head[slot] < 0 || 4 * cells.size[slot] <= most) continue;
    if (blockAround(cells, x, y, slot, near) <= most) continue;
    const pile = thickest(stitches, cells, slot, near);
    if (pile.points > most) found.push(pile);
  }
  return found;
}

/**
 * Fills `near` with the slots of the cell and its eight neighbours; returns the most points in a block of two by
 * two cells that the cell is part of.
 */
function blockAround(
  cells: NeedleCells,
  x: Float64Array,
  y: Float64Array,
  slot: number,
  near: Int32Array,
): number {
  const head = cells.head[slot];
  const i = Math.floor(x[head] / cells.cellMm);
  const j = Math.floor(y[head] / cells.cellMm);
  for (let k = 0; k < 9; k++) {
    near[k] = slotOf(cells, x, y, i - 1 + (k % 3), j - 1 + Math.floor(k / 3));
  }
  const n = (k: number) => cells.size[near[k]];
  return Math.max(
    n(0) + n(1) + n(3) + n(4),
    n(1) + n(2) + n(4) + n(5),
    n(3) + n(4) + n(6) + n(7),
    n(4) + n(5) + n(7) + n(8),
  );
}

/** Moves a circle from the middle of the cell's points to where it holds most of them, and counts those in it. */
function thickest({ x, y }: Stitches, cells: NeedleCells, slot: number, near: Int32Array): Pile {
  // a hair over the radius, so that points exactly as far apart as the circle is wide are both in it
  const reach2 = (ACROSS_MM / 2 + 1e-6) ** 2;
  let cx = 0;
  let cy = 0;
  for (let k = cells.head[slot]; k >= 0; k = cells.next[k]) {
    cx += x[k] / cells.size[slot];
    cy += y[k] / cells.size[slot];
  }
  const best: Pile = { points: 0, x: cx, y: cy, stitch: -1 };
  for (let step = 0; step < STEPS; step++) {
    let points = 0;
    let sumX = 0;
    let sumY = 0;
    let last = -1;
    for (const cell of near) {
      for (let k = cells.head[cell]; k >= 0; k = cells.next[k]) {
        if ((x[k] - cx) ** 2 + (y[k] - cy) ** 2 > reach2) continue;
        points++;
        sumX += x[k];
        sumY += y[k];
        if (k > last) last = k;
      }
    }
    if (points <= best.points) break;
    Object.assign(best, { points, x: cx, y: cy, stitch: last });
    cx = sumX / points;
    cy = sumY / points;
  }
  return best;
}
