/** What is written to whoever digitized a design, in the words that digitizing has. Rules without a figure are common practice, no source. */
import { kindsOf, type LaidUnderlay } from '../../../stitch/laid-underlay.js';
import type { FindingParams } from '../../../vetting/finding.js';
import type { ReplyTopic } from '../../reply/topics.js';
import type { Voice } from '../voice.js';
import { laid } from './underlay.js';

/** The figure to keep; null where the limit is none. */
export interface Should {
  readonly limit: number | null;
  /** Underlay that is to lie there; a light fill without it. */
  readonly to?: LaidUnderlay | null;
  /** On soft or stretchy fabric only. */
  readonly onSoft?: boolean;
  /** Short stitches make it. */
  readonly ofShort?: boolean;
}

export type Orders = { readonly [C in keyof FindingParams]: (should: Should, say: Voice) => string };

/** Objects that are told by their first stitch; the rest are counted. */
const MOST_NAMED = 8;
/** Rows of a light fill that tacks the fabric first. */
const LIGHT_FILL_MM = 3;
/** Satin in 40-weight thread. */
const USUAL_SATIN_MM = 0.4;

/** `at least 0.30 mm (0.012 in)`; what to do without a figure where there is none. */
const length = (word: 'at least' | 'at most', { limit }: Should, say: Voice): string =>
  limit === null ? '' : `: ${word} ${say.length(limit)}`;
const number = (word: string, { limit }: Should, say: Voice): string =>
  limit === null ? '' : `: ${word} ${say.plain(limit, 1)}`;

/** Underlay to lay, and where: `a light fill of short stitches inside the edges, rows 3 mm (0.12 in) apart`. */
function underlay({ to }: Should, where: string, say: Voice): string {
  const kind = to ?? 'fill';
  return kindsOf(kind).includes('fill')
    ? `${laid[kind]} of short stitches${where}, rows ${say.length(LIGHT_FILL_MM)} apart`
    : `${laid[kind]}${where}`;
}

const should: Orders = {
  'no-stitches': () => 'Send the file again: it has no stitches.',
  'does-not-fit-hoop': (s, say) => `Size${length('at most', s, say)}. Make the design smaller, not denser.`,
  'little-room-in-hoop': (s, say) => `Room on each side${length('at least', s, say)}.`,
  'does-not-fit-place': (s, say) => `Size${length('at most', s, say)}. Make the design smaller, not denser.`,
  'satin-too-wide': (s, say) =>
    `Satin width${length('at most', s, say)}. Split the satin, or fill the shape${s.to ? `, over ${underlay(s, '', say)}` : ''}.`,
  'satin-too-narrow': (s, say) => `Satin width${length('at least', s, say)}. Or sew it as a triple run.`,
  'wide-satin-heavy-underlay': (s, say) =>
    s.onSoft
      ? `Underlay, if this is for soft or stretchy fabric: no zigzag under wide satin. Instead, ${underlay(s, '', say)}.`
      : `Underlay: no zigzag under wide satin. Instead, ${underlay(s, '', say)}.`,
  'wide-satin-no-underlay': (s, say) => `Underlay: ${underlay(s, ' inside the edges', say)}.`,
  'satin-over-foam': (_, say) =>
    `Made for foam? If not, open the density to ${say.length(USUAL_SATIN_MM)} and the closed ends.`,
  'satin-too-dense': (s, say) => `Density (satin stitch to stitch)${length('at least', s, say)}.`,
  'satin-too-open': (s, say) => `Density (satin stitch to stitch)${length('at most', s, say)}.`,
  'fill-too-dense': (s, say) => `Density (fill row to row)${length('at least', s, say)}.`,
  'fill-too-open': (s, say) => `Density (fill row to row)${length('at most', s, say)}.`,
  'fill-too-many-points': (s, say) =>
    `Needle points a mm²${number('at most', s, say)}. Lengthen the fill stitches or open the rows.`,
  'dense-place': (s, say) =>
    `Needle points a mm²${number('at most', s, say)}. Take out what is hidden, or open the density there.`,
  'layers-stacked': (s, say) =>
    `Layers on one spot${number('fewer than', s, say)}. Cut away what is hidden underneath.`,
  'needle-points-piled': (s, say) =>
    `Needle points on one spot${number('fewer than', s, say)}. ${s.ofShort ? 'Take the short stitches out there.' : 'Shorten every second stitch at tight turns.'}`,
  'stitch-too-short': (s, say) =>
    `Stitch length${length('at least', s, say)}. Filter the short stitches out.`,
  'stitch-too-long': (s, say) => `Stitch length${length('at most', s, say)}. Break longer ones up.`,
  'jump-not-trimmed': (s, say) =>
    `Trim${s.limit === null ? ' long moves' : ` every move over ${say.length(s.limit)}`}, with a tie-off before and a tie-in after it.`,
  'missing-lock': () => 'Locks: a tie-in where the thread starts and a tie-off where it ends.',
  'no-trims': () => 'Trims: save the file with its trims.',
  'lettering-too-small': (s, say) => `Letter height${length('at least', s, say)} in 40-weight thread.`,
};

const topics: Readonly<Record<ReplyTopic, string>> = {
  file: 'the file and its header',
  size: 'size',
  columns: 'satin widths',
  density: 'density',
  'stitch-length': 'stitch lengths',
  underlay: 'underlay',
  locks: 'tie-ins and tie-offs',
  trims: 'trims',
  lettering: 'lettering',
};

const things = (n: number, say: Voice): string => say.counted(n, 'thing');

export const reply = {
  should: {
    ...should,
    file: 'Save and send the file again, unless you meant it so.',
  },
  topics,
  title: ({ file }: { file: string }, _: Voice): string => `Please fix: ${file}`,
  titleFine: ({ file }: { file: string }, _: Voice): string => `Ready to sew: ${file}`,
  verdict: { fix: 'PLEASE FIX', fixed: 'FIXED HERE', fine: 'GOOD TO SEW' },
  line: (
    { items, file, fabric }: { items: number; file: string; fabric: string | null },
    say: Voice,
  ): string => `${things(items, say)} in ${file}${fabric === null ? '' : `, to be sewn on ${fabric}`}`,
  fixedHere: ({ file }: { file: string }, _: Voice): string =>
    `our copy of ${file} has nothing left to fix; please change yours as well`,
  nothing: ({ file }: { file: string }, _: Voice): string => `nothing to fix in ${file}`,
  design: (
    { widthMm, heightMm, stitches }: { widthMm: number; heightMm: number; stitches: number },
    say: Voice,
  ): string =>
    `${say.size(widthMm, heightMm)}, ${say.counted(stitches, 'stitch', 'stitches')}. Places are measured from the start point of the file; stitches are counted from 1 without jumps.`,
  fixTitle: 'To fix',
  /** `color 2 (navy), stitch 341 (12.3, -4.0 mm); 7 places`. */
  where: (
    {
      block,
      color,
      stitch,
      place,
      places,
    }: {
      block: number | null;
      color: string | null;
      stitch: number | null;
      place: string | null;
      places: number;
    },
    say: Voice,
  ): string => {
    const at = [
      ...(block === null ? [] : [`color ${block}${color === null ? '' : ` (${color})`}`]),
      ...(stitch === null ? [] : [`stitch ${say.count(stitch)}`]),
    ].join(', ');
    const first = [at, ...(place === null ? [] : [at === '' ? `at ${place}` : `(${place})`])]
      .filter(Boolean)
      .join(' ');
    if (first === '') return 'the whole file';
    return places > 1 ? `${say.count(places)} places, the worst at ${first.replace(/^at /, '')}` : first;
  },
  measured: ({ text }: { text: string }, _: Voice): string => `Now: ${text}.`,
  /** Of a finding whose figure is how wide the column is. */
  widestColumn: ({ text }: { text: string }, _: Voice): string => `The widest column is ${text} wide.`,
  relaid: {
    done: {
      fixed: 'We fixed this in our copy.',
      partly: 'We fixed this in part in our copy; the rest is still there.',
    },
    can: { fixed: 'We can fix this ourselves.', partly: 'We can fix this in part ourselves.' },
  },
  compensationName: 'pull compensation',
  /** Objects are told by the stitch that each begins with: digitizing software does not number them as we do. */
  compensation: (
    { mm, places, stitches }: { mm: number; places: number; stitches: readonly number[] },
    say: Voice,
  ): string => {
    const named = stitches.slice(0, MOST_NAMED).map((stitch) => say.count(stitch));
    const more = stitches.length - named.length;
    const from = say.list(more > 0 ? [...named, `${say.count(more)} more`] : named);
    return `${say.length(mm)} on each side of ${say.counted(places, 'object')} (from ${places === 1 ? 'stitch' : 'stitches'} ${from})`;
  },
  compensationShould: ({ each }: { each: string }, _: Voice): string =>
    `${each}; count what the file has already.`,
  compensationWhere: 'along the stitches',
  fineTitle: 'Fine as it is',
  fine: ({ topics: named }: { topics: readonly string[] }, say: Voice): string => `${say.list(named)}.`,
  minor: ({ names }: { names: readonly string[] }, say: Voice): string =>
    `Small things we can live with: ${say.list(names)}.`,
  changedTitle: 'What we changed',
  canTitle: 'What we can change',
  changed: ({ columns }: { columns: number }, say: Voice): string =>
    `Our copy has new, light underlay under ${say.counted(columns, 'satin column')}; nothing else was touched.`,
  can: ({ columns }: { columns: number }, say: Voice): string =>
    `We can put light underlay under ${say.counted(columns, 'satin column')} ourselves; leave it to us if you like.`,
  fixed: ({ names, done }: { names: readonly string[]; done: boolean }, say: Voice): string =>
    `That ${done ? 'took' : 'takes'} care of: ${say.list(names)}.`,
  stays: ({ names }: { names: readonly string[] }, say: Voice): string =>
    `Still to fix after that: ${say.list(names)}.`,
  allFixed: 'Nothing is left to fix after that.',
  pictureLabel: 'What to fix in the picture',
  caption: 'Letters are those of the list.',
};
