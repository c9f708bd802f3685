import { of, WORK } from './figure.js';

/** Which patches are one piece, what belongs to it at its ends, and the fabric that it lies on. */
export const TOPS = {
  /** Greatest angle between the rows of two sections of one fill, and the same where rows are short. */
  sameRows: of(6, 4, 9, '°'),
  sameShortRows: of(14, 10, 20, '°'),
  shortRows: of(4, 3, 6, 'mm'),
  /** Sections whose rows agree less than this have no direction: 1 for parallel ones. */
  rowsAgree: of(0.9, 0.8, 0.95, 'share'),
  /** Pitches of two sections differ by factors between these. */
  sectionsLess: of(0.72, 0.6, 0.85, '×'),
  sectionsMore: of(1.4, 1.2, 1.7, '×'),
  /** Sections touch where their rows come this near end to end, and beside each other as near as so many rows: the first ones are often lost to the travel that leads there. Legs farther apart are no one piece. */
  sectionsNear: of(1.5, 1, 2.2, 'mm'),
  rowsLost: of(7, 5, 9, 'rows'),
  /** Sections on threads of their own, of which so many are looked back at, are one area where, of so many rows nearest to each other (rows of this many points without the outermost), those of each lie this clearly on one raster, and the two this share of a row distance apart. */
  sectionsBack: of(24, 12, 48, 'areas', WORK),
  rasterRows: of(8, 6, 12, 'rows'),
  rasterPoints: of(4, 3, 6, 'points'),
  rasterClear: of(0.7, 0.6, 0.8, 'share'),
  rasterOff: of(0.2, 0.1, 0.25, 'row distances'),
  /** A column that broke off goes on within so many stitches and this far, its pitches between these factors, */
  columnGap: of(3, 2, 5, 'stitches'),
  columnApart: of(1.2, 0.9, 1.6, 'mm'),
  columnLess: of(0.45, 0.35, 0.6, '×'),
  columnMore: of(2.2, 1.7, 2.8, '×'),
  /** and its way, over so many swings, within this cosine. */
  columnSwings: of(7, 5, 9, 'swings'),
  columnAhead: of(0.8, 0.7, 0.9, 'cosine'),
  /** Most stitches of stray rows or travel at the end of a fill, and their way as a share of the shortest outline. */
  strayStitches: of(60, 40, 90, 'stitches'),
  strayWay: of(0.85, 0.7, 1, 'share'),
  /** One stitch of a row at the end of a fill steps on by at most so many row distances, a point lies off its row by no more than this, */
  rowStep: of(1.8, 1.4, 2.4, 'row distances'),
  onRow: of(0.4, 0.25, 0.5, 'row distances'),
  /** and a row starts this far beyond the one before. */
  rowBeyond: of(2.5, 1.8, 3.5, 'mm'),
  /** Step of the positions in a file. */
  grid: of(0.1, 0.1, 0.1, 'mm', 'the step of the stitch format'),
  /** An end is pointed where its last swing is no longer than this. A further swing at the tip of a column lies this far beyond the one before, in steps of the column. */
  tipStart: of(1.6, 1.2, 2, 'mm'),
  tipLeastStep: of(0.2, 0.1, 0.4, 'steps'),
  tipMostStep: of(2.2, 1.8, 2.8, 'steps'),
  /** ... no farther beside its center line than this and a share of the swing's length, and no longer than the one before by this factor. */
  tipBeside: of(0.25, 0.15, 0.35, 'mm'),
  tipBesideShare: of(0.25, 0.15, 0.35, 'share'),
  tipLonger: of(1.15, 1.05, 1.3, '×'),
  /** A tip goes on from the way of so many swings; its own are no shorter than the first figure, and lie as they like below the second, in steps of the file. */
  tipSwings: of(4, 3, 6, 'swings'),
  tipLeast: of(2, 1.5, 3, 'grid steps'),
  tipFree: of(4, 3, 6, 'grid steps'),
  /** A point this far outside the rails of a column lies under it; before its start and behind its end by these. */
  columnMargin: of(0.3, 0.2, 0.45, 'mm'),
  columnBefore: of(0.7, 0.5, 1, 'mm'),
  columnBehind: of(0.5, 0.35, 0.8, 'mm'),
  /** Least side of a cell of an area's grid, and the same in row distances: a cell wider than those is met by a row wherever it lies. */
  areaCell: of(
    0.5137,
    0.4137,
    0.6137,
    'mm',
    'our own choice: no multiple of 0.1 mm, so that no point lies on a border',
  ),
  areaCellRows: of(1.25, 1.1, 1.5, 'row distances'),
  /** Directions in which the edge of an area is looked for. */
  edgeDirections: of(16, 12, 24, 'directions'),
  /** A huge sparse area gets no more cells than this for a row, and this many besides; three marks for two cells leave out a clipped corner at most. */
  areaCells: of(64, 48, 128, 'cells', WORK),
  areaCellsBesides: of(4096, 2048, 8192, 'cells', WORK),
  areaMarks: of(1.5, 1.2, 2, 'marks', WORK),
} as const;
