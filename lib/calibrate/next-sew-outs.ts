/** Which further sew-outs would say most: those that raise the determinant of the information most (D-optimality). */
import { type GradeFit, quadratic, slopesAt } from './fit.js';
import type { FreeName } from './free-parameters.js';
import type { HeightTable } from './heights.js';

export interface Candidate<S> {
  readonly setting: S;
  readonly table: Pick<HeightTable, 'height'>;
}

export interface Suggestion<S> {
  readonly setting: S;
  /** How many of them. */
  readonly sewOuts: number;
  /** The interval that becomes narrower by the largest part, and that part. */
  readonly narrows: { readonly name: FreeName; readonly part: number };
}

/** Sew-outs of one kind at a time: one by itself is lost in what a person's grade is off by. */
const SEW_OUTS = 4;
const MOST = 3;
/** What narrows nothing by this part is not worth sewing. */
const LEAST_PART = 0.01;

/** Best first; each is chosen as if those before it had been sewn. */
export function nextSewOuts<S>(fit: GradeFit, candidates: readonly Candidate<S>[]): Suggestion<S>[] {
  const names = fit.parameters.map(({ name }) => name);
  const rows = candidates.map(({ table }) =>
    slopesAt(table, fit.values, names).map((slope) => slope / fit.noise),
  );
  let covariance = fit.covariance;
  const out: Suggestion<S>[] = [];
  const left = new Set(candidates.keys());
  while (out.length < MOST && left.size > 0) {
    let best = -1;
    let most = 0;
    for (const c of left) {
      const says = quadratic(rows[c], covariance);
      if (says > most) [best, most] = [c, says];
    }
    if (best < 0) break;
    left.delete(best);
    const after = withRow(covariance, rows[best], SEW_OUTS);
    const parts = names.map((_, k) => 1 - Math.sqrt(after[k][k] / covariance[k][k]));
    const k = parts.indexOf(Math.max(...parts));
    if (parts[k] < LEAST_PART) break;
    out.push({
      setting: candidates[best].setting,
      sewOuts: SEW_OUTS,
      narrows: { name: names[k], part: parts[k] },
    });
    covariance = after;
  }
  return out;
}

/** (C⁻¹ + n·rᵀr)⁻¹, by Sherman's and Morrison's formula. */
function withRow(
  covariance: readonly (readonly number[])[],
  row: readonly number[],
  count: number,
): number[][] {
  const along = covariance.map((line) => line.reduce((sum, c, j) => sum + c * row[j], 0));
  const scale = count / (1 + count * quadratic(row, covariance));
  return covariance.map((line, i) => line.map((c, j) => c - scale * along[i] * along[j]));
}
