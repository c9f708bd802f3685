/**
 * The shop's log of sew-outs, invented: what each came out like as sewn, after one wash and after eight, two people who grade it, and one who lays a
 * ruler on some. The figures are a scenario and no result of the model; the shop sews with tight thread, so that its stitches draw in somewhat more.
 */
import { LOG_COLUMNS, RULER_COLUMNS } from '../lib/calibrate/log-columns.js';
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
  ['name-drop.dst', 'performance-knit-thin', 'cutaway-2.5oz', 'as-is', [1.8, 1.7, null]],
  ['name-drop.dst', 'performance-knit-thin', 'woven-polyester+woven-polyester@45', FILL, [4, 3.8, 3.5]],
  ['name-drop.dst', 'performance-knit', 'cutaway-2.5oz', 'as-is', [3.6, 3.5, 3.4]],
  ['name-drop.dst', 'performance-knit', 'cutaway-2.5oz', FILL, [4.5, 4.4, 4.3]],
  ['name-drop.dst', 'performance-knit', 'woven-polyester+woven-polyester@45', 'as-is', [4.8, 4.7, 4.6]],
  ['name-drop.dst', 'pique-knit', 'cutaway-2.5oz', 'as-is', [4.8, 4.7, 4.4]],
  ['name-drop.dst', 'pique-knit', 'tearaway-1.8oz-firm', 'as-is', [4.4, 4.3, 4.1]],
  ['crest.dst', 'pique-knit', 'cutaway-2.5oz', 'as-is', [4.8, 4.6, 3.2]],
  ['crest.dst', 'performance-knit', 'cutaway-2.5oz', 'as-is', [3.8, 3.7, null]],
  ['crest.dst', 'performance-knit', 'cutaway-2.5oz+cutaway-2.5oz', 'as-is', [4.8, 4.7, null]],
];

const GRADERS = ['Ida', 'Rurik'] as const;
/** Rows for which the shop wrote down more than a grade. */
const SLIP = {
  fabric: 'performance-knit-thin',
  stack: 'cutaway-2.5oz',
  washes: 0,
  grader: 'Rurik',
  grade: 5,
  remark: 'which one was this?',
};

/** Sewn widths of strokes of the name over one sheet of cut-away, as Ida read them. */
const MEASURED: readonly (readonly [fabric: string, object: number, widthMm: number])[] = [
  ['pique-knit', 8, 4.5],
  ['performance-knit', 8, 4.4],
  ['performance-knit', 6, 4],
  ['performance-knit-thin', 8, 4.3],
  ['performance-knit-thin', 6, 3.9],
];

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
  const lines = [csvRecord([...LOG_COLUMNS, ...RULER_COLUMNS])];
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
            '',
            '',
          ]),
        );
      }
    });
  for (const [fabric, object, widthMm] of MEASURED)
    lines.push(
      csvRecord(['name-drop.dst', fabric, 'cutaway-2.5oz', 'as-is', 0, '', 'Ida, ruler', object, widthMm]),
    );
  lines.push(
    csvRecord(['crest.dst', 'performance-knit', 'cutaway-2.5oz', 'as-is', 8, '', 'in the wash', '', '']),
  );
  return lines.join('');
}
