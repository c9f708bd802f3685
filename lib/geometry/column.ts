/**
 * The geometry of a satin column, from the two ends of each swing.
 *
 * The centre line runs through the middles of the swings. A swing's middle is noisy (file points lie on a
 * 0.1 mm grid, and a short stitch at a corner pulls it aside), so middles are averaged over four swings, the
 * period of the usual short-stitch pattern, and directions are taken over about 2.5 mm of centre line.
 */
import { ScratchRoom } from '../core/room.js';
import { radToDeg } from '../core/units.js';
import type { CenterLine } from './column-frame.js';

/** Half of the centre-line length over which a direction is taken, mm. */
const TANGENT_REACH_MM = 1.25;
/** Most that a direction is carried on beyond the last full window, rad. */
const MOST_CARRIED = 0.6;
/** Below this resultant of the doubled swing angles a column has no mean direction (a ring). */
const DIRECTION_RESULTANT = 0.1;

/** An end that stops this far short of the edge between its neighbours is shortened; a file's grid is 0.1 mm, mm. */
const DENT_MM = 0.25;
/** Ends that lie this far off a smooth edge as a rule are ragged, mm. */
const RAGGED_MM = 0.15;
/** Share of the swings with a shortened end from which the column is sewn so, and its centre line lies between its edges. */
const MANY_DENTS = 0.15;
/** Neighbours that are asked, in swings to each side: two pairs of the usual short-stitch pattern. */
const DENT_REACH = 6;

/** Its center line has a node for each swing, as all arrays have. */
export interface Column extends CenterLine {
  /** Width of each swing across the centre line, mm. */
  readonly widthMm: Float64Array;
  /** Width from edge to edge, mm: that of the swing but where it stops short of an edge that its neighbours reach. */
  readonly envelopeMm: Float64Array;
  /** Same-rail spacing along the centre line, mm. */
  readonly spacingMm: Float64Array;
  /** The rails: left and right of the centre line as it is sewn. */
  readonly leftX: Float64Array;
  readonly leftY: Float64Array;
  readonly rightX: Float64Array;
  readonly rightY: Float64Array;
  readonly areaMm2: number;
  /** Mean swing direction in [0, 180), or null where there is none. */
  readonly angleDeg: number | null;
}

/**
 * Measures a column.
 *
 * @param x, y stitch positions, mm
 * @param from, to stitch indexes of the two ends of each swing in sewing order; at least two swings
 * @param room where the arrays of the column lie
 */
export function measureColumn(
  x: Float64Array,
  y: Float64Array,
  from: Int32Array,
  to: Int32Array,
  room = new ScratchRoom(),
): Column {
  const n = from.length;
  const store = room.take(n * 17);
  const part = (k: number) => store.subarray(k * n, (k + 1) * n);
  const [cx, cy, tx, ty, s, widthMm, spacingMm] = [0, 1, 2, 3, 4, 5, 6].map(part);
  const [leftX, leftY, rightX, rightY, mx, my] = [7, 8, 9, 10, 11, 12].map(part);
  const [envelopeMm, leftOff, rightOff, short] = [13, 14, 15, 16].map(part);

  const direction = sortRails(x, y, from, to, leftX, leftY, rightX, rightY);
  for (let j = 0; j < n; j++) {
    mx[j] = (leftX[j] + rightX[j]) / 2;
    my[j] = (leftY[j] + rightY[j]) / 2;
  }
  s[0] = 0;
  const lay = () => {
    smooth(mx, cx);
    smooth(my, cy);
    for (let j = 1; j < n; j++) {
      const dx = cx[j] - cx[j - 1];
      const dy = cy[j] - cy[j - 1];
      s[j] = s[j - 1] + Math.sqrt(dx * dx + dy * dy);
    }
    const advance = s[n - 1] / Math.max(1, n - 1);
    const reach = Math.max(1, Math.min(Math.round(TANGENT_REACH_MM / Math.max(advance, 1e-6)), (n - 1) >> 1));
    tangents(cx, cy, s, reach, tx, ty);
    return reach;
  };
  let reach = lay();
  let sumLeft = 0;
  for (let j = 0; j < n; j++) {
    const across = tx[j] * (leftY[j] - rightY[j]) - ty[j] * (leftX[j] - rightX[j]);
    sumLeft += across;
    widthMm[j] = Math.abs(across);
    leftOff[j] = tx[j] * (leftY[j] - cy[j]) - ty[j] * (leftX[j] - cx[j]);
    rightOff[j] = tx[j] * (rightY[j] - cy[j]) - ty[j] * (rightX[j] - cx[j]);
  }
  const side = sumLeft >= 0 ? 1 : -1;
  const dents = fillDents(leftOff, side, short) + fillDents(rightOff, -side, short);
  for (let j = 0; j < n; j++) envelopeMm[j] = Math.abs(leftOff[j] - rightOff[j]);
  if (dents >= MANY_DENTS * n) {
    // where ends stop short of one edge by turns the middle of the swings is not that of the column
    for (let j = 0; j < n; j++) {
      const off = (leftOff[j] + rightOff[j]) / 2;
      mx[j] = cx[j] - ty[j] * off;
      my[j] = cy[j] + tx[j] * off;
    }
    reach = lay();
  }
  const lengthMm = s[n - 1];
  const advance = lengthMm / Math.max(1, n - 1);
  spacings(cx, cy, tx, ty, reach, spacingMm);

  const gap = Math.hypot(cx[n - 1] - cx[0], cy[n - 1] - cy[0]);
  const meanWidth = Math.abs(sumLeft) / n;
  const closed = n > 12 && lengthMm > 3 * meanWidth && gap < Math.max(4 * advance, 0.35 * meanWidth);
  // which rail is "left" was a guess from the first swing until the centre line was known
  const swapped = !(sumLeft >= 0);
  return {
    count: n,
    cx,
    cy,
    tx,
    ty,
    s,
    widthMm,
    envelopeMm,
    spacingMm,
    areaMm2: railArea(leftX, leftY, rightX, rightY),
    lengthMm: lengthMm + (n > 1 ? advance : 0),
    angleDeg: closed ? null : direction,
    closed,
    leftX: swapped ? rightX : leftX,
    leftY: swapped ? rightY : leftY,
    rightX: swapped ? leftX : rightX,
    rightY: swapped ? leftY : rightY,
  };
}

/** Puts each swing's ends on their rails; returns the mean swing direction in degrees or null. */
function sortRails(
  x: Float64Array,
  y: Float64Array,
  from: Int32Array,
  to: Int32Array,
  ax: Float64Array,
  ay: Float64Array,
  bx: Float64Array,
  by: Float64Array,
): number | null {
  let ux = 0;
  let uy = 0;
  let c2 = 0;
  let s2 = 0;
  let weight = 0;
  for (let j = 0; j < from.length; j++) {
    let a = from[j];
    let b = to[j];
    let vx = x[b] - x[a];
    let vy = y[b] - y[a];
    if (vx * ux + vy * uy < 0) {
      [a, b] = [b, a];
      vx = -vx;
      vy = -vy;
    }
    ax[j] = x[a];
    ay[j] = y[a];
    bx[j] = x[b];
    by[j] = y[b];
    ux = vx;
    uy = vy;
    const l2 = vx * vx + vy * vy;
    if (l2 > 0) {
      c2 += (vx * vx - vy * vy) / l2;
      s2 += (2 * vx * vy) / l2;
      weight++;
    }
  }
  if (weight === 0 || Math.hypot(c2, s2) < DIRECTION_RESULTANT * weight) return null;
  const deg = radToDeg(Math.atan2(s2, c2)) / 2;
  return deg < 0 ? (deg + 180) % 180 : deg;
}

/** Average over four steps, with half weight at both ends; narrower towards the ends of the array. */
export function smooth(raw: Float64Array, out: Float64Array): void {
  const n = raw.length;
  for (let j = 0; j < n; j++) {
    const h = Math.min(2, j, n - 1 - j);
    if (h === 2) {
      out[j] = (raw[j - 2] / 2 + raw[j - 1] + raw[j] + raw[j + 1] + raw[j + 2] / 2) / 4;
    } else if (h === 1) {
      out[j] = (raw[j - 1] / 2 + raw[j] + raw[j + 1] / 2) / 2;
    } else {
      out[j] = raw[j];
    }
  }
}

/**
 * Moves ends out to the edge of their rail. An end that stops short of it, as every second or third does on the inside of a bend, lies in a
 * dent: the edge goes straight on between the ends beside it that lie farther out.
 *
 * @param offset how far the ends on one rail lie from the centre line
 * @param side their sign
 * @param short room for how far each stops short
 * @returns how many were moved
 */
function fillDents(offset: Float64Array, side: number, short: Float64Array): number {
  let dents = 0;
  for (let j = 0; j < offset.length; j++) {
    short[j] = dent(offset, j, side);
    if (short[j] > 0) dents++;
  }
  if (dents === 0 || isRagged(offset, short)) return 0;
  for (let j = 0; j < offset.length; j++) offset[j] += side * short[j];
  return dents;
}

/** Whether the ends that none of their neighbours outreaches make no smooth edge either: then what is short is not told. */
function isRagged(offset: Float64Array, short: Float64Array): boolean {
  // counted, not sorted: the middle one is above where at least half of them are
  let bends = 0;
  let above = 0;
  let kept = 0;
  let [beforeLast, last] = [0, 0];
  // two swings in turn share each end of a zigzag
  for (let j = 0; j < offset.length; j += 2) {
    if (short[j] !== 0) continue;
    if (kept >= 2) {
      bends++;
      if (Math.abs(beforeLast - 2 * last + offset[j]) / 2 > RAGGED_MM) above++;
    }
    beforeLast = last;
    last = offset[j];
    kept++;
  }
  return bends > 0 && above >= bends - (bends >> 1);
}

/** How far the end of swing `j` stops short of the edge between its neighbours on the same rail, mm; 0 where it does not. */
function dent(offset: Float64Array, j: number, side: number): number {
  const n = offset.length;
  let deepest = DENT_MM;
  let short = 0;
  for (let a = j - 1; a >= Math.max(0, j - DENT_REACH); a--) {
    const da = side * (offset[a] - offset[j]);
    if (da <= DENT_MM / 2) continue;
    for (let b = j + 1; b <= Math.min(n - 1, j + DENT_REACH); b++) {
      const db = side * (offset[b] - offset[j]);
      if (db <= DENT_MM / 2) continue;
      const depth = (da * (b - j) + db * (j - a)) / (b - a);
      if (depth > deepest) {
        deepest = depth;
        short = depth;
      }
    }
  }
  return short;
}

/** Unit tangents; where a full window does not fit, the turning rate beside it is carried on. */
function tangents(
  cx: Float64Array,
  cy: Float64Array,
  s: Float64Array,
  reach: number,
  tx: Float64Array,
  ty: Float64Array,
): void {
  const n = cx.length;
  const first = Math.min(reach, (n - 1) >> 1);
  const last = n - 1 - first;
  for (let j = first; j <= last; j++) {
    const dx = cx[j + first] - cx[j - first];
    const dy = cy[j + first] - cy[j - first];
    const l = Math.sqrt(dx * dx + dy * dy);
    // a centre line that stands still keeps the direction it had
    tx[j] = l > 0 ? dx / l : j > first ? tx[j - 1] : 1;
    ty[j] = l > 0 ? dy / l : j > first ? ty[j - 1] : 0;
  }
  const carry = (edge: number, inner: number, from: number, to: number) => {
    const run = s[inner] - s[edge];
    const turned = Math.atan2(
      tx[edge] * ty[inner] - ty[edge] * tx[inner],
      tx[edge] * tx[inner] + ty[edge] * ty[inner],
    );
    const rate = run !== 0 ? turned / run : 0;
    for (let j = from; j < to; j++) {
      const angle = Math.max(-MOST_CARRIED, Math.min(MOST_CARRIED, rate * (s[j] - s[edge])));
      const c = Math.cos(angle);
      const d = Math.sin(angle);
      tx[j] = tx[edge] * c - ty[edge] * d;
      ty[j] = tx[edge] * d + ty[edge] * c;
    }
  };
  carry(first, Math.min(last, 2 * first), 0, first);
  carry(last, Math.max(first, last - first), last + 1, n);
}

/** Twice the advance of the centre line a swing, as an arc, over a window of swings. */
function spacings(
  cx: Float64Array,
  cy: Float64Array,
  tx: Float64Array,
  ty: Float64Array,
  reach: number,
  out: Float64Array,
): void {
  const n = cx.length;
  for (let j = 0; j < n; j++) {
    const a = Math.max(0, Math.min(j - reach, n - 1 - 2 * reach));
    const b = Math.min(n - 1, a + 2 * reach);
    const dx = cx[b] - cx[a];
    const dy = cy[b] - cy[a];
    const chord = Math.sqrt(dx * dx + dy * dy);
    // an arc that turns by 2φ is φ / sin φ times as long as its chord
    const sinHalf = Math.sqrt(Math.max(0, (1 - tx[a] * tx[b] - ty[a] * ty[b]) / 2));
    const arc = sinHalf > 0.01 ? (chord * Math.asin(Math.min(1, sinHalf))) / sinHalf : chord;
    out[j] = b > a ? (2 * arc) / (b - a) : 0;
  }
}

/**
 * Area between the rails: the shoelace sum over one rail forward and the other back. For a ring the two runs
 * cancel over the hole, so the hole is not counted.
 */
function railArea(ax: Float64Array, ay: Float64Array, bx: Float64Array, by: Float64Array): number {
  const n = ax.length;
  let twice = 0;
  for (let j = 0; j + 1 < n; j++) {
    // the quadrilateral between two swings, as the cross product of its diagonals
    twice += (ax[j + 1] - bx[j]) * (by[j + 1] - ay[j]) - (ay[j + 1] - by[j]) * (bx[j + 1] - ax[j]);
  }
  return Math.abs(twice) / 2;
}
