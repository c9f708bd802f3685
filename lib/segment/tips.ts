/**
 * The last swing of a column can be lost to what the thread does next, and the swings at a pointed end are too small to show as legs. They are told by
 * going on as the column does: a swing as long as the one before that ends beside its rail; a tip one step farther out, on the centre line, and hardly longer.
 */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import { FINDER } from './parameters.js';

const LOOK_BACK = FINDER.tipSwings.value;

/**
 * Stitch indexes of the needle points of further whole swings beyond one end of a column, outward.
 *
 * @param pitchMm of the column; for the rest see {@link goOnToTip}
 */
export function goOnSwinging(
  { x, y }: Stitches,
  from: Int32Array,
  to: Int32Array,
  end: -1 | 1,
  limit: number,
  pitchMm: number,
): number[] {
  const outermost = end < 0 ? 0 : from.length - 1;
  if (to[outermost] - from[outermost] > 1) return [];
  const apart = (a: number, b: number) => distance(x[a], y[a], x[b], y[b]);
  const reach = FINDER.railPitches.value * pitchMm;
  const taken: number[] = [];
  let [inner, at] = end < 0 ? [to[outermost], from[outermost]] : [from[outermost], to[outermost]];
  while (at !== limit) {
    const next = at + end;
    const [long, before] = [apart(at, next), apart(inner, at)];
    // of swings no longer than that any point lies beside the rail
    if (before < 2 * reach || apart(inner, next) > reach) break;
    if (Math.abs(long - before) > FINDER.swingDiffers.value * before) break;
    taken.push(next);
    [inner, at] = [at, next];
  }
  return taken;
}

/**
 * Stitch indexes of the needle points of further swings beyond one end of a column, outward.
 *
 * @param from, to ends of its swings in the order in which they are sewn
 * @param end -1 for its start, 1 for its end
 * @param limit last stitch index that may be taken
 */
export function goOnToTip(
  { x, y }: Stitches,
  from: Int32Array,
  to: Int32Array,
  end: -1 | 1,
  limit: number,
): number[] {
  const n = from.length;
  const outermost = end < 0 ? 0 : n - 1;
  const inner = end < 0 ? Math.min(LOOK_BACK, n - 1) : Math.max(0, n - 1 - LOOK_BACK);
  const middle = (a: number, b: number): [number, number] => [(x[a] + x[b]) / 2, (y[a] + y[b]) / 2];
  const [ix, iy] = middle(from[inner], to[inner]);
  let [mx, my] = middle(from[outermost], to[outermost]);
  const way = distance(ix, iy, mx, my);
  const step = way / Math.abs(inner - outermost || 1);
  if (step === 0) return [];
  const [ux, uy] = [(mx - ix) / way, (my - iy) / way];
  const taken: number[] = [];
  let at = end < 0 ? from[outermost] : to[outermost];
  let length = distance(x[from[outermost]], y[from[outermost]], x[to[outermost]], y[to[outermost]]);
  // a column as wide as ever at its end is not pointed
  if (length > FINDER.tipStart.value) return [];
  while (at !== limit) {
    const next = at + end;
    const [nx, ny] = middle(at, next);
    const along = (nx - mx) * ux + (ny - my) * uy;
    const beside = Math.abs((ny - my) * ux - (nx - mx) * uy);
    const long = distance(x[at], y[at], x[next], y[next]);
    const across = Math.abs((y[next] - y[at]) * ux - (x[next] - x[at]) * uy);
    const fits =
      long >= FINDER.tipLeast.value * FINDER.grid.value &&
      along > FINDER.tipLeastStep.value * step &&
      along < FINDER.tipMostStep.value * step + FINDER.grid.value &&
      beside < FINDER.tipBeside.value + FINDER.tipBesideShare.value * length &&
      long < FINDER.tipLonger.value * length + FINDER.grid.value &&
      (across > long / 2 || long < FINDER.tipFree.value * FINDER.grid.value);
    if (!fits) break;
    taken.push(next);
    at = next;
    mx = nx;
    my = ny;
    length = Math.max(long, FINDER.grid.value);
  }
  return taken;
}
