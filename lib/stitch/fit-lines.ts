/** The lines of a blend that follow the needle points of its rows, by least squares over all of them at once. */
import { type Curve, MOST_ORDER, weigh } from './curve.js';

/** A needle point of a row. */
export interface RowPoint {
  /** How far its row is from the first to the last, and how far on it lies in that, both 0 to 1. */
  readonly among: number;
  readonly share: number;
  /** Where: its coordinates, or its distance from a middle, mm. */
  readonly value: readonly number[];
}

/** What a line is made of: straight from corner to corner, so many of them evenly over the row, or one arc of so many control points (none: it stays where it is). */
export interface LineMake {
  readonly sides?: number;
  readonly points: number;
  readonly closed: boolean;
}

/** How many unknowns a line has in each coordinate. */
const unknownsIn = ({ points, closed }: LineMake): number => (closed && points > 0 ? points : points + 1);

/** Which unknowns a place on a line hangs on, and what they weigh. */
function weightsAt({ sides, points, closed }: LineMake, share: number): [number, number][] {
  if (points === 0) return [[0, 1]];
  const around = (n: number) => (closed && n === points ? 0 : n);
  if (sides !== undefined) {
    const n = Math.min(sides - 1, Math.floor(share * sides));
    const f = share * sides - n;
    return [
      [around(n), 1 - f],
      [around(n + 1), f],
    ];
  }
  const order = Math.min(MOST_ORDER, points);
  const weights = new Float64Array(order + 1);
  const first = weigh(points, Math.max(0, Math.min(1, share)), weights, 0);
  return [...weights].map((weight, p) => [around(first + p), weight]);
}

/** So many lines, evenly from the first row to the last; null where the points do not tell them. */
export function fitLines(points: readonly RowPoint[], make: LineMake, lines: number): Curve[] | null {
  const each = unknownsIn(make);
  const n = each * lines;
  const channels = points[0].value.length;
  const width = n + channels;
  const system = new Float64Array(n * width);
  for (const { among, share, value } of points) {
    const at = among * (lines - 1);
    const line = Math.min(lines - 2, Math.floor(at));
    const terms = weightsAt(make, share).flatMap(([k, weight]): [number, number][] => [
      [line * each + k, weight * (line + 1 - at)],
      [(line + 1) * each + k, weight * (at - line)],
    ]);
    for (const [p, weight] of terms) {
      for (const [q, other] of terms) system[p * width + q] += weight * other;
      for (let c = 0; c < channels; c++) system[p * width + n + c] += weight * value[c];
    }
  }
  if (!eliminate(system, n, width)) return null;
  return Array.from({ length: lines }, (_, line) => {
    const unknown = (k: number) =>
      Array.from({ length: channels }, (_, c) => system[(line * each + (k % each)) * width + n + c]);
    return lineOf(make, unknown);
  });
}

function lineOf({ sides, points }: LineMake, unknown: (k: number) => number[]): Curve {
  const after = Array.from({ length: points }, (_, k) => unknown(k + 1));
  const start = unknown(0);
  if (points === 0) return { from: 0, start, arcs: [] };
  if (sides === undefined) return { from: 0, start, arcs: [{ to: 1, points: after }] };
  return { from: 0, start, arcs: after.map((point, k) => ({ to: (k + 1) / sides, points: [point] })) };
}

/** Solves a symmetric system in place, its right sides in the last columns (Gauss and Jordan's); false where it has no one solution. */
function eliminate(system: Float64Array, n: number, width: number): boolean {
  let most = 0;
  for (let p = 0; p < n; p++) most = Math.max(most, system[p * width + p]);
  for (let p = 0; p < n; p++) {
    const pivot = system[p * width + p];
    if (!(pivot > 1e-9 * most)) return false;
    for (let k = p; k < width; k++) system[p * width + k] /= pivot;
    for (let row = 0; row < n; row++) {
      const f = system[row * width + p];
      if (row === p || f === 0) continue;
      for (let k = p; k < width; k++) system[row * width + k] -= f * system[p * width + k];
    }
  }
  return true;
}
