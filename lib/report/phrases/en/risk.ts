/** How a predicted pucker is said: its grade in a word, its height, where it comes from. */
import type { Cause } from '../../../mechanics/drivers.js';
import type { ConditionsReport } from '../../vet/report.js';
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

/** What a prediction may rest on that nobody has measured here, by the source of a sensitivity. */
const sources = {
  tension: 'the thread tension of the machine',
  longestSpan: 'how far fabric stands free between stitches',
  points: 'how firmly the stitches hold fabric and backing together',
  fabricGrip: 'how firmly the stitches hold fabric and backing together',
  hoopForce: 'how tightly the fabric is hooped',
  'bending of the fabric': 'how stiff the fabric is',
  'stiffness of the fabric': 'how hard the fabric is to stretch',
  'shrinkage of the fabric': 'how far the fabric shrinks',
  'shrinkage of the thread': 'how far the thread shrinks',
  /** Of any sheet. */
  sheet: 'how stiff the backing is',
};

/** What may hurt somebody or spoil the garment. */
const cautions = {
  'cap-frame':
    "Trace a cap's outline with the needle up before sewing, hands clear: a needle that hits the frame shatters.",
  'holes-stay':
    'Needle holes stay in this material for good: stitches picked out leave them. Sew a test on a scrap before the garment.',
  heat: 'Fabric that must not get wet takes a topping removed by heat: it burns skin and scorches fiber; try a scrap.',
  'not-for-washing': 'This fabric is not for washing: figures after a wash are only to compare by.',
  skin: "This backing stays against the skin: cover it on children's wear; local rules for children's sleepwear go first.",
};

export type CautionCode = keyof typeof cautions;

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

/** A fabric and what lies behind it, by name, and whether that was asked for. */
type On = Pick<ConditionsReport, 'fabricName' | 'stackName' | 'stackGiven'>;

/** Whether a height prints as more than nothing. */
const isSeen = (mm: number, say: Voice): boolean => Number(say.bare(mm)) > 0;

export const risk = {
  causes,
  sources,
  cautions,
  label: 'risk',
  grade: ({ grade }: { grade: number }, _: Voice): string => GRADES[gradeStep(grade)].word,
  /** `wrinkles about 0.21 mm high (most likely 0.05 to 0.49 mm)`; what would print as nothing is said in words. */
  height: ({ wrinkleMm, range: [low, high] }: Height, say: Voice): string => {
    const [seen, lowSeen, highSeen] = [wrinkleMm, low, high].map((mm) => isSeen(mm, say));
    const about = seen ? `wrinkles about ${say.figure(wrinkleMm)} high` : 'no wrinkles predicted';
    if (!highSeen || say.bare(low) === say.bare(high)) return about;
    const likely = lowSeen ? `${say.bare(low)} to ${say.figure(high)}` : `under ${say.figure(high)}`;
    return `${about} (most likely ${likely})`;
  },
  /** The range alone: `most likely 0.1 to 0.49 mm (0.004 to 0.019 in)`. */
  mostLikely: ({ range: [low, high] }: Pick<Height, 'range'>, say: Voice): string =>
    !isSeen(high, say)
      ? 'most likely none at all'
      : `most likely ${isSeen(low, say) ? say.range([low, high]) : `under ${say.length(high)}`}`,
  /** Words for the grades of a range: `slight to bad`. */
  grades: ({ range: [low, high] }: { range: readonly [number, number] }, _: Voice): string => {
    const [from, to] = [GRADES[gradeStep(high)].word, GRADES[gradeStep(low)].word];
    return from === to ? from : `${from} to ${to}`;
  },
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
  /** What it is predicted for: `on twill, over one sheet`. */
  on: (conditions: On, say: Voice): string =>
    `on ${conditions.fabricName}, over ${risk.backing(conditions, say)}`,
  /** A stack, from the garment outward: `1 sheet of cap backing`, `2 sheets: mesh + mesh turned 45°`. */
  stack: (
    { sheets }: { sheets: readonly { readonly name: string; readonly angleDeg: number }[] },
    say: Voice,
  ): string => {
    if (sheets.length === 0) return 'no backing';
    const names = sheets.map(({ name, angleDeg }) =>
      angleDeg === 0 ? name : `${name} turned ${say.plain(angleDeg, 1)}°`,
    );
    const alike = names.every((name) => name === names[0]);
    return `${say.counted(sheets.length, 'sheet')}${alike ? ` of ${names[0]}` : `: ${names.join(' + ')}`}`;
  },
  backing: ({ stackName, stackGiven }: Omit<On, 'fabricName'>, _: Voice): string =>
    `${stackName}${stackGiven ? '' : ' (the usual sheet; you gave none)'}`,
};
