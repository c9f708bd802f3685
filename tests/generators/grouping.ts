import { Break, penetrations } from '../../lib/format/stitches.js';
import type { Case } from './pen.js';

/** Whether an object and the one before it belong to one group; open where people may differ. */
export type Tie = 'same' | 'apart' | 'open';

const SAMPLE = 0.3;
const TOUCH = 0.4;
const CLEAR = 1.5;

/** Least distance between the drawn lines of two objects' top stitching, by points along them; Infinity beyond `CLEAR`. */
function leastGap(c: Case, x: Float64Array, y: Float64Array, a: number, b: number): number {
  const points = (of: number): [number, number][] => {
    const out: [number, number][] = [];
    const [first, last] = c.objects[of].range;
    for (let i = first + 1; i <= last; i++) {
      if (c.owner[i] !== of || c.owner[i - 1] !== of || c.role[i] === 'underlay' || c.role[i] === 'travel')
        continue;
      const n = Math.max(1, Math.ceil(Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]) / SAMPLE));
      for (let k = 0; k <= n; k++)
        out.push([x[i - 1] + ((x[i] - x[i - 1]) * k) / n, y[i - 1] + ((y[i] - y[i - 1]) * k) / n]);
    }
    return out;
  };
  const cells = new Map<string, [number, number][]>();
  for (const p of points(a)) {
    const key = `${Math.floor(p[0] / CLEAR)},${Math.floor(p[1] / CLEAR)}`;
    const cell = cells.get(key);
    if (cell) cell.push(p);
    else cells.set(key, [p]);
  }
  let least = Infinity;
  for (const [px, py] of points(b)) {
    for (let i = -1; i <= 1; i++)
      for (let j = -1; j <= 1; j++)
        for (const q of cells.get(`${Math.floor(px / CLEAR) + i},${Math.floor(py / CLEAR) + j}`) ?? [])
          least = Math.min(least, Math.hypot(px - q[0], py - q[1]));
    if (least < TOUCH) return least;
  }
  return least;
}

/**
 * For every object but the first: its tie to the one before. Cut thread or clear distance parts them; sewn on and touching
 * ties them. Left open: a stop between them, a gap of no clear size, and two that touch only through a third.
 */
export function ties(c: Case): Tie[] {
  const s = penetrations(c.design);
  const firstOf = (of: number) => {
    const u = c.objects[of].underlay.range;
    // Underlay that was sewn before the object before it is no part of the way from that object to this one.
    return u && of > 0 && u[1] > c.objects[of - 1].range[0]
      ? Math.min(u[0], c.objects[of].range[0])
      : c.objects[of].range[0];
  };
  return c.objects.slice(1).map((_, i) => {
    let strongest: number = Break.none;
    for (let k = Math.min(firstOf(i + 1), c.objects[i].range[1]) + 1; k <= c.objects[i + 1].range[0]; k++)
      strongest = Math.max(strongest, s.breakBefore[k]);
    if (strongest >= Break.trim) return 'apart';
    if (strongest === Break.stop) return 'open';
    const gap = leastGap(c, s.x, s.y, i, i + 1);
    if (gap < TOUCH) return 'same';
    const third = c.objects.some(
      (_, k) =>
        k !== i &&
        k !== i + 1 &&
        leastGap(c, s.x, s.y, i, k) < CLEAR &&
        leastGap(c, s.x, s.y, i + 1, k) < CLEAR,
    );
    return gap < CLEAR || third ? 'open' : 'apart';
  });
}
