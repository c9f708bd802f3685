/** Colours in the order they are sewn, for the operator to write threads beside. */
import { type Design, Kind } from '../../format/design.js';
import type { Stitches } from '../../format/stitches.js';
import { type MachineProfile, secondsOfStitches } from '../../measure/sew-time.js';
import { count } from '../quantities.js';
import { html } from '../render/markup.js';
import { htmlTable } from './table.js';

export interface ColourBlock {
  /** From 1. */
  number: number;
  stitches: number;
  /** Of the machine's sewing time, trims and colour changes left out; all add up to 1. */
  timeShare: number;
  /** Stitches of the block sewn before each stop that is no colour change. */
  stopsAfter: readonly number[];
  /** Where it starts, mm. */
  startsAt: { x: number; y: number };
  /** Index of its first stitch. */
  first: number;
}

/** Blocks without a stitch are left out: nothing is sewn in them, though their number counts. Linear in the records. */
export function colourBlocks(design: Design, stitches: Stitches, machine: MachineProfile): ColourBlock[] {
  const { block, x, y, breakBefore } = stitches;
  const stops = stopsOf(design);
  const seconds: number[] = [];
  const blocks: ColourBlock[] = [];
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
    });
    first = end;
  }
  const whole = seconds.reduce((sum, s) => sum + s, 0);
  return blocks.map((b, i) => ({ ...b, timeShare: seconds[i] / whole }));
}

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
export interface ColourLayout {
  columns: readonly (readonly ColourBlock[])[];
  /** Blocks that are not printed. */
  more: number;
}

export function layOutColours(blocks: readonly ColourBlock[]): ColourLayout {
  const shown = blocks.slice(0, MOST_BLOCKS);
  const half = shown.length > MOST_IN_ONE ? Math.ceil(shown.length / 2) : shown.length;
  return {
    columns: [shown.slice(0, half), shown.slice(half)].filter((column) => column.length > 0),
    more: blocks.length - shown.length,
  };
}

export function colourTables({ columns, more }: ColourLayout): string {
  const tables = columns.map((rows, i) =>
    htmlTable({
      id: `colours-${i + 1}`,
      caption:
        columns.length === 1
          ? 'In sewing order'
          : `In sewing order, ${rows[0].number} to ${rows[rows.length - 1].number}`,
      rows,
      columns: [
        { head: 'no.', namesRow: true, number: true, cell: ({ number }) => String(number) },
        { head: 'stitches', number: true, cell: stitchCell },
        { head: 'time', number: true, cell: ({ timeShare }) => percent(timeShare) },
        { head: 'thread colour', cell: () => '' },
      ],
    }),
  );
  const rest =
    more > 0 ? `<p><strong>and ${html(count(more))} more: see the machine's own list.</strong></p>` : '';
  return `<div class="colours">${tables.join('')}</div>${rest}`;
}

function stitchCell({ stitches, stopsAfter }: ColourBlock): string {
  const named = stopsAfter.slice(0, MOST_STOPS).map(count).join(', ');
  const more = stopsAfter.length - MOST_STOPS;
  const stop =
    stopsAfter.length === 0
      ? ''
      : ` <strong class="stop">■ STOP after ${named}${more > 0 ? ` and ${count(more)} more` : ''}</strong>`;
  return count(stitches) + stop;
}

const percent = (share: number): string => (share < 0.005 ? 'under 1 %' : `${Math.round(share * 100)} %`);
