import { bareLength, length, type Units } from './quantities.js';
import type { Paint } from './render/paint.js';

/** Plain words for smoothness grades, smoothest first; each holds the grades from its own down to the next. */
export const RISK_WORDS = [
  { word: 'lies flat', from: 4.5 },
  { word: 'slight', from: 3.5 },
  { word: 'visible', from: 2.5 },
  { word: 'bad', from: 1 },
] as const;

export type RiskWord = (typeof RISK_WORDS)[number]['word'];

/** Index into {@link RISK_WORDS} of a grade from 5 (smooth) to 1 (severe). */
export function riskStep(grade: number): number {
  const step = RISK_WORDS.findIndex(({ from }) => grade >= from);
  return step < 0 ? RISK_WORDS.length - 1 : step;
}

/** What wrinkles of a grade look like. */
export const riskWord = (grade: number): RiskWord => RISK_WORDS[riskStep(grade)].word;

/** `lies flat`, or `slight to bad`. */
export function riskWordRange([low, high]: readonly [number, number]): string {
  const [from, to] = [riskWord(high), riskWord(low)];
  return from === to ? from : `${from} to ${to}`;
}

/** Whether a height prints as more than nothing. */
export const isSeen = (wrinkleMm: number, units: Units): boolean => Number(bareLength(wrinkleMm, units)) > 0;

/** `wrinkles about 0.21 mm high (most likely 0.00 to 0.49)`. */
export function wrinkleWords(
  { wrinkleMm, range }: { wrinkleMm: number; range: { wrinkleMm: readonly [number, number] } },
  units: Units,
): string {
  const [low, high] = range.wrinkleMm;
  return isSeen(wrinkleMm, units)
    ? `wrinkles about ${length(wrinkleMm, units)} high (most likely ${bareLength(low, units)} to ${bareLength(high, units)})`
    : `no wrinkles predicted (most likely ${bareLength(low, units)} to ${length(high, units)})`;
}

/** How the word is set apart on a terminal. */
export function riskPaint(grade: number, paint: Paint): (text: string) => string {
  return [paint.sound, paint.note, paint.warn, paint.fail][riskStep(grade)];
}
