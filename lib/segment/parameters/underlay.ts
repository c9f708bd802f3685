import { COMMON_PRACTICE, of } from './figure.js';

/** What kind of underlay lies beneath a column or an area. */
export const UNDERLAY = {
  /** Stretches of underlay with no more stitches than this between them are one piece. */
  pieceGap: of(12, 8, 20, 'stitches'),
  /** Thread beneath a column that shows no kind is underlay from this many times the column's length on: travel goes once along it. */
  unknownThread: of(1.6, 1.3, 2.2, '×'),
  /** Turn from which a new leg begins, in the coordinates of the column; shorter stitches and legs show no direction. */
  underTurn: of(32, 24, 42, '°'),
  underStitch: of(0.3, 0.2, 0.4, 'mm'),
  underLeg: of(0.4, 0.3, 0.6, 'mm'),
  /** A column is taken for no narrower than twice this. */
  underHalf: of(0.2, 0.15, 0.3, 'mm'),
  /** A leg runs along the middle within this share of the half width, or this near to it. */
  middleShare: of(0.34, 0.25, 0.45, 'share'),
  middleMm: of(0.28, 0.2, 0.4, 'mm', 'our own choice: a grid of 0.1 mm and half a thread'),
  /** A leg from side to side goes at least this far across for each mm along, and this share of the whole way across. */
  crossSteep: of(0.35, 0.25, 0.5, 'mm/mm'),
  crossReach: of(1.25, 1, 1.6, 'half widths'),
  /** Share of all legs within the reach that counts as how far to the sides they come. */
  reachShare: of(0.9, 0.8, 1, 'share'),
  /** A leg goes along the column where it goes this many times as far along as across; runs within this share of the half width go on from each other. */
  alongTimes: of(1.2, 1, 1.6, '×'),
  sameLane: of(0.35, 0.25, 0.5, 'half widths'),
  /** Share of the column's length that a run must cover to count as underlay. */
  runCovers: of(0.55, 0.45, 0.7, 'share'),
  /** Shortest run along the column that is read as one, as a share of its length and whatever that is, and shortest piece of a center run. */
  runLeast: of(0.35, 0.25, 0.5, 'share'),
  runLong: of(15, 10, 20, 'mm'),
  runPiece: of(0.1, 0.05, 0.2, 'share'),
  /** Rows along a column lie this far apart, differ in that by no more than this share, and are so many; */
  alongRowsLeast: of(1.2, 0.9, 1.5, 'mm'),
  alongRowsMost: of(5, 4, 6, 'mm'),
  alongRowsUneven: of(0.35, 0.25, 0.5, 'share'),
  alongRowsFewest: of(3, 2, 4, 'rows'),
  /** two of them lie at least this far inside its edges: an edge run lies nearer. */
  edgeInset: of(1.15, 0.9, 1.4, 'mm', `${COMMON_PRACTICE}: an edge run lies half a millimeter inside`),
  /** Legs across that are joined by less than this along the column are swings; by more, and less than these, rows. */
  crossJoint: of(0.6, 0.4, 0.8, 'mm'),
  crossStep: of(6.5, 5, 8, 'mm'),
  crossStepShare: of(0.8, 0.7, 0.9, 'share'),
  /** A zigzag has so many swings and goes this share of the column's length. */
  zigzagFewest: of(3, 2, 4, 'swings'),
  zigzagCovers: of(0.45, 0.35, 0.6, 'share'),
  /** It is a double one where this share of it goes back, or it is this many times as long as the column. */
  doubleBack: of(0.4, 0.3, 0.55, 'share'),
  doubleLong: of(1.55, 1.35, 1.8, '×'),
  /** An edge run of an area keeps within this distance of its edge, follows this share of its shortest outline, and closes within that. */
  edgeReach: of(1.9, 1.5, 2.4, 'mm'),
  edgeFollows: of(0.7, 0.55, 0.85, 'share'),
  edgeCloses: of(4, 3, 5.5, 'mm'),
  /** Most stitches along the edge by which a thread may come to where the way round begins, and least way round a hole. */
  edgeLeadIn: of(60, 30, 90, 'stitches'),
  edgeHole: of(12, 8, 16, 'mm'),
  /** Shorter legs are steps, not rows. */
  underRow: of(1.6, 1.2, 2.2, 'mm'),
  /** Directions are counted in so many bins over half a turn; a row keeps within this many of the commonest, and within this angle of it. */
  underBins: of(60, 48, 90, 'bins'),
  underSpread: of(3, 2, 4, 'bins'),
  underParallel: of(10.5, 8, 14, '°'),
  /** Rows lie this far apart, and are so many; they make up this share of what is no edge run, or that share in two directions. */
  underRowsApart: of(0.9, 0.7, 1.1, 'mm'),
  underRowsFewest: of(3, 2, 4, 'rows'),
  underRowsShare: of(0.5, 0.4, 0.65, 'share'),
  underRowsCrossed: of(0.7, 0.6, 0.85, 'share'),
} as const;
