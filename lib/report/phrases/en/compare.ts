/** What `lieflat compare` says: what changed between two versions of a design. */
import type { UnderlayKind } from '../../../segment/objects.js';
import type { Value } from '../../compare/report.js';
import { capital } from '../../quantities.js';
import type { Voice } from '../voice.js';
import { common } from './common.js';
import { GRADES, gradeStep } from './risk.js';

type Quantity = (value: number, say: Voice, bare: boolean) => string;

const mm: Quantity = (value, say, bare) => (bare ? say.bare(value) : say.figure(value));
const count: Quantity = (value, say) => say.count(value);
const thread: Quantity = (value, say) => say.thread(value);
const time: Quantity = (value, say) => say.time(value);
const angle: Quantity = (value, say) => `${say.fixed(value, 0)}°`;

/** What a field of the vet report is called, and how its figure is said; one without figures has words. */
const FIELDS: Readonly<Record<string, readonly [label: string, quantity?: Quantity]>> = {
  stitches: ['stitches', count],
  jumps: ['jumps', count],
  trims: ['trims', count],
  colourChanges: ['color changes', count],
  stops: ['stops', count],
  widthMm: ['width', mm],
  heightMm: ['height', mm],
  threadMm: ['thread', thread],
  bobbinMm: ['bobbin thread', thread],
  sewSeconds: ['sewing time', time],
  'bounds.minX': ['left edge', mm],
  'bounds.minY': ['lower edge', mm],
  'bounds.maxX': ['right edge', mm],
  'bounds.maxY': ['upper edge', mm],
  kind: ['kind'],
  centreX: ['middle, x', mm],
  centreY: ['middle, y', mm],
  sizeX: ['size across', mm],
  sizeY: ['size up', mm],
  'widthMm.median': ['column width', mm],
  'widthMm.max': ['widest swing', mm],
  'spacingMm.median': ['spacing', mm],
  angleDeg: ['stitch angle', angle],
  split: ['split'],
  'underlay.kinds': ['underlay'],
  'underlay.spacingMm': ['underlay spacing', mm],
  'underlay.stitches': ['underlay stitches', count],
  'locks.start': ['locked at start'],
  'locks.end': ['locked at end'],
};

/** @param bare without the unit, which the value after it has */
function said(what: string, value: Value, say: Voice, bare = false): string {
  if (value === null || value === '') return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return (FIELDS[what][1] ?? count)(value, say, bare);
  return what === 'underlay.kinds'
    ? common.underlayList({ kinds: value.split(' ') as UnderlayKind[] }, say)
    : value;
}

export interface Heights {
  readonly before: { readonly grade: number; readonly wrinkleMm: number };
  readonly after: { readonly grade: number; readonly wrinkleMm: number };
}

const wrinkles = ({ before, after }: Heights, say: Voice): string =>
  `${say.bare(before.wrinkleMm)} -> ${say.figure(after.wrinkleMm)}`;

const graded = (grade: number): string => `${grade} (${GRADES[gradeStep(grade)].word})`;

const objectName = ({ before, after }: { before: number; after: number }): string =>
  before === after ? String(before) : `${before} -> ${after}`;

/** Objects that are named; the rest are counted. */
const MOST_RUNS = 12;

export const compare = {
  title: 'What changed',
  headline: {
    unrelated: 'Two different designs',
    same: 'No difference',
    mixed: 'Some better, some worse',
    worse: 'Worse',
    better: 'Better',
    changed: 'Changed',
  },
  files: ({ headline, before, after }: Record<'headline' | 'before' | 'after', string>, _: Voice): string =>
    `${headline}: ${before} -> ${after}`,
  /** In place of lists that would hold everything in either design; `alike` objects are found in both. */
  unrelated: ({ before, after, alike }: Record<'before' | 'after' | 'alike', number>, say: Voice): string =>
    `The first has ${say.counted(before, 'object')}, the second ${say.count(after)}, and ${alike === 0 ? 'none' : `only ${say.count(alike)}`} of them ${alike === 1 ? 'matches' : 'match'}, so they are not compared one by one. Run lieflat vet on each; --format json lists all.`,
  design: 'Design',
  column: {
    what: 'what',
    before: 'before',
    after: 'after',
    change: 'change',
    object: 'object',
    changed: 'what changed',
  },
  field: ({ what }: { what: string }, _: Voice): string => FIELDS[what][0],
  value: ({ what, value }: { what: string; value: Value }, say: Voice): string => said(what, value, say),
  /** `+4.6 %`. */
  share: ({ before, after }: { before: number; after: number }, say: Voice): string =>
    `${after >= before ? '+' : ''}${say.fixed((100 * (after - before)) / before, 1)} %`,
  /** `spacing 0.40 -> 0.50 mm`. */
  change: ({ what, before, after }: { what: string; before: Value; after: Value }, say: Voice): string =>
    `${FIELDS[what][0]} ${said(what, before, say, true)} -> ${said(what, after, say)}`,
  /** `3`, or `3 -> 4` where the number changed. */
  object: ({ before, after }: { before: number; after: number }, _: Voice): string =>
    objectName({ before, after }),
  objects: (
    { before, after, unchanged }: Record<'before' | 'after' | 'unchanged', number>,
    say: Voice,
  ): string =>
    `Objects: ${say.count(before)} before, ${say.count(after)} after; ${say.count(unchanged)} as they were`,
  removed: ({ objects }: { objects: readonly number[] }, say: Voice): string =>
    `removed: ${say.ids(objects, MOST_RUNS)} (numbers before)`,
  added: ({ objects }: { objects: readonly number[] }, say: Voice): string =>
    `added: ${say.ids(objects, MOST_RUNS)} (numbers after)`,
  moreChanged: ({ left }: { left: number }, say: Voice): string =>
    `and ${say.counted(left, 'more changed object')}; --format json lists all`,
  /** `sure` whether typical values settle which lies flatter. */
  flatter: (
    { flatter, sure, ...heights }: Heights & { flatter: 'before' | 'after' | null; sure: boolean },
    say: Voice,
  ): string => {
    const { before, after } = heights;
    const grades = `grade ${graded(before.grade)} -> ${graded(after.grade)}, wrinkles ${wrinkles(heights, say)} high`;
    if (flatter === null) return `No difference is predicted: ${grades}.`;
    const which = flatter === 'before' ? 'the first' : 'the second';
    if (sure) return `${capital(which)} lies flatter for sure: ${grades}.`;
    return gradeStep(before.grade) === 0 && gradeStep(after.grade) === 0
      ? `Both lie flat: grade ${before.grade} -> ${after.grade}, wrinkles ${wrinkles(heights, say)} high.`
      : `Too close to call: ${which} comes out flatter, ${grades}, but typical values cannot settle it. Sew both to be sure.`;
  },
  changedMost: ({ objects }: { objects: readonly (Heights & { object: string })[] }, say: Voice): string =>
    `Changed most: ${objects.length === 1 ? 'object' : 'objects'} ${objects
      .map(({ object, ...heights }) => `${object} (wrinkles ${wrinkles(heights, say)})`)
      .join(', ')}.`,
  lost: ({ findings }: { findings: number }, say: Voice): string => `No longer found: ${say.count(findings)}`,
  gained: ({ findings }: { findings: number }, say: Voice): string => `New findings: ${say.count(findings)}`,
};
