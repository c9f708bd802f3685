import type { Point } from './plane.js';
import type { Rows } from './rows.js';

/** Going over rows already sewn costs this many times as much as going under rows still to come. */
const OVER_SEWN = 8;
/** Travel keeps this far from the ends of the rows. */
const MARGIN_MM = 0.5;

/** The stretch of some section that a point of the row frame lies in or nearest to. */
function stretchAt(rows: Rows, p: Point): number {
  let best = 0;
  let bestMiss = Infinity;
  rows.sections.flat().forEach((i) => {
    const s = rows.stretches[i];
    const miss = Math.hypot(Math.max(0, s.x0 - p.x, p.x - s.x1), s.y - p.y);
    if (miss < bestMiss) [best, bestMiss] = [i, miss];
  });
  return best;
}

/** Cheapest ways from one stretch to all others: what each costs, and the stretch it is reached from. */
function waysFrom(
  rows: Rows,
  from: number,
  sewn: readonly boolean[],
): { cost: Float64Array; came: Int32Array } {
  const { stretches } = rows;
  const cost = new Float64Array(stretches.length).fill(Infinity);
  const came = new Int32Array(stretches.length).fill(-1);
  const buckets: number[][] = [[from]];
  cost[from] = 0;
  for (let c = 0; c < buckets.length; c++)
    for (const at of buckets[c] ?? []) {
      if (cost[at] !== c) continue;
      for (const next of [...stretches[at].below, ...stretches[at].above]) {
        const total = c + (sewn[next] ? OVER_SEWN : 1);
        if (total >= cost[next]) continue;
        cost[next] = total;
        came[next] = at;
        if (!buckets[total]) buckets[total] = [];
        buckets[total].push(next);
      }
    }
  return { cost, came };
}

/** What it costs to travel from `a` (row frame) to each stretch; compare with others of the same call only. */
export const travelCosts = (rows: Rows, a: Point, sewn: readonly boolean[]): Float64Array =>
  waysFrom(rows, stretchAt(rows, a), sewn).cost;

/**
 * A way through the area from `a` to `b` (row frame) that stays under rows still to be sewn where it can: the corner
 * points of the way without `a`, ending with `b`.
 */
export function hiddenWay(rows: Rows, a: Point, b: Point, sewn: readonly boolean[]): Point[] {
  const start = stretchAt(rows, a);
  const { came } = waysFrom(rows, start, sewn);
  const path = [stretchAt(rows, b)];
  while (path[0] !== start) path.unshift(came[path[0]]);
  const gates = path.slice(1).map((k, i) => {
    const [p, q] = [rows.stretches[path[i]], rows.stretches[k]];
    const low = Math.max(p.x0, q.x0);
    const high = Math.min(p.x1, q.x1);
    const margin = Math.min(MARGIN_MM, (high - low) / 2);
    return { y: q.y, low: low + margin, high: high - margin };
  });
  const corners: Point[] = [];
  let from = a;
  let at = 0;
  while (at < gates.length) {
    let reach = at;
    let corner = clampTo(gates[at], from.x);
    for (let far = at + 1; far <= gates.length; far++) {
      const target = far === gates.length ? b : clampTo(gates[far], corner.x);
      if (!straight(from, target, gates, at, Math.min(far, gates.length - 1))) continue;
      reach = far;
      corner = target;
    }
    corners.push(corner);
    if (reach === gates.length) return corners;
    from = corner;
    at = reach + 1;
  }
  corners.push(b);
  return corners;
}

const clampTo = (gate: { y: number; low: number; high: number }, x: number): Point => ({
  x: Math.min(gate.high, Math.max(gate.low, x)),
  y: gate.y,
});

function straight(
  from: Point,
  to: Point,
  gates: readonly { y: number; low: number; high: number }[],
  first: number,
  last: number,
): boolean {
  const rise = to.y - from.y;
  for (let i = first; i <= last; i++) {
    const t = rise === 0 ? -1 : (gates[i].y - from.y) / rise;
    // A gate outside the span means that the way turns back there.
    if (t < -1e-9 || t > 1 + 1e-9) return false;
    const x = from.x + (to.x - from.x) * t;
    if (x < gates[i].low - 1e-9 || x > gates[i].high + 1e-9) return false;
  }
  return true;
}
