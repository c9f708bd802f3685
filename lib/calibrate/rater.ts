/** What a person writes down of a sew-out. */
import { errorFunction } from 'simple-statistics';

/**
 * How far one person's grade is off, one standard deviation: half a grade, the step in which grades are given. Our own assumption; never taken
 * to be less, and more where a log shows more.
 */
export const RATING_NOISE = 0.5;

const LOWEST = 1;
const HIGHEST = 5;
const STEP = 0.5;

/**
 * The grade that a person writes down on the average where the fabric deserves `grade` (any number from 1 to 5): the nearest half step of what
 * they see, and nothing above 5 or below 1. Near the ends that is not the grade itself: who is off by half a grade cannot be off upward from 5.
 */
export function writtenGrade(grade: number, noise = RATING_NOISE): number {
  // The sum over the steps of the part that lies beyond each: 1 + ½·Σ P(written ≥ step).
  let sum = LOWEST;
  for (let step = LOWEST + STEP; step <= HIGHEST; step += STEP)
    sum += STEP * normalBelow((grade - (step - STEP / 2)) / noise);
  return sum;
}

const normalBelow = (z: number): number => (1 + errorFunction(z / Math.SQRT2)) / 2;

/** A grade that may stand in a log. */
export const isGrade = (grade: number): boolean =>
  grade >= LOWEST && grade <= HIGHEST && Number.isInteger(grade / STEP);
