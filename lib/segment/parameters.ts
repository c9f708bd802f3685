/** Every figure by which the finder decides, in one place. */
import { COMMON_PRACTICE, type Sourced } from '../core/sourced.js';

const OWN = 'our own choice';
const of = (value: number, low: number, high: number, unit: string, basis: string = OWN): Sourced => ({
  value,
  low,
  high,
  unit,
  basis,
});

export const FINDER = {
  /** Distance between legs from which a zigzag or a set of rows is open: an underlay, or a decoration. */
  openPitch: of(0.5, 0.45, 0.6, 'mm', `${COMMON_PRACTICE}: thread covers about 0.4 mm`),
  /** An underlay is at least this many times as open as the top over it. */
  opener: of(1.5, 1.25, 1.9, '×'),
  /** Share of an open patch that must lie under tops to be their underlay. */
  covered: of(0.8, 0.7, 0.9, 'share'),
  /** Share of a top that must lie over an open patch to be served by it. */
  liesOn: of(0.55, 0.4, 0.7, 'share'),
  /** Distance between legs from which what is partly covered may be a net under many tops, and the share that is covered at least. */
  netPitch: of(0.8, 0.6, 1.2, 'mm'),
  netCovered: of(0.2, 0.1, 0.3, 'share'),
  /** Share of a stretch of thread that must lie under later tops to be underlay or hidden travel. */
  staysUnder: of(0.8, 0.6, 0.9, 'share'),
  /** Stretches of underlay with no more stitches than this between them are one piece. */
  pieceGap: of(12, 8, 20, 'stitches'),
  /** A patch of no more legs than this that several tops cover is thread that happened to turn back. */
  fewLegs: of(12, 8, 16, 'legs'),
  /** ... or one whose stitches go no more than this across the columns above it, as the sine of the angle. */
  alongShare: of(0.5, 0.35, 0.6, 'sine'),
  /** Costs of a stitch beneath a column that goes across it, of one beneath an area, beneath a top where another is sewn sooner, in the open, and of a change from one top to another. */
  coverAcross: of(1, 0.7, 1.4, 'cost'),
  coverArea: of(0.2, 0.1, 0.3, 'cost'),
  coverLater: of(0.5, 0.3, 0.7, 'cost'),
  coverOpen: of(1.5, 1.1, 2, 'cost'),
  coverChange: of(1, 0.7, 1.4, 'cost'),
  /** Two columns are passes of one where they follow each other within so many stitches, */
  passGap: of(4, 2, 8, 'stitches'),
  /** their pitches and widths differ by no more than these factors, */
  passPitch: of(1.6, 1.3, 2, '×'),
  passWidth: of(1.2, 1.1, 1.35, '×'),
  /** and this share of each lies within the other. */
  passCovered: of(0.85, 0.75, 0.95, 'share'),
  /** Two open areas are the two directions of one net where this share of each lies within the other. */
  netAgain: of(0.7, 0.6, 0.8, 'share'),
  /** A stitch lies along another where it passes its middle this near, with this cosine between them; shorter ones are not asked. */
  lineBeside: of(0.3, 0.2, 0.4, 'mm'),
  lineAlong: of(0.9, 0.8, 0.95, 'cosine'),
  lineLeast: of(0.8, 0.5, 1, 'mm'),
  /** Swings of a very dense column end this near to the next on their rail, and three of them come this far. */
  denseStep: of(0.3, 0.25, 0.35, 'mm'),
  denseWay: of(0.25, 0.2, 0.3, 'mm'),
  /** A short zigzag this many times as open as the very dense column over it is the cap of its end, over foam. */
  capOpener: of(2.5, 2, 3.5, '×'),
  capSwing: of(0.5, 0.4, 0.6, 'share of the swings above'),
  foamPitch: of(
    0.125,
    0.11,
    0.135,
    'mm',
    'our own choice: usual satin has 0.2 mm from swing to swing, foam is cut by swings half as far apart',
  ),
  /** Swings of an open zigzag turn by at least this (cosine between them); they are as long as each other within a factor, */
  zigzagTurn: of(0.35, 0.2, 0.5, 'cosine'),
  zigzagEven: of(1.35, 1.2, 1.6, '×'),
  /** and over any two of them the thread comes as far, within this share. */
  zigzagSteady: of(0.4, 0.3, 0.6, 'share'),
  /** Legs that go back to the needle place they came from are a line there and back where they are this share. */
  backShare: of(0.3, 0.25, 0.4, 'share'),
  backPlace: of(0.16, 0.13, 0.2, 'mm', 'the step of the stitch format, both ways'),
  /** Two pieces of an open zigzag are one where their pitches and swings differ by no more than these factors. */
  openPitchAlike: of(1.3, 1.2, 1.5, '×'),
  openSwingAlike: of(1.25, 1.15, 1.4, '×'),
  /** An area as open as this that nothing covers is a net. */
  netAlone: of(1.8, 1.4, 2.4, 'mm'),
  /** A column over an applied piece is an open edging from this distance between its swings. */
  openCover: of(0.35, 0.3, 0.45, 'mm'),
  /** Prongs of a blanket stitch stand across its way within this cosine, and there is one for so many stitches. */
  prongTurn: of(0.6, 0.5, 0.75, 'cosine'),
  prongs: of(0.15, 0.1, 0.2, 'share'),
  /** Two lines of an applied piece have boxes of which this share lies within the other, grown by this much, */
  pieceAlike: of(0.85, 0.75, 0.95, 'share'),
  pieceReach: of(4, 3, 6, 'mm'),
  /** and lie this near to each other where neither is a column. */
  besideLine: of(1.2, 0.8, 1.8, 'mm'),
  /** A stretch of fewer strands is no area without rows, nor one whose thread, so far apart, fills less than this share of its box. */
  fieldLeast: of(24, 16, 40, 'strands'),
  fieldPitch: of(1.3, 1, 1.6, 'mm'),
  fieldOfBox: of(0.15, 0.1, 0.25, 'share'),
  /** Shares of its length that lie beside other strands, and between two of them, */
  fieldBeside: of(0.75, 0.65, 0.85, 'share'),
  fieldBetween: of(0.45, 0.35, 0.6, 'share'),
  /** and share of the distances that differ by less than this share from the middle one. */
  fieldEven: of(0.7, 0.6, 0.8, 'share'),
  fieldUneven: of(0.35, 0.25, 0.5, 'share'),
  /** A point where the thread turns this far, and not beside it, is a corner; a spiral has less than this share of its turns there, */
  fieldCorner: of(0.6, 0.5, 0.9, 'rad'),
  fieldCorners: of(0.3, 0.2, 0.5, 'share'),
  /** and less than this share of them the other way. */
  fieldBack: of(0.05, 0.03, 0.08, 'share'),
  /** Rows are curved where most rise this far above their chord, and a share of its length. */
  curvedRise: of(0.3, 0.2, 0.4, 'mm'),
  curvedShare: of(0.02, 0.01, 0.03, 'share'),
  /** Rows spread like rays where their directions agree less than this: 1 for parallel ones. */
  radialSpread: of(0.8, 0.6, 0.9, 'share'),
  /** Rows this far apart let the goods show through. */
  loosePitch: of(1, 0.8, 1.3, 'mm'),
  /** Rows of an open area rise no more than this share of their length above their chord; more than this share of them are no rows. */
  rowEnd: of(0.2, 0.15, 0.25, 'share'),
  rowRise: of(0.15, 0.12, 0.18, 'share'),
  rowsBent: of(0.45, 0.4, 0.5, 'share'),
  /** Stitches longer than this on average are those of split satin rather than of rows as dense as that. */
  splitStitch: of(4.4, 4, 4.8, 'mm'),
  /** A run of so many points, a column or area of so many legs is no chance, */
  sureRun: of(24, 12, 40, 'stitches'),
  sureLegs: of(16, 10, 24, 'legs'),
  /** nor is a figure that is this many times the one that decides. */
  sureFactor: of(1.5, 1.3, 1.8, '×'),
  /** Rows from this distance on, and where their stitches are as long as this, may be split satin. */
  rowsFrom: of(0.31, 0.28, 0.35, 'mm'),
  longRows: of(3.6, 3.2, 4, 'mm'),
  /** Columns mostly lie on underlay where this share of them does. */
  mostLie: of(0.7, 0.6, 0.8, 'share'),
  /** Thread beneath that comes no farther than this from where it begins is a lock. */
  lockReach: of(1.2, 1, 1.5, 'mm', `${COMMON_PRACTICE}: stitches of a lock are up to a millimeter long`),
  /** Margins of what is told by its neighbors alone: thread beneath that shows nothing, a bare column among others with underlay, a column that goes on from another. */
  unreadMargin: of(0.1, 0.05, 0.2, 'margin'),
  bareMargin: of(0.4, 0.3, 0.6, 'margin'),
  seamMargin: of(0.6, 0.5, 0.8, 'margin'),
  /** Step of the positions in a file. */
  grid: of(0.1, 0.1, 0.1, 'mm', 'the step of the stitch format'),
  /** An end is pointed where its last swing is no longer than this. A further swing at the tip of a column lies this far beyond the one before, in steps of the column. */
  tipStart: of(1.6, 1.2, 2, 'mm'),
  tipLeastStep: of(0.2, 0.1, 0.4, 'steps'),
  tipMostStep: of(2.2, 1.8, 2.8, 'steps'),
  /** ... no farther beside its centre line than this and a share of the swing's length, and no longer than the one before by this factor. */
  tipBeside: of(0.25, 0.15, 0.35, 'mm'),
  tipBesideShare: of(0.25, 0.15, 0.35, 'share'),
  tipLonger: of(1.15, 1.05, 1.3, '×'),
} as const;
