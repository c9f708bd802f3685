import { COMMON_PRACTICE, of, WORK } from './figure.js';

/** Where a string of legs is really two, and whether a stretch of legs is swings, rows or none. */
export const PATCHES = {
  /** Distance between legs from which a zigzag or a set of rows is open: an underlay, or a decoration. */
  openPitch: of(0.5, 0.45, 0.6, 'mm', `${COMMON_PRACTICE}: thread covers about 0.4 mm`),
  /** Legs on each side of a cut that must agree that it is one. */
  cutWitnesses: of(3, 2, 4, 'legs'),
  /** A change of sign counts from this pitch on. */
  signedPitch: of(0.05, 0.03, 0.08, 'mm'),
  /** The pitch of an open zigzag is more than this many times that of the dense top beside it. */
  cutOpener: of(2.2, 1.8, 2.7, '×'),
  /** Pitches of one size differ by factors between these. */
  pitchLess: of(0.35, 0.25, 0.5, '×'),
  pitchMore: of(2.8, 2.2, 3.5, '×'),
  /** Fewest legs of a patch. */
  fewestLegs: of(4, 3, 5, 'legs'),
  /** Legs that lie on each other are no patch but a run sewn there and back. */
  leastPitch: of(0.06, 0.04, 0.08, 'mm'),
  /** Share of the pitches of a patch that agree. */
  pitchesAgree: of(0.7, 0.6, 0.8, 'share'),
  /** Most legs looked at for a median. */
  medianLegs: of(17, 11, 33, 'legs', WORK),
  /** Share of legs with needle points inside from which swings are split, and may be rows. */
  brokenShare: of(0.2, 0.12, 0.35, 'share'),
  /** Nobody splits a swing this short: points inside are those of travel that crosses it. */
  leastSplit: of(2.5, 1.8, 3.2, 'mm', COMMON_PRACTICE),
  /** Share of steps between legs from which they are rows, and the least pitch of rows. */
  steppedShare: of(0.5, 0.35, 0.65, 'share'),
  rowPitch: of(0.2, 0.16, 0.24, 'mm'),
  /** Legs without steps between them but with so many points inside, or as far apart as this, are rows, */
  rowsPoints: of(4, 3, 5, 'points'),
  rowsFrom: of(0.31, 0.28, 0.35, 'mm'),
  /** as far as this where their stitches are longer on average than those of rows usually are. */
  longRowsFrom: of(0.42, 0.38, 0.46, 'mm'),
  splitStitch: of(4.4, 4, 4.8, 'mm'),
  /** A first or last row nearer to its neighbor than this share of the pitch is none. */
  onTop: of(0.35, 0.2, 0.5, 'share'),
  /** A first or last swing that is longer than the next ones by this factor and this much is the way into the column. */
  oddLonger: of(1.6, 1.4, 1.9, '×'),
  oddLongerMm: of(0.3, 0.2, 0.5, 'mm'),
  /** So is one shorter than this share of theirs that is turned by more than this. */
  oddShorter: of(0.7, 0.55, 0.85, 'share'),
  oddTurn: of(20, 14, 28, '°'),
  /** Next swings it is held against. */
  oddSwings: of(5, 4, 7, 'legs'),
  /** A swing that the thread goes straight on from ends this near to the one before on its rail (two pitches lie between), */
  railPitches: of(3.5, 2.6, 4.5, 'pitches'),
  /** and differs in length from those beside it by less than this share. */
  swingDiffers: of(0.15, 0.1, 0.25, 'share'),
  /** Legs that go back to the needle place they came from are a line there and back where they are this share. */
  backShare: of(0.3, 0.25, 0.4, 'share'),
  backPlace: of(0.16, 0.13, 0.2, 'mm', 'the step of the stitch format, both ways'),
  /** Rows of an open area rise no more than this share of their length above their chord, away from their ends; more than this share of them are no rows. */
  rowEnd: of(0.2, 0.15, 0.25, 'share'),
  rowRise: of(0.15, 0.12, 0.18, 'share'),
  rowsBent: of(0.45, 0.4, 0.5, 'share'),
} as const;
