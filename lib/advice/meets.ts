import { gradeOf } from '../mechanics/score.js';
import type { Accepted } from './accepted.js';

/** Whether the standard is met: in nine draws of ten and more, in one of ten and fewer, or in between. */
export type Meets = 'yes' | 'may' | 'no';

/** The standard is met where it is in this part of the draws, and missed where it is missed in as many. */
export const SURE = 0.9;

/** @param chance part of the draws in which it is met */
export const meetsAt = (chance: number): Meets =>
  chance >= SURE ? 'yes' : chance <= 1 - SURE + 1e-9 ? 'no' : 'may';

/** The upper end of a predicted range: nine tenths of the draws lie below it. */
export interface UpperEnd {
  readonly wrinkleMm: number;
  readonly grade: number;
  /** After so many launderings. */
  readonly washes: number;
}

/** A predicted range, and after how many launderings. */
interface WashedRange {
  readonly range: Readonly<Record<'score' | 'wrinkleMm', readonly [low: number, high: number]>>;
  readonly washes: number;
}

/**
 * What may miss the standard of a setup that most likely meets it: the upper end of the range, as sewn or washed, that falls farther short.
 *
 * @returns null where both upper ends meet it
 */
export function upperMiss(
  { riskNow, riskWashed }: Readonly<Record<'riskNow' | 'riskWashed', WashedRange>>,
  accepted: Accepted,
): UpperEnd | null {
  const ends = (
    [
      [riskNow, accepted.grade],
      [riskWashed, accepted.washedGrade],
    ] as const
  ).map(([{ range, washes }, least]) => {
    const grade = gradeOf(Math.round(range.score[1] * 10) / 10);
    return { wrinkleMm: range.wrinkleMm[1], grade, washes, short: least - grade };
  });
  const { short, ...end } = ends[1].short >= ends[0].short ? ends[1] : ends[0];
  return short > 0 ? end : null;
}
