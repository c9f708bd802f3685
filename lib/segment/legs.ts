/**
 * Legs: the straight pieces of thread between corners. One swing of a satin is a leg, one row of a fill is a leg,
 * so is each side of a run around a square. What happens from leg to leg tells the three apart.
 */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import { cosineOf, FINDER } from './parameters.js';

const MERGE_MM = FINDER.legMerge.value;
const RETRACE_MM = FINDER.retrace.value;
const RETRACE_STITCH_MM = FINDER.retraceStitch.value;
const CORNER_COS = cosineOf(FINDER.corner);

/**
 * Legs of one thread, in sewing order. `from` and `to` are stitch indexes; stitches from `to[i]` to `from[i + 1]`
 * are the short steps along an edge between two rows (none where the two are equal).
 */
export interface Legs {
  readonly count: number;
  readonly from: Int32Array;
  readonly to: Int32Array;
}

/** Scratch room for the longest thread of a design, so that nothing is allocated a stitch. */
export class LegFinder {
  private readonly vertex: Int32Array;
  private readonly from: Int32Array;
  private readonly to: Int32Array;

  constructor(
    private readonly stitches: Stitches,
    longest: number,
  ) {
    this.vertex = new Int32Array(longest);
    this.from = new Int32Array(longest);
    this.to = new Int32Array(longest);
  }

  /** Legs of the stitches from `first` to `last`. The result is overwritten by the next call. */
  find(first: number, last: number): Legs {
    const vertices = this.collectVertices(first, last);
    const count = this.splitAtCorners(vertices);
    return { count, from: this.from, to: this.to };
  }

  /** Vertices without the points that merge with their neighbour, and without triple-stitch repeats. */
  private collectVertices(first: number, last: number): number {
    const { x, y } = this.stitches;
    const v = this.vertex;
    let n = 0;
    v[n++] = first;
    let px = x[first];
    let py = y[first];
    for (let i = first + 1; i <= last; i++) {
      const dx = x[i] - px;
      const dy = y[i] - py;
      if (dx * dx + dy * dy < MERGE_MM * MERGE_MM) continue;
      v[n++] = i;
      px = x[i];
      py = y[i];
      // A B A B: the second pair is the back and forth of a triple stitch
      if (
        n >= 4 &&
        near(x, y, v[n - 1], v[n - 3], RETRACE_MM) &&
        near(x, y, v[n - 2], v[n - 4], RETRACE_MM) &&
        !near(x, y, v[n - 1], v[n - 2], RETRACE_STITCH_MM) &&
        !this.getsOn(i, first, last)
      ) {
        n -= 2;
      }
    }
    return n;
  }

  /** Whether the stitches before a point, or those after it, are the swings of a very dense column, which get on little by little. */
  private getsOn(i: number, first: number, last: number): boolean {
    return this.getsOnBy(-2, i, first, last) || this.getsOnBy(2, i, first, last);
  }

  private getsOnBy(step: 2 | -2, a: number, first: number, last: number): boolean {
    const [b, c, d] = [a + step, a + 2 * step, a + 3 * step];
    if (d < first || d > last) return false;
    const { x, y } = this.stitches;
    const apart = (i: number, j: number) => distance(x[i], y[i], x[j], y[j]);
    if (Math.max(apart(a, b), apart(b, c), apart(c, d)) > FINDER.denseStep.value) return false;
    return apart(a, d) >= FINDER.denseWay.value;
  }

  private splitAtCorners(vertices: number): number {
    const { x, y } = this.stitches;
    const { vertex: v, from, to } = this;
    if (vertices < 2) return 0;
    let n = 0;
    from[0] = v[0];
    let px = x[v[1]];
    let py = y[v[1]];
    let ax = px - x[v[0]];
    let ay = py - y[v[0]];
    let al = Math.sqrt(ax * ax + ay * ay);
    for (let k = 1; k + 1 < vertices; k++) {
      const qx = x[v[k + 1]];
      const qy = y[v[k + 1]];
      const bx = qx - px;
      const by = qy - py;
      px = qx;
      py = qy;
      const bl = Math.sqrt(bx * bx + by * by);
      if (ax * bx + ay * by < CORNER_COS * al * bl) {
        const merged = this.lastMerged(v[k], v[k + 1]);
        to[n++] = farthest(x, y, v[k], merged, ax, ay);
        from[n] = farthest(x, y, merged, to[n - 1], x[merged] - x[v[k + 1]], y[merged] - y[v[k + 1]]);
      }
      ax = bx;
      ay = by;
      al = bl;
    }
    to[n++] = v[vertices - 1];
    return n;
  }

  /** The last of the points that were merged into vertex `a`, before the next vertex. */
  private lastMerged(a: number, next: number): number {
    const { x, y } = this.stitches;
    let last = a;
    while (last + 1 < next && near(x, y, last + 1, a, MERGE_MM)) last++;
    return last;
  }
}

/** Of the points from `a` to `b` (either may be the larger) the first that reaches farthest in a direction. */
function farthest(x: Float64Array, y: Float64Array, a: number, b: number, dx: number, dy: number): number {
  let best = a;
  const step = b < a ? -1 : 1;
  for (let i = a; i !== b; ) {
    i += step;
    if ((x[i] - x[best]) * dx + (y[i] - y[best]) * dy > 0) best = i;
  }
  return best;
}

function near(x: Float64Array, y: Float64Array, a: number, b: number, d: number): boolean {
  const dx = x[a] - x[b];
  const dy = y[a] - y[b];
  return dx * dx + dy * dy < d * d;
}
