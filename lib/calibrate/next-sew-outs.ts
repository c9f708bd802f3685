/** Which further sew-outs or readings would say most: those that raise the determinant of the information most (D-optimality). */
import { type Fit, type Looked, quadratic, slopesAt } from './fit.js';
import type { FreeName } from './free-parameters.js';

export interface SewOutCandidate<S> {
  readonly setting: S;
  readonly looked: Looked;
}

export interface Suggestion<S> {
  readonly setting: S;
  /** The object whose width is to be measured; null where the design is to be sewn and graded. */
  readonly object: number | null;
  /** How many of them. */
  readonly sewOuts: number;
  /** The interval that becomes narrower by the largest part, and that part. */
  readonly narrows: { readonly name: FreeName; readonly part: number };
}

/** Graded sew-outs of one kind at a time: one by itself is lost in what a person's grade is off by. A width is read once. */
const TIMES = { grade: 4, width: 1 } as const;
const MOST = 3;
/** What narrows nothing by this part is not worth sewing. */
const LEAST_PART = 0.01;

/** Best first; each is chosen as if those before it had been done. */
export function nextSewOuts<S>(
  fit: Pick<Fit, 'parameters' | 'values' | 'covariance' | 'noise'>,
  candidates: readonly SewOutCandidate<S>[],
): Suggestion<S>[] {
  const names = fit.parameters.map(({ name }) => name);
  const rows = candidates.map(({ looked }) =>
    slopesAt(looked, fit.values, names).map((slope) => slope / fit.noise[looked.of]),
  );
  let covariance = fit.covariance;
  const out: Suggestion<S>[] = [];
  const left = new Set(candidates.keys());
  while (out.length < MOST && left.size > 0) {
    let best = -1;
    let most = 0;
    for (const c of left) {
      const says = TIMES[candidates[c].looked.of] * quadratic(rows[c], covariance);
      if (says > most) [best, most] = [c, says];
    }
    if (best < 0) break;
    left.delete(best);
    const { setting, looked } = candidates[best];
    const after = withRow(covariance, rows[best], TIMES[looked.of]);
    const parts = names.map((_, k) => 1 - Math.sqrt(after[k][k] / covariance[k][k]));
    const k = parts.indexOf(Math.max(...parts));
    if (parts[k] < LEAST_PART) break;
    out.push({
      setting,
      object: looked.of === 'width' ? looked.object : null,
      sewOuts: TIMES[looked.of],
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
