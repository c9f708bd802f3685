/**
 * What is said of each finding: a name of three words or so, the fact, and what to do. Facts and orders are whole
 * sentences; the name stands alone or begins a line.
 */
import type { ClaimedKey, HeaderClaim, OddityCode, OddityParams } from '../../../format/diagnostic.js';
import type { FilePlace, FindingParams } from '../../../vetting/finding.js';
import { capital } from '../../quantities.js';
import type { Voice } from '../voice.js';
import { littleRoom } from './hoop-room.js';
import { keptUnderlay, laid, relayLays } from './underlay.js';

export interface FindingPhrases<P> {
  readonly name: string;
  readonly fact: (params: Readonly<P>, say: Voice) => string;
  readonly todo: (params: Readonly<P>, say: Voice) => string;
}

type Catalog = { readonly [C in keyof FindingParams]: FindingPhrases<FindingParams[C]> };

const STRIKE =
  'A needle that strikes the hoop breaks, and pieces fly: trace the design before sewing, keep the guards on, and go by the field in the manual of the machine.';

const across = { width: 'wide', height: 'high', across: 'across' };

const byCode: Catalog = {
  'no-stitches': {
    name: 'no stitches',
    fact: () => 'The file holds no stitches: there is nothing to sew.',
    todo: () => 'Ask for the file again.',
  },
  'does-not-fit-hoop': {
    name: 'too large for hoop',
    fact: ({ hoop, side, sizeMm, fieldMm }, say) =>
      `The design is ${say.length(sizeMm)} ${across[side]} and the field of the ${hoop} is only ${say.length(fieldMm)}.`,
    todo: ({ turned }) =>
      `${turned ? 'Turn it a quarter and it fits; otherwise take' : 'Take'} a larger hoop or make the design smaller. ${STRIKE}`,
  },
  'little-room-in-hoop': {
    name: 'little room in hoop',
    fact: ({ hoop, side, sizeMm, fieldMm, roomMm }, say) =>
      `The design is ${say.length(sizeMm)} ${across[side]} and the field of the ${hoop} is ${say.length(fieldMm)}: ${littleRoom({ roomMm }, say)}.`,
    todo: () => `Center it well, or take a larger hoop. ${STRIKE}`,
  },
  'does-not-fit-place': {
    name: 'large for its place',
    fact: ({ place, side, sizeMm, usualMm, mostMm }, say) =>
      `The design is ${say.length(sizeMm)} ${across[side]} and the ${place} usually takes ${say.length(usualMm)}${mostMm > usualMm ? `, at most about ${say.length(mostMm)}` : ''}.`,
    todo: ({ frame, sizeMm, mostMm }) => {
      if (frame)
        return 'Make the design smaller: the frame sets this limit. A needle that strikes the frame breaks, and pieces fly: trace the design before sewing and keep the guards on.';
      const check = 'heck on the garment that it is meant to be this large.';
      return sizeMm > mostMm ? `Make the design smaller, or c${check}` : `C${check}`;
    },
  },
  'satin-too-wide': {
    name: 'satin too wide',
    fact: ({ widthMm, past }, say) =>
      `Satin column up to ${say.length(widthMm)} wide: ${
        past === 'record'
          ? 'no single stitch reaches across, so the machine jumps and leaves loose loops.'
          : 'stitches this long snag in wear.'
      }`,
    todo: ({ over }) =>
      `Split the satin, or fill the shape instead${over === null ? '' : `, over ${laid[over]} of short stitches`}.`,
  },
  'satin-too-narrow': {
    name: 'satin too narrow',
    fact: ({ widthMm }, say) =>
      `Satin column only ${say.length(widthMm)} wide: the stitches pile up and pull through.`,
    todo: () => 'Widen it, or sew it as a double or triple run.',
  },
  'wide-satin-heavy-underlay': {
    name: 'heavy underlay',
    fact: ({ widthMm, underlay }, say) =>
      `Satin column ${say.length(widthMm)} wide over ${underlay === 'double-zigzag' ? 'double zigzag' : 'zigzag'} underlay: the zigzag underneath pulls too.`,
    todo: ({ to, onlyIfNamed, kept, decided }, say) => {
      if (kept) return `Leave it: ${keptUnderlay[kept]}.`;
      const lay = `${laid[to]} of short stitches under it instead${say.typed(`: ${relayLays(onlyIfNamed)}`)}.`;
      return decided
        ? `Put ${lay}`
        : `On soft or stretchy fabric put ${lay} Firm fabric may take it as it is: ${say.typed('name the garment with --fabric', 'choose the garment')} to know.`;
    },
  },
  'wide-satin-no-underlay': {
    name: 'no underlay',
    fact: ({ widthMm }, say) =>
      `Satin column ${say.length(widthMm)} wide with no underlay to hold the fabric first.`,
    todo: ({ to, onlyIfNamed }, say) =>
      `Put ${laid[to]} of short stitches under it${say.typed(`: ${relayLays(onlyIfNamed)}`)}.`,
  },
  'satin-over-foam': {
    name: 'made for foam',
    fact: ({ spacingMm }, say) =>
      `Satin stitches only ${say.length(spacingMm)} apart with closed ends: this column looks made to sew over foam.`,
    todo: () => 'Lay foam under it; without foam it is too dense.',
  },
  'satin-too-dense': {
    name: 'satin too dense',
    fact: ({ spacingMm }, say) =>
      `Satin stitches only ${say.length(spacingMm)} apart: they pull hard, stand stiff and can cut the fabric.`,
    todo: () => 'Open the spacing.',
  },
  'satin-too-open': {
    name: 'satin too open',
    fact: ({ spacingMm }, say) => `Satin stitches ${say.length(spacingMm)} apart: the fabric shows through.`,
    todo: () => 'Close the spacing, or use a thicker thread.',
  },
  'fill-too-dense': {
    name: 'fill too dense',
    fact: ({ spacingMm }, say) =>
      `Fill rows only ${say.length(spacingMm)} apart: they pull hard, stand stiff and can cut the fabric.`,
    todo: () => 'Open the rows.',
  },
  'fill-too-open': {
    name: 'fill too open',
    fact: ({ spacingMm }, say) => `Fill rows ${say.length(spacingMm)} apart: the fabric shows through.`,
    todo: () => 'Close the rows, unless a light fill is meant.',
  },
  'fill-too-many-points': {
    name: 'too many points',
    fact: ({ perMm2 }, say) =>
      `Fill with ${say.plain(perMm2, 1)} needle points a mm²: they perforate the fabric, and it stands stiff.`,
    todo: () => 'Lengthen the stitches or open the rows.',
  },
  'dense-place': {
    name: 'one dense spot',
    fact: ({ perMm2 }, say) =>
      `${say.plain(perMm2, 1)} needle points a mm² at the densest place: the thread stands hard, and needles run hot and can break.`,
    todo: () => 'Take out what is hidden under other stitching, or open the spacing there.',
  },
  'layers-stacked': {
    name: 'layers stacked',
    fact: ({ layers }, say) =>
      `${say.count(layers)} layers of stitching lie one over another: the place gets thick and stiff, and all of them pull on it.`,
    todo: () => 'Cut away what is hidden underneath.',
  },
  'needle-points-piled': {
    name: 'needle points piled',
    fact: ({ points }, say) =>
      `${say.counted(points, 'needle point')} on one spot: so many holes cut the fabric and break thread.`,
    todo: ({ ofShort }) =>
      ofShort
        ? 'Take the short stitches out there.'
        : 'Spread them, or shorten every second stitch at a tight turn.',
  },
  'stitch-too-short': {
    name: 'stitches too short',
    fact: ({ count, limitMm, shortestMm }, say) => {
      const none = Number(say.bare(shortestMm)) === 0;
      const which =
        count === 1
          ? `One stitch ${none ? 'has no length' : `is only ${say.length(shortestMm)} long`}`
          : `${say.count(count)} stitches are shorter than ${say.length(limitMm)}, the shortest ${none ? 'without any length' : say.length(shortestMm)}`;
      return `${which}: the needle meets its own thread and breaks it.`;
    },
    todo: ({ count }) => (count === 1 ? 'Take it out.' : 'Take the short stitches out.'),
  },
  'stitch-too-long': {
    name: 'stitches too long',
    fact: ({ count, limitMm, longestMm }, say) =>
      count === 1
        ? `One stitch is ${say.length(longestMm)} long, over ${say.length(limitMm)}: long stitches snag in wear.`
        : `${say.count(count)} stitches are longer than ${say.length(limitMm)}, the longest ${say.length(longestMm)}: long stitches snag in wear.`,
    todo: ({ count }) => `Break ${count === 1 ? 'it' : 'them'} up with needle points between.`,
  },
  'jump-not-trimmed': {
    name: 'jump not trimmed',
    fact: ({ count, longestMm }, say) =>
      `${count === 1 ? `A move of ${say.length(longestMm)} is not trimmed` : `${say.count(count)} moves are not trimmed, the longest ${say.length(longestMm)}`}: the thread lies loose on the face and has to be cut by hand.`,
    todo: () => 'Add a trim with a tie-off before it and a tie-in after it.',
  },
  'missing-lock': {
    name: 'no lock stitches',
    fact: ({ at }) =>
      `The thread ${{ start: 'starts', end: 'ends', both: 'starts and ends' }[at]} without lock stitches: it can pull out in wear and washing.`,
    todo: ({ at }) =>
      `Add ${{ start: 'a tie-in', end: 'a tie-off', both: 'a tie-in and a tie-off' }[at]} there.`,
  },
  'no-trims': {
    name: 'no trims',
    fact: ({ moves }, say) =>
      `No trim in the whole file, and ${say.counted(moves, 'long move')}: the trims may have been lost when the file was saved.`,
    todo: () => 'Ask for the file with trims, or plan to cut by hand.',
  },
  'lettering-too-small': {
    name: 'lettering too small',
    fact: ({ heightMm, letters, strokeMm }, say) =>
      `Satin lettering only ${say.length(heightMm)} high (${say.counted(letters, 'letter')}, strokes up to ${say.length(strokeMm)} wide): its openings close up.`,
    todo: () => 'Make it larger, or sew it with a thinner thread and a 65/9 needle.',
  },
};

/** Oddities of a file in about three words, by their codes. */
const names: Readonly<Record<OddityCode, string>> = {
  'file-bytes-after-end': 'data after the end',
  'file-colour-count': 'color count off',
  'file-contradictory-move': 'moves that cancel',
  'file-end-position': 'end position off',
  'file-end-record': 'odd end mark',
  'file-extent': 'size in header off',
  'file-header-field-extra': 'extra header entry',
  'file-header-field-garbled': 'garbled header entry',
  'file-header-field-missing': 'header entry missing',
  'file-header-field-repeated': 'repeated header entry',
  'file-header-garbled': 'garbled header',
  'file-header-line-ends': 'odd line ends',
  'file-header-no-end-mark': 'header not closed',
  'file-header-padding': 'header not filled up',
  'file-header-short': 'short header',
  'file-no-end-record': 'no end mark',
  'file-no-header': 'no header',
  'file-record-count': 'stitch count off',
  'file-reserved-bits': 'odd stitch codes',
  'file-stop-list': 'stop list off',
  'file-stops-assumed': 'stops assumed',
  'file-thread-list': 'thread list off',
  'file-truncated-record': 'last stitch cut off',
  'file-unknown-record': 'unknown codes',
  'file-zero-fill': 'blank at the end',
  'table-blank-lines': 'blank lines',
  'table-delimiter': 'no commas',
  'table-other-columns': 'extra columns',
  'table-positions-rounded': 'positions rounded',
};

/** What the figure of a header field counts; lengths stand in it in units of 0.1 mm. */
const counts: Readonly<Record<ClaimedKey, { readonly of: string; readonly isLength: boolean }>> = {
  ST: { of: 'stitches and jumps', isLength: false },
  CO: { of: 'color changes', isLength: false },
  '+X': { of: 'to the right', isLength: true },
  '-X': { of: 'to the left', isLength: true },
  '+Y': { of: 'upward', isLength: true },
  '-Y': { of: 'downward', isLength: true },
  AX: { of: 'across from start to end', isLength: true },
  AY: { of: 'up from start to end', isLength: true },
};
const claim = ({ key, claimed, counted }: Readonly<HeaderClaim>, say: Voice): string => {
  const { of, isLength } = counts[key];
  const said = (n: number): string => (isLength ? say.measured(n / 10) : say.count(n));
  return `the header says ${said(claimed)} ${of}; counted from the stitches, the file has ${said(counted)}`;
};

/** Of the fields that the format does not define so many are named. */
const MOST_NAMED = 20;

/** What is odd, and what was assumed: a clause without a capital and a period. */
const oddities: {
  readonly [C in OddityCode]: (params: Readonly<OddityParams[C]>, say: Voice) => string;
} = {
  'file-bytes-after-end': () => 'the file goes on after its end mark; what follows was not read',
  'file-colour-count': claim,
  'file-contradictory-move': () => 'stitches move both ways at once; the two moves were taken to cancel',
  'file-end-position': claim,
  'file-end-record': () =>
    'the end mark is not the usual one; it was read as the end, and a move in it was left out',
  'file-extent': claim,
  'file-header-field-extra': ({ keys }) => {
    const more = keys.length - MOST_NAMED;
    const named = `${keys.slice(0, MOST_NAMED).join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
    return keys.length === 1
      ? `the header has an entry that is not standard: ${named}; it is kept, but not read`
      : `the header has ${keys.length} entries that are not standard: ${named}; they are kept, but not read`;
  },
  'file-header-field-garbled': ({ key }) => `the header entry ${key} cannot be read as a number`,
  'file-header-field-missing': ({ keys }) =>
    `the header lacks the ${keys.length === 1 ? 'entry' : 'entries'} ${keys.join(', ')}`,
  'file-header-field-repeated': ({ key }) => `the header gives ${key} more than once; the first counts`,
  'file-header-garbled': () => 'the header holds text that is no entry, such as CO:3; it is passed over',
  'file-header-line-ends': () => 'the lines of the header do not end as is usual; they are read all the same',
  'file-header-no-end-mark': () => 'the header has no end mark; it was read all the same',
  'file-header-padding': () => 'the rest of the header is not blank; what stands there is passed over',
  'file-header-short': () => 'the header is shorter than is usual; the stitches were read from where it ends',
  'file-no-end-record': () =>
    'the file has no end mark: the design may be cut off, and a machine may refuse the file',
  'file-no-header': ({ start }) =>
    start === 0
      ? 'the file has no header; the stitches were read from its beginning'
      : 'the header cannot be read; the stitches after it were',
  'file-record-count': claim,
  'file-reserved-bits': () => 'stitches are not written as is usual; their moves were read all the same',
  'file-stop-list': ({ pauses }) =>
    `the list of stops in the header does not fit the ${pauses} pauses of the file; all are read as color changes`,
  'file-stops-assumed': ({ claimed, pauses, stops }) =>
    `the header counts ${claimed} color changes and the file has ${pauses} pauses; ${stops} of them, around which nothing is sewn or the sewing goes straight on, were read as stops without a change of thread`,
  'file-thread-list': ({ blocks }) =>
    `the list of threads in the header does not fit the ${blocks} color blocks of the file; it is passed over`,
  'file-truncated-record': () => 'the last stitch is cut off; it was left out',
  'file-unknown-record': () => 'codes that are not known were read as jumps',
  'file-zero-fill': () =>
    'the end of the file is blank, as in one that was not copied whole; it was left out',
  'table-blank-lines': () => 'blank lines were passed over',
  'table-delimiter': () => 'cells are parted by something other than commas; they were read so',
  'table-other-columns': () => 'columns other than x_mm, y_mm, kind, thread were passed over',
  'table-positions-rounded': () => 'positions finer than 0.01 mm were rounded to it',
};

export const findings = {
  ...byCode,
  /** Oddities of the file; `says` is one of `oddities`. */
  file: {
    name: 'odd file',
    names,
    oddities,
    fact: (
      { says, line, more, cutOff }: Readonly<FilePlace> & { readonly says: string },
      say: Voice,
    ): string => {
      // Where in a stitch file is for programs; a line of a table is found by a person.
      const at = line === null ? '' : ` (line ${line})`;
      const rest = more > 0 ? `, and ${say.count(more)} more like it` : '';
      const whole = `${says}${at}${rest}.`;
      return cutOff ? `The file is cut off, and part of the design is missing: ${whole}` : capital(whole);
    },
    /** `doubtful`: the stitches may not be those that were meant. */
    todo: ({ cutOff, doubtful }: Readonly<FilePlace> & { doubtful: boolean }, _: Voice): string =>
      cutOff
        ? 'Get the file again.'
        : doubtful
          ? "Look the design over on the machine's screen before you sew it, or get the file again."
          : '',
  },
  /** Before the sentence about an object of which it is not sure what it is. */
  unsure: 'Look at the design first, this object may be something else.',
  /** In the place of what to do: the same mends both. */
  curedBy: ({ name }: { name: string }, _: Voice): string => `What is said under "${name}" mends this too.`,
  /** Over the findings of a report. */
  title: 'What was found',
  none: 'Nothing was found.',
  /** Behind the name of a kind: all its objects and the first place to look. */
  where: (
    { objects, first, place }: { objects: readonly number[]; first: number | null; place: string | null },
    say: Voice,
  ): string => {
    if (objects.length < 2) {
      const named = objects.map((id) => `object ${id}`);
      return [...named, ...(place === null ? [] : [`at ${place}`])].join(' ');
    }
    const look = first === null ? place : `object ${first}${place === null ? '' : ` (${place})`}`;
    return `${say.objects(objects, MOST_RUNS)}${look === null ? '' : `; look first at ${look}`}`;
  },
};

/** Runs of objects that are named; the rest are counted. */
const MOST_RUNS = 8;
