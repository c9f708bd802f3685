/** Colors in the order they are sewn, for the operator to write threads beside. */
import { type Design, Kind } from '../../format/design.js';
import type { Stitches } from '../../format/stitches.js';
import { type MachineProfile, secondsOfStitches } from '../../measure/sew-time.js';
import type { Span } from '../document.js';
import { hexOf, type NamedColor, needlesOf } from '../proof/thread-colors.js';
import { blocksAsHtml } from '../render/html.js';
import { html, tag } from '../render/markup.js';
import type { CardWords } from './words.js';

export interface ColorBlock {
  /** From 1. */
  number: number;
  stitches: number;
  /** Of the machine's sewing time, trims and color changes left out; all add up to 1. */
  timeShare: number;
  /** Stitches of the block sewn before each stop that is no color change. */
  stopsAfter: readonly number[];
  /** Where it starts, mm. */
  startsAt: { x: number; y: number };
  /** Index of its first stitch. */
  first: number;
  /** Null where nobody has said. */
  thread: CardThread | null;
}

/** A thread on its needle. */
export interface CardThread {
  name: string;
  needle: number;
  /** As SVG writes it. */
  hex: string;
}

/** Blocks without a stitch are left out: nothing is sewn in them, though their number counts. Linear in the records. */
export function colorBlocks(
  design: Design,
  stitches: Stitches,
  machine: MachineProfile,
  threads: readonly NamedColor[] = [],
): ColorBlock[] {
  const needles = needlesOf(threads);
  const { block, x, y, breakBefore } = stitches;
  const stops = stopsOf(design);
  const seconds: number[] = [];
  const blocks: ColorBlock[] = [];
  for (let first = 0; first < stitches.count; ) {
    let end = first + 1;
    while (end < stitches.count && block[end] === block[first]) end++;
    const own = (of: Float64Array) => of.subarray(first, end);
    seconds.push(
      // A first stitch takes a turn of the needle too.
      60 / machine.speedSpm.value +
        secondsOfStitches(
          {
            ...stitches,
            count: end - first,
            x: own(x),
            y: own(y),
            breakBefore: breakBefore.subarray(first, end),
          },
          machine,
        ),
    );
    blocks.push({
      number: block[first] + 1,
      stitches: end - first,
      timeShare: 0,
      stopsAfter: stops.filter((at) => at > first && at < end).map((at) => at - first),
      startsAt: { x: x[first], y: y[first] },
      first,
      thread: threadOn(threads[block[first]], needles[block[first]]),
    });
    first = end;
  }
  const whole = seconds.reduce((sum, s) => sum + s, 0);
  return blocks.map((b, i) => ({ ...b, timeShare: seconds[i] / whole }));
}

const threadOn = (color: NamedColor | undefined, needle: number): CardThread | null =>
  color === undefined ? null : { name: color.name, needle, hex: hexOf(color) };

/** How many stitches are sewn before each stop. */
function stopsOf({ kind }: Design): number[] {
  const stops: number[] = [];
  let sewn = 0;
  for (const k of kind) {
    if (k === Kind.stitch) sewn++;
    else if (k === Kind.stop) stops.push(sewn);
  }
  return stops;
}

/** More rows than this are not printed. */
const MOST_BLOCKS = 30;
/** More blocks than this stand in two columns. */
const MOST_IN_ONE = 6;
/** Stops named in a row. */
const MOST_STOPS = 2;

/** How the blocks stand on the card. */
export interface ColorLayout {
  columns: readonly (readonly ColorBlock[])[];
  /** Blocks that are not printed. */
  more: number;
  /** No thread is known, as the file holds none, and there is room to say so. */
  unnamed: boolean;
}

export function layOutColors(blocks: readonly ColorBlock[]): ColorLayout {
  const shown = blocks.slice(0, MOST_BLOCKS);
  const half = shown.length > MOST_IN_ONE ? Math.ceil(shown.length / 2) : shown.length;
  return {
    columns: [shown.slice(0, half), shown.slice(half)].filter((column) => column.length > 0),
    more: blocks.length - shown.length,
    unnamed: half === shown.length && blocks.every(({ thread }) => thread === null),
  };
}

export function colorTables(
  { columns, more, unnamed }: ColorLayout,
  { card: { colors }, say }: CardWords,
): string {
  // Two tables side by side leave a name no room beside it.
  const withTime = columns.length === 1;
  const tables = columns.map((blocks, i) => {
    const [first, last] = [blocks[0].number, blocks[blocks.length - 1].number];
    return {
      is: 'table',
      id: `colors-${i + 1}`,
      caption: columns.length === 1 ? colors.order : colors.part({ first, last }),
      columns: [
        { head: colors.number, namesRow: true, number: true },
        { head: colors.needle, number: true },
        { head: colors.stitches, number: true },
        ...(withTime ? [{ head: colors.time, number: true }] : []),
        { head: colors.thread },
      ],
      rows: blocks.map(({ number, stitches, timeShare, stopsAfter, thread }) => [
        String(number),
        thread === null ? '' : [{ text: String(thread.needle), strong: true }],
        [say.count(stitches), ...stops(stopsAfter, colors)],
        ...(withTime ? [colors.share({ share: timeShare })] : []),
        thread?.name ?? '',
      ]),
    } as const;
  });
  const rest =
    (more > 0 ? tag('p', {}, tag('strong', {}, html(colors.more({ left: more })))) : '') +
    (unnamed ? tag('p', {}, html(colors.unnamed)) : '');
  return tag('div', { class: 'colors' }, ...tables.map((table) => blocksAsHtml([table]))) + rest;
}

function stops(after: readonly number[], { stop }: CardWords['card']['colors']): Span[] {
  if (after.length === 0) return [];
  const named = after.slice(0, MOST_STOPS);
  return [{ text: ' ' }, { text: stop({ after: named, left: after.length - named.length }), strong: true }];
}
