import type { Stitches } from '../../format/stitches.js';
import { layGrid } from '../../measure/grid.js';
import type { Bounds } from '../../measure/measures.js';
import type { Finder } from '../context.js';
import { judge, mildestEdge } from '../limits.js';
import { LockMark } from '../lock-mask.js';
import { gatherCells, type NeedleCells, slotOf } from '../needle-cells.js';
import { ownerOf } from '../spans.js';
import { counted } from '../words.js';

/** Points within a circle this wide are on one spot, mm (common practice, no source). */
const ACROSS_MM = 0.3;
/** Cells that any design may have, a byte each: a field of 0.3 m by 0.3 m. */
const CELLS_ALWAYS = 1 << 20;
/** A cell's byte: its points, told apart up to this number, and a mark. */
const POINTS = 0x7f;
const CROWDED = 0x80;
/**
 * Steps to the middle of a circle, which bring it there to about a sixtieth of its radius (Bădoiu and Clarkson, 2003;
 * from memory), and what the circle is larger for that, mm. On the 0.1 mm grid of a file no two points are between
 * 0.3 mm and 0.316 mm apart, so nothing is let in by it.
 */
const BETWEEN_STEPS = 60;
const SLACK_MM = 0.003;

interface Pile {
  points: number;
  x: number;
  y: number;
  /** The last needle point in it. */
  stitch: number;
}

/** Needle points piled on one spot, so that they cut the fabric: the worst pile of each object. */
export const needlePointsPiled: Finder = ({ stitches, objects, measures, limits, locks }) => {
  const limit = limits['needle-points-piled'];
  const most = mildestEdge(limit);
  const worst = worstPiles(stitches, measures.bounds, locks, most, (k) => ownerOf(objects, k));
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

/** The worst pile of more than `most` points by its owner. */
function worstPiles(
  stitches: Stitches,
  bounds: Bounds,
  locks: Uint8Array,
  most: number,
  owner: (stitch: number) => number | null,
): Map<number | null, Pile> {
  const worst = new Map<number | null, Pile>();
  const crowd = crowded(stitches, bounds, locks, most);
  const cells = gatherCells(stitches, crowd, ACROSS_MM);
  const near = new Int32Array(9);
  for (let slot = 0; slot < cells.head.length; slot++) {
    // a pile touches at most four cells, so one of them holds a quarter of it
    if (cells.head[slot] < 0 || 4 * cells.size[slot] <= most) continue;
    const seen = worst.get(owner(crowd[cells.head[slot]]));
    if (blockAround(cells, slot, near) <= Math.max(most, seen?.points ?? 0)) continue;
    const pile = thickest(cells, slot, near);
    if (pile.points <= most) continue;
    pile.stitch = crowd[pile.stitch];
    const of = owner(pile.stitch);
    if (pile.points > (worst.get(of)?.points ?? 0)) worst.set(of, pile);
  }
  return worst;
}

/**
 * Stitch indexes of the points that could be part of a pile, locks left out: those in blocks of two by two cells
 * that together hold more than `most`. In an ordinary design these are few, and only they are looked at closely.
 */
function crowded({ x, y, count }: Stitches, bounds: Bounds, locks: Uint8Array, most: number): Int32Array {
  const { cellMm, minX, minY, columns, rows } = layGrid(bounds, ACROSS_MM, Math.max(CELLS_ALWAYS, 8 * count));
  // with a border of empty cells every cell has neighbours on all sides
  const row = columns + 2;
  const cells = new Uint8Array(row * (rows + 2));
  const scale = 1 / cellMm;
  const cellOf = (k: number) => (1 + (((y[k] - minY) * scale) | 0)) * row + 1 + (((x[k] - minX) * scale) | 0);
  for (let k = 0; k < count; k++) {
    if (locks[k] === LockMark.ordinary) continue;
    const c = cellOf(k);
    if (cells[c] < POINTS) cells[c]++;
  }
  const enough = Math.min(most, POINTS - 1);
  let any = false;
  for (let k = 0; k < count; k++) {
    const c = cellOf(k);
    // of such a block one cell holds a quarter
    if (4 * (cells[c] & POINTS) <= enough) continue;
    for (let corner = 0; corner < 4; corner++) {
      const block = c - (corner & 1) - (corner & 2 ? row : 0);
      const sum =
        (cells[block] & POINTS) +
        (cells[block + 1] & POINTS) +
        (cells[block + row] & POINTS) +
        (cells[block + row + 1] & POINTS);
      if (sum <= enough) continue;
      any = true;
      cells[block] |= CROWDED;
      cells[block + 1] |= CROWDED;
      cells[block + row] |= CROWDED;
      cells[block + row + 1] |= CROWDED;
    }
  }
  if (!any) return new Int32Array(0);
  const crowd = new Int32Array(count);
  let size = 0;
  for (let k = 0; k < count; k++) {
    if (locks[k] !== LockMark.ordinary && cells[cellOf(k)] & CROWDED) crowd[size++] = k;
  }
  return crowd.subarray(0, size);
}

/**
 * Fills `near` with the slots of the cell and its eight neighbours; returns the most points in a block of two by
 * two cells that the cell is part of.
 */
function blockAround(cells: NeedleCells, slot: number, near: Int32Array): number {
  const head = cells.head[slot];
  const i = Math.floor(cells.x[head] / cells.cellMm);
  const j = Math.floor(cells.y[head] / cells.cellMm);
  for (let k = 0; k < 9; k++) near[k] = slotOf(cells, i - 1 + (k % 3), j - 1 + Math.floor(k / 3));
  const n = (k: number) => cells.size[near[k]];
  return Math.max(
    n(0) + n(1) + n(3) + n(4),
    n(1) + n(2) + n(4) + n(5),
    n(3) + n(4) + n(6) + n(7),
    n(4) + n(5) + n(7) + n(8),
  );
}

/**
 * Looks for the circle with the most of the points near a cell, and counts those in it. It starts at the middle of the
 * cell's points and tries two ways: to where they are thickest, for a spot among others, and to the middle between
 * those furthest apart, for points spread around a place where none of them lies.
 */
function thickest(cells: NeedleCells, slot: number, near: Int32Array): Pile {
  const { x, y } = cells;
  const start: Pile = { points: 0, x: 0, y: 0, stitch: -1 };
  for (let k = cells.head[slot]; k >= 0; k = cells.next[k]) {
    start.x += x[k] / cells.size[slot];
    start.y += y[k] / cells.size[slot];
  }
  let best = start;
  const tryAt = (at: Pile): Pile => {
    const held = within(cells, near, at, ACROSS_MM / 2);
    if (held.points > best.points) best = { ...held, x: at.x, y: at.y };
    return held;
  };
  tryAt(tryAt(tryAt(start)));
  const around = within(cells, near, within(cells, near, start, ACROSS_MM), 0.7 * ACROSS_MM);
  if (around.points > best.points) tryAt(between(cells, near, around));
  return best;
}

/** Middle of the smallest circle around the points near a place, by steps of falling size to the furthest of them. */
function between({ x, y, head, next }: NeedleCells, near: Int32Array, at: Pile): Pile {
  const reach2 = (0.7 * ACROSS_MM) ** 2;
  let cx = at.x;
  let cy = at.y;
  for (let step = 2; step <= BETWEEN_STEPS; step++) {
    let far2 = -1;
    let fx = cx;
    let fy = cy;
    for (const cell of near) {
      for (let k = head[cell]; k >= 0; k = next[k]) {
        if ((x[k] - at.x) ** 2 + (y[k] - at.y) ** 2 > reach2) continue;
        const d2 = (x[k] - cx) ** 2 + (y[k] - cy) ** 2;
        if (d2 <= far2) continue;
        far2 = d2;
        fx = x[k];
        fy = y[k];
      }
    }
    cx += (fx - cx) / step;
    cy += (fy - cy) / step;
  }
  return { ...at, x: cx, y: cy };
}

/** The points within `reach` of a place: their number, their middle and the last of them. */
function within({ x, y, head, next }: NeedleCells, near: Int32Array, at: Pile, reach: number): Pile {
  const reach2 = (reach + SLACK_MM) ** 2;
  let points = 0;
  let sumX = 0;
  let sumY = 0;
  let stitch = -1;
  for (const cell of near) {
    for (let k = head[cell]; k >= 0; k = next[k]) {
      const dx = x[k] - at.x;
      const dy = y[k] - at.y;
      if (dx * dx + dy * dy > reach2) continue;
      points++;
      sumX += dx;
      sumY += dy;
      if (k > stitch) stitch = k;
    }
  }
  if (points === 0) return { ...at, points, stitch };
  return { points, x: at.x + sumX / points, y: at.y + sumY / points, stitch };
}
