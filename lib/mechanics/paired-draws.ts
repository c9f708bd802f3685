/** Draws of a figure summed up, and two results beside each other over the same draws. */
import { quantileSorted } from 'simple-statistics';

/** Tenth, half and nine tenths of the draws lie below these. */
export type Quantiles = [p10: number, p50: number, p90: number];

export function quantilesOf(draws: ArrayLike<number>): Quantiles {
  const sorted = Array.from(draws).sort((a, b) => a - b);
  return [quantileSorted(sorted, 0.1), quantileSorted(sorted, 0.5), quantileSorted(sorted, 0.9)];
}

/** One result beside another over the same draws. */
export interface PairedDraws {
  /** Height of this one over that of the other. */
  readonly ratio: Quantiles;
  /** Part of the draws in which this one lies flatter; where both lie flat, half of them. */
  readonly flatterIn: number;
}

/** Heights that look alike, mm. */
const ALIKE_MM = 0.005;
/** Two that are both next to nothing are alike. */
const NOTHING_MM = 0.02;

export function pairedDraws(these: ArrayLike<number>, others: ArrayLike<number>): PairedDraws {
  const ratios: number[] = [];
  let flatter = 0;
  for (let k = 0; k < these.length; k++) {
    ratios.push((these[k] + NOTHING_MM) / (others[k] + NOTHING_MM));
    const higher = these[k] - others[k];
    flatter += Math.abs(higher) <= ALIKE_MM ? 0.5 : higher < 0 ? 1 : 0;
  }
  return { ratio: quantilesOf(ratios), flatterIn: flatter / these.length };
}

/** A result that can be ranked. */
export interface Ranked {
  /** Heights draw by draw, mm. */
  readonly draws: ArrayLike<number>;
}

/** Fewer draws than this part of them do not settle which of two lies flatter. */
const SETTLED = 0.9;

/** True where which of two results lies flatter is not settled. */
export function withinRange(a: Ranked, b: Ranked): boolean {
  const { flatterIn } = pairedDraws(a.draws, b.draws);
  return flatterIn < SETTLED && 1 - flatterIn < SETTLED;
}

/** True where this one lies flatter in so many draws that it is settled. */
export const isSurelyFlatter = (one: Ranked, other: Ranked): boolean =>
  pairedDraws(one.draws, other.draws).flatterIn >= SETTLED;
