/** What relaying did. */
import type { UnderlayKind } from '../../../segment/objects.js';
import type { Voice } from '../voice.js';
import { common } from './common.js';
import { GRADES, gradeStep } from './risk.js';

const arrow = (from: string, to: string): string => (from === to ? from : `${from} -> ${to}`);

const written = (is: boolean): string => (is ? '' : ' (a dry run: nothing was written)');

/** What relaid columns had: each some, none of them any, or some of them. */
export type OwnUnderlay = 'some' | 'none' | 'both';

const insteadOf: Readonly<Record<OwnUnderlay, string>> = {
  some: 'instead of the underlay in the file',
  none: 'where there was no underlay',
  both: 'instead of any underlay they had',
};

/** Runs of objects that are named; the rest are counted. */
const MOST_RUNS = 40;

export const relay = {
  title: 'New underlay',
  relaid: ({ columns }: { columns: number }, say: Voice): string =>
    `${say.counted(columns, 'COLUMN', 'COLUMNS')} RELAID`,
  /** `laid` with its article. */
  relaidTo: (
    { file, laid, own, ...is }: { file: string; laid: string; own: OwnUnderlay; written: boolean },
    _: Voice,
  ): string => `${file}: ${laid} ${insteadOf[own]}${written(is.written)}`,
  drawnOut: ({ objects }: { objects: number }, say: Voice): string =>
    `${say.counted(objects, 'OBJECT', 'OBJECTS')} DRAWN OUT`,
  drawnOutOf: ({ file, ...is }: { file: string; written: boolean }, _: Voice): string =>
    `${file}: pull compensation added${written(is.written)}`,
  nothing: 'NOTHING CHANGED',
  drawsInLittle: ({ file }: { file: string }, _: Voice): string =>
    `${file}: nothing draws in enough to need it; no file is written`,
  allLeft: ({ file }: { file: string }, _: Voice): string => `${file}: no file is written; see below why`,
  allKept: ({ file }: { file: string }, _: Voice): string =>
    `${file}: the underlay can stay, and no file is written: sew the one you have`,
  noneNeeds: ({ file }: { file: string }, say: Voice): string =>
    `${file}: no column needs another underlay, and no file is written: sew the one you have.${say.typed(' To relay a column all the same, name it with --objects.')}`,
  stitchesLabel: 'stitches',
  stitches: ({ before, after }: { before: number; after: number }, say: Voice): string => {
    const percent = before > 0 ? (100 * (after - before)) / before : 0;
    return `${arrow(say.count(before), say.count(after))} (${percent >= 0 ? '+' : ''}${say.fixed(percent, 1)} %)`;
  },
  threadLabel: 'thread',
  /** Lengths of top thread, mm. */
  thread: ({ before, after }: { before: number; after: number }, say: Voice): string =>
    arrow(say.thread(before), say.thread(after)),
  machineLabel: 'machine',
  machine: (
    { trims, jumps }: Record<'trims' | 'jumps', readonly [before: number, after: number]>,
    say: Voice,
  ): string =>
    `trims ${arrow(say.count(trims[0]), say.count(trims[1]))}, jumps ${arrow(say.count(jumps[0]), say.count(jumps[1]))}`,
  proofLabel: 'proof',
  /** `moved`: edges were moved as well, to make up for the pull. */
  proof: ({ columns, moved }: { columns: number; moved: boolean }, say: Voice): string =>
    `The new file was read again. Apart from the underlay of ${columns === 1 ? 'this column' : `these ${say.count(columns)} columns`}${moved ? ' and the edges moved below' : ''}, every stitch is as it was${moved ? '.' : ', and no new thread shows.'}`,
  findingsLabel: 'findings',
  gone: ({ findings }: { findings: number }, say: Voice): string => `${say.count(findings)} fewer`,
  looks: (looks: Record<'before' | 'after', { grade: number; wrinkleMm: number }>, say: Voice): string => {
    const { before, after } = looks;
    const one = ({ grade, wrinkleMm }: typeof before) =>
      `${GRADES[gradeStep(grade)].word} (grade ${grade}, ${Number(say.bare(wrinkleMm)) > 0 ? `wrinkles ${say.figure(wrinkleMm)}` : 'no wrinkles'})`;
    return arrow(one(before), one(after));
  },
  tooClose: 'Too close to call.',
  /** The same change over the backing that is advised; `sure` is empty or says that it is not. */
  advised: ({ name, looks, sure }: { name: string; looks: string; sure: string }, say: Voice): string =>
    `Over ${name}, ${say.typed('which lieflat advise recommends', 'the recommended backing')}: ${looks}.${sure}`,
  tableTitle: 'Before and after',
  column: {
    object: 'object',
    underlay: 'underlay',
    stitches: 'stitches',
    thread: (_: Record<never, never>, say: Voice): string => `thread ${say.units === 'mm' ? 'm' : 'yd'}`,
    points: 'points/mm²',
    wrinkle: (_: Record<never, never>, say: Voice): string => `wrinkle ${say.units}`,
  },
  underlay: ({ kinds }: { kinds: readonly UnderlayKind[] }, say: Voice): string =>
    say.list(kinds.map((kind) => common.underlay[kind])) || 'none',
  /** Of the table: what is in each cell. */
  change: ({ before, after }: { before: string; after: string }, _: Voice): string => `${before} -> ${after}`,
  tableNote: 'Each column with its underlay. Thread = top thread.',
  keptTitle: 'Underlay that can stay',
  keptNote: ({ objects }: { objects: number }, say: Voice): string =>
    say.typed(
      `To relay ${objects === 1 ? 'it' : 'them'} all the same, name ${objects === 1 ? 'it' : 'them'} with --objects.`,
    ),
  leftTitle: 'Not changed',
  left: ({ objects, reason }: { objects: readonly number[]; reason: string }, say: Voice): string =>
    `${say.objects(objects, MOST_RUNS)}: ${reason}`,
  leftNote: ({ objects }: { objects: number }, _: Voice): string =>
    `${objects === 1 ? 'Its underlay sews' : 'Their underlay sews'} as before. If that will not do, ask the digitizer to change it.`,
  bare: ({ objects }: { objects: readonly number[] }, say: Voice): string =>
    `Wide with no underlay: ${say.objects(objects, MOST_RUNS)}. ${say.typed(
      `To lay some under ${objects.length === 1 ? 'it, name it' : 'them, name them'} with --objects.`,
      'Ask the digitizer for some.',
    )}`,
  newFindings: ({ findings }: { findings: number }, say: Voice): string =>
    `New findings: ${say.count(findings)}`,
  compensation: {
    title: 'Pull compensation',
    /** `on` is where: `on twill, over one sheet`. */
    result: (
      { on, offMm, narrowerMm }: { on: string; offMm: number; narrowerMm: number },
      say: Voice,
    ): string =>
      `These come out within ${say.figure(offMm)} of the width in the file, ${on}. Without it they come out up to ${say.figure(narrowerMm)} narrower.`,
    column: {
      object: 'object',
      drawn: (_: Record<never, never>, say: Voice): string => `in file ${say.units}`,
      before: 'sewn before',
      after: 'sewn after',
      added: 'added in all',
    },
    more: ({ left, upToMm }: { left: number; upToMm: number }, say: Voice): string =>
      `and ${say.counted(left, 'other')} by ${say.figure(upToMm)} or less${say.typed('; --format json lists them all')}`,
    note: 'This adds and takes out no stitch: only edges move. Use it on a file made without pull compensation, as this comes on top of any it has. Sew a test on the same fabric.',
  },
};
