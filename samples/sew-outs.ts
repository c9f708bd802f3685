/**
 * The shop's log of graded sew-outs, invented: what each came out like as sewn, after one wash and after eight, and two people who grade it. The
 * figures are a scenario and no result of the model; the shop sews with a light hand, so that its goods lie somewhat flatter than most.
 */
import { LOG_COLUMNS } from '../lib/calibrate/log-columns.js';
import { csvRecord } from '../lib/report/csv.js';

const FILL = 'fill:1 2 3 4 5 6 7 8';
const WASHES = [0, 1, 8] as const;

/** What it looks like after each of {@link WASHES}, in grades; null where that was never looked at. */
type Looks = readonly [number | null, number | null, number | null];

const SEWN: readonly (readonly [
  file: string,
  fabric: string,
  stack: string,
  underlay: string,
  looks: Looks,
])[] = [
  ['name-drop.dst', 'pique-knit', 'cutaway-2.5oz', 'as-is', [4.8, 4.3, 3.7]],
  ['name-drop.dst', 'pique-knit', 'tearaway-1.8oz-firm', 'as-is', [3.3, 2.5, 2.1]],
  ['name-drop.dst', 'performance-knit', 'cutaway-2.5oz', 'as-is', [3.4, 2.8, 2.5]],
  ['name-drop.dst', 'performance-knit', 'cutaway-2.5oz', FILL, [4.6, 4, 3.5]],
  ['name-drop.dst', 'performance-knit', 'woven-polyester+woven-polyester@45', 'as-is', [4.3, 3.7, 3.4]],
  ['name-drop.dst', 'performance-knit-thin', 'cutaway-2.5oz', 'as-is', [2.5, 2.2, null]],
  ['name-drop.dst', 'performance-knit-thin', 'woven-polyester+woven-polyester@45', FILL, [4.5, 3.8, 3.3]],
  ['crest.dst', 'pique-knit', 'cutaway-2.5oz', 'as-is', [5, 4.6, 3.2]],
  ['crest.dst', 'performance-knit', 'cutaway-2.5oz', 'as-is', [3.8, 3.1, null]],
  ['crest.dst', 'performance-knit', 'cutaway-2.5oz+cutaway-2.5oz', 'as-is', [5, 4.6, null]],
];

const GRADERS = ['Ida', 'Rurik'] as const;
/** Rows for which the shop wrote down more than a grade. */
const SLIP = {
  fabric: 'pique-knit',
  stack: 'tearaway-1.8oz-firm',
  washes: 0,
  grader: 'Rurik',
  grade: 5,
  remark: 'which one was this?',
};

/** Repeats itself, about even from -1 to 1 (a linear congruential generator, the figures of Numerical Recipes). */
function wobble(seed: number): () => number {
  let state = seed;
  return () => {
    state = (1664525 * state + 1013904223) % 2 ** 32;
    return (2 * state) / 2 ** 32 - 1;
  };
}

/** The log as a table, with one sew-out at the end that nobody has graded yet. */
export function sewOutLog(): string {
  const off = wobble(19);
  const lines = [csvRecord(LOG_COLUMNS)];
  for (const [file, fabric, stack, underlay, looks] of SEWN)
    looks.forEach((look, i) => {
      if (look === null) return;
      const washes = WASHES[i];
      for (const grader of GRADERS) {
        // Two of these add up to about what one grader is off by.
        const seen = look + 0.6 * (off() + off());
        const slipped =
          grader === SLIP.grader && fabric === SLIP.fabric && stack === SLIP.stack && washes === SLIP.washes;
        const grade = slipped ? SLIP.grade : Math.min(5, Math.max(1, Math.round(2 * seen) / 2));
        lines.push(
          csvRecord([
            file,
            fabric,
            stack,
            underlay,
            washes,
            grade,
            slipped ? `${grader}: ${SLIP.remark}` : grader,
          ]),
        );
      }
    });
  lines.push(csvRecord(['crest.dst', 'performance-knit', 'cutaway-2.5oz', 'as-is', 8, '', 'in the wash']));
  return lines.join('');
}
