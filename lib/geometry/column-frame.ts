/**
 * A column's own coordinates: how far along its centre line a point lies, and how far across.
 *
 * The frame is coarser than the column: one node for every few swings, about 0.8 mm of centre line. Their middles
 * are averaged, so that neither the 0.1 mm grid of a file nor the short stitches of a corner show.
 */

import { distance } from '../core/distance.js';

/** Centre-line length that one node stands for, mm, and the most swings. */
const NODE_MM = 0.8;
const NODE_SWINGS = 4;
/** Inside a bend swings that reach this many times as far as usual ones show where the edges are: the others are shortened. */
const REACHES_ON = 1.15;
/** A bend is so tight that swings are shortened where its inner edge is this share shorter than its center line. */
const BENT = 0.3;
/** Nodes that share a box, so that a search of the whole column passes over those far off together. */
const BLOCK = 32;

/** The center line of a column; all arrays have one entry a node. */
export interface CenterLine {
  readonly count: number;
  /** Its nodes, mm. */
  readonly cx: Float64Array;
  readonly cy: Float64Array;
  /** Unit tangent, in sewing order. */
  readonly tx: Float64Array;
  readonly ty: Float64Array;
  /** Arc length from the column's start, mm, from 0. */
  readonly s: Float64Array;
  readonly lengthMm: number;
  /** The column comes back to where it began. */
  readonly closed: boolean;
}

export interface ColumnFrame extends CenterLine {
  /** Half of the width across the centre line, mm. */
  readonly halfWidth: Float64Array;
  /** Boxes around each 32 nodes, four values a box: minX, minY, maxX, maxY. */
  readonly blocks: Float64Array;
}

/** Where a point lies in a column. */
export interface ColumnPlace {
  /** Nearest node. */
  node: number;
  /** Along the centre line, mm. */
  s: number;
  /** Across it, mm, left positive. */
  across: number;
  /** Half of the column's width there, mm. */
  halfWidth: number;
}

/**
 * @param x, y stitch positions, mm
 * @param from, to stitch indexes of the two ends of each swing in sewing order; at least two swings
 */
export function columnFrame(x: Float64Array, y: Float64Array, from: Int32Array, to: Int32Array): ColumnFrame {
  const n = from.length;
  const size = swingsANode(x, y, from, to);
  const count = Math.max(2, Math.floor(n / size));
  const store = new Float64Array(count * 6);
  const part = (k: number) => store.subarray(k * count, (k + 1) * count);
  const [cx, cy, tx, ty, s, halfWidth] = [part(0), part(1), part(2), part(3), part(4), part(5)];

  const swings = { x, y, from, to };
  const firsts = new Int32Array(count + 1);
  for (let i = 0; i <= count; i++) firsts[i] = Math.floor((i * n) / count);
  placeNodes(swings, firsts, cx, cy);
  for (let i = 1; i < count; i++) s[i] = s[i - 1] + distance(cx[i - 1], cy[i - 1], cx[i], cy[i]);
  const nodes = s[count - 1];
  const gap = Math.hypot(cx[count - 1] - cx[0], cy[count - 1] - cy[0]);
  const step = nodes / (count - 1);
  setTangents(cx, cy, tx, ty);
  const { reach, aside } = measureWidths(swings, firsts, { cx, cy, tx, ty, halfWidth });
  let widths = 0;
  for (let i = 0; i < count; i++) widths += 2 * halfWidth[i];
  // where swings stop short inside a bend by turns, the column reaches as far as the others, and its middle lies between its edges
  for (let i = 1; i + 1 < count; i++) {
    if (reach[i] < REACHES_ON * halfWidth[i]) continue;
    const turn = Math.abs(tx[i - 1] * ty[i + 1] - ty[i - 1] * tx[i + 1]);
    if (turn * reach[i] < BENT * (s[i + 1] - s[i - 1])) continue;
    halfWidth[i] = reach[i];
    cx[i] -= ty[i] * aside[i];
    cy[i] += tx[i] * aside[i];
  }
  const meanWidth = widths / count;
  const closed = n > 12 && nodes > 3 * meanWidth && gap < Math.max(2 * step, 0.35 * meanWidth);
  // the first and last node stand for swings on both sides of them
  for (let i = 0; i < count; i++) s[i] += step / 2;
  return { count, cx, cy, tx, ty, s, halfWidth, blocks: boxed(cx, cy), lengthMm: nodes + step, closed };
}

/** Swings by the stitch indexes of their ends; number `firsts[i]` and those before `firsts[i + 1]` are those of node i. */
interface Swings {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
}

/** Puts each node into the middle of its swings. */
function placeNodes(
  { x, y, from, to }: Swings,
  firsts: Int32Array,
  cx: Float64Array,
  cy: Float64Array,
): void {
  for (let i = 0; i < cx.length; i++) {
    let sx = 0;
    let sy = 0;
    const [a, b] = [firsts[i], firsts[i + 1]];
    for (let j = a; j < b; j++) {
      sx += x[from[j]] + x[to[j]];
      sy += y[from[j]] + y[to[j]];
    }
    cx[i] = sx / (2 * (b - a));
    cy[i] = sy / (2 * (b - a));
  }
}

/** Along the chord from the node before to the one after; where that has no length, as at the node before. */
function setTangents(cx: Float64Array, cy: Float64Array, tx: Float64Array, ty: Float64Array): void {
  const last = cx.length - 1;
  let [ux, uy] = [1, 0];
  for (let i = 0; i <= last; i++) {
    const [a, b] = [Math.max(0, i - 1), Math.min(last, i + 1)];
    const dx = cx[b] - cx[a];
    const dy = cy[b] - cy[a];
    const l = Math.sqrt(dx * dx + dy * dy);
    if (l > 0) [ux, uy] = [dx / l, dy / l];
    tx[i] = ux;
    ty[i] = uy;
  }
}

/** Sets half of the mean width at each node; gives half of the width over all, and how far its middle lies to the left, mm. */
function measureWidths(
  { x, y, from, to }: Swings,
  firsts: Int32Array,
  { cx, cy, tx, ty, halfWidth }: Pick<ColumnFrame, 'cx' | 'cy' | 'tx' | 'ty' | 'halfWidth'>,
) {
  const [reach, aside] = [new Float64Array(cx.length), new Float64Array(cx.length)];
  for (let i = 0; i < cx.length; i++) {
    let sum = 0;
    let left = -Infinity;
    let right = Infinity;
    const [ux, uy, mx, my] = [tx[i], ty[i], cx[i], cy[i]];
    const [start, end] = [firsts[i], firsts[i + 1]];
    for (let j = start; j < end; j++) {
      const p = ux * (y[from[j]] - my) - uy * (x[from[j]] - mx);
      const q = ux * (y[to[j]] - my) - uy * (x[to[j]] - mx);
      sum += Math.abs(q - p);
      if (p > left) left = p;
      if (q > left) left = q;
      if (p < right) right = p;
      if (q < right) right = q;
    }
    halfWidth[i] = sum / (2 * (end - start));
    reach[i] = (left - right) / 2;
    aside[i] = (left + right) / 2;
  }
  return { reach, aside };
}

function boxed(cx: Float64Array, cy: Float64Array): Float64Array {
  const blocks = new Float64Array(4 * Math.ceil(cx.length / BLOCK));
  for (let first = 0, b = 0; first < cx.length; first += BLOCK, b += 4) {
    let [minX, minY, maxX, maxY] = [cx[first], cy[first], cx[first], cy[first]];
    for (let j = first + 1; j < cx.length && j < first + BLOCK; j++) {
      if (cx[j] < minX) minX = cx[j];
      if (cx[j] > maxX) maxX = cx[j];
      if (cy[j] < minY) minY = cy[j];
      if (cy[j] > maxY) maxY = cy[j];
    }
    blocks[b] = minX;
    blocks[b + 1] = minY;
    blocks[b + 2] = maxX;
    blocks[b + 3] = maxY;
  }
  return blocks;
}

function swingsANode(x: Float64Array, y: Float64Array, from: Int32Array, to: Int32Array): number {
  const n = from.length;
  // the way from one swing's middle to that of the fourth after it, the period of the usual short-stitch pattern,
  // over a sample of the column
  const stride = Math.max(1, Math.floor(n / 16));
  let way = 0;
  let steps = 0;
  for (let j = 0; j + 4 < n; j += stride) {
    const dx = x[from[j + 4]] + x[to[j + 4]] - x[from[j]] - x[to[j]];
    const dy = y[from[j + 4]] + y[to[j + 4]] - y[from[j]] - y[to[j]];
    way += Math.sqrt(dx * dx + dy * dy) / 8;
    steps++;
  }
  const advance = steps > 0 ? way / steps : NODE_MM;
  return Math.max(1, Math.min(NODE_SWINGS, Math.round(NODE_MM / Math.max(advance, 1e-6)), Math.floor(n / 3)));
}

/** Finds the place of a point in a column, from the node that {@link nodeAt} gives. */
export function locate(frame: ColumnFrame, px: number, py: number, hint: number): ColumnPlace {
  const node = nodeAt(frame, px, py, hint);
  return {
    node,
    s: alongAt(frame, node, px, py),
    across: acrossAt(frame, node, px, py),
    halfWidth: frame.halfWidth[node],
  };
}

/** Along the centre line to a point beside a node, mm. */
export function alongAt({ cx, cy, tx, ty, s }: ColumnFrame, node: number, px: number, py: number): number {
  const dx = px - cx[node];
  const dy = py - cy[node];
  return s[node] + dx * tx[node] + dy * ty[node];
}

/** Across the centre line to a point beside a node, mm, left positive. */
export function acrossAt({ cx, cy, tx, ty }: ColumnFrame, node: number, px: number, py: number): number {
  return tx[node] * (py - cy[node]) - ty[node] * (px - cx[node]);
}

/**
 * The node nearest to a point. `hint` is the node near which a neighbouring point was found (or -1): the search goes downhill from there, and
 * looks everywhere only if it does not end in the column.
 */
export function nodeAt(frame: ColumnFrame, px: number, py: number, hint: number): number {
  const { cx, cy, halfWidth } = frame;
  if (hint < 0) return nearestOfAll(frame, px, py, 0);
  const node = downhill(frame, px, py, hint);
  const dx = cx[node] - px;
  const dy = cy[node] - py;
  const far = 1.2 * halfWidth[node];
  return dx * dx + dy * dy > far * far ? nearestOfAll(frame, px, py, node) : node;
}

/** The node nearest to a point, the first of several; the nearer `node` is to it, the fewer are looked at. */
function nearestOfAll({ count, cx, cy, blocks }: ColumnFrame, px: number, py: number, node: number): number {
  let nearest = node;
  let least = (cx[node] - px) ** 2 + (cy[node] - py) ** 2;
  for (let b = 0; b < blocks.length; b += 4) {
    const dx = px < blocks[b] ? blocks[b] - px : px > blocks[b + 2] ? px - blocks[b + 2] : 0;
    const dy = py < blocks[b + 1] ? blocks[b + 1] - py : py > blocks[b + 3] ? py - blocks[b + 3] : 0;
    if (dx * dx + dy * dy > least) continue;
    const first = (b >> 2) * BLOCK;
    for (let j = first; j < count && j < first + BLOCK; j++) {
      const ex = cx[j] - px;
      const ey = cy[j] - py;
      const d = ex * ex + ey * ey;
      if (d < least || (d === least && j < nearest)) {
        least = d;
        nearest = j;
      }
    }
  }
  return nearest;
}

/** The node nearest to a point, from node `j` on as long as the way to it gets shorter. */
function downhill({ count, cx, cy, closed }: ColumnFrame, px: number, py: number, j: number): number {
  let best = j;
  let least = (cx[j] - px) ** 2 + (cy[j] - py) ** 2;
  for (let way = 1; way >= -1; way -= 2) {
    for (let k = best + way; ; k += way) {
      if (k < 0 || k >= count) {
        if (!closed) break;
        k = k < 0 ? count - 1 : 0;
      }
      const dx = cx[k] - px;
      const dy = cy[k] - py;
      const d = dx * dx + dy * dy;
      if (d >= least) break;
      least = d;
      best = k;
    }
  }
  return best;
}
