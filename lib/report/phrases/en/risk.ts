/** How a predicted pucker is said: its grade in a word, its height, where it comes from. */
import type { Cause } from '../../../mechanics/drivers.js';
import type { Voice } from '../voice.js';

export interface CauseWords {
  readonly short: string;
  /** Follows `short` and a colon. */
  readonly why: string;
}

/** What each cause is called, and one sentence for a person at the machine. */
const causes: Readonly<Record<Cause | 'no-backing', CauseWords>> = {
  width: { short: 'wide stitches', why: 'long swings of satin pull harder than short stitches' },
  spacing: { short: 'close spacing', why: 'more threads side by side pull more' },
  underlay: { short: 'the underlay', why: 'its own stitches pull on the fabric, too' },
  layers: { short: 'stitching on stitching', why: 'layers that lie on each other all pull' },
  fabric: { short: 'the fabric', why: 'it gives; on firm canvas the same design would lie flatter' },
  backing: { short: 'the backing', why: 'twice as much of it would hold more' },
  laundering: { short: 'washing', why: 'thread and fabric shrink after sewing' },
  hooping: { short: 'stretch in the hoop', why: 'fabric hooped on the stretch draws in when it comes out' },
  'no-backing': { short: 'no backing', why: 'a sheet of 2.5 oz cut-away would hold it' },
};

/** Plain words for smoothness grades, smoothest first; each holds the grades from its own down to the next. */
export const GRADES = [
  { word: 'lies flat', from: 4.5 },
  { word: 'slight', from: 3.5 },
  { word: 'visible', from: 2.5 },
  { word: 'bad', from: 1 },
] as const;

/** Index into {@link GRADES} of a grade from 5 (smooth) to 1 (severe). */
export function gradeStep(grade: number): number {
  const step = GRADES.findIndex(({ from }) => grade >= from);
  return step < 0 ? GRADES.length - 1 : step;
}

/** A height and the range that it most likely lies in, mm. */
export interface Height {
  wrinkleMm: number;
  range: readonly [low: number, high: number];
}

const isSeen = (mm: number, say: Voice): boolean => Number(say.bare(mm)) > 0;

export const risk = {
  causes,
  label: 'risk',
  grade: ({ grade }: { grade: number }, _: Voice): string => GRADES[gradeStep(grade)].word,
  /** `wrinkles about 0.21 mm high (most likely 0.00 to 0.49)`. */
  height: ({ wrinkleMm, range: [low, high] }: Height, say: Voice): string =>
    isSeen(wrinkleMm, say)
      ? `wrinkles about ${say.figure(wrinkleMm)} high (most likely ${say.bare(low)} to ${say.bare(high)})`
      : `no wrinkles predicted (most likely ${say.bare(low)} to ${say.figure(high)})`,
  /** What follows the word of a grade, the main cause and the worst object where there are some. */
  whole: (
    {
      grade,
      cause,
      worst,
      ...height
    }: Height & { grade: number; cause: string | null; worst: number | null },
    say: Voice,
  ): string =>
    [
      `(grade ${grade}): ${risk.height(height, say)}`,
      ...(cause === null ? [] : [`mostly ${cause}`]),
      ...(cause === null || worst === null ? [] : [`worst at object ${worst}`]),
    ].join('; '),
  sewATest: 'Sew a test on the same fabric.',
  /** What it is predicted for. */
  on: ({ fabric, backing, given }: { fabric: string; backing: string; given: boolean }, _: Voice): string =>
    `on ${fabric}, over ${backing}${given ? '' : ' (the usual sheet; you gave none)'}`,
};
