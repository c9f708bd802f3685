/**
 * The rules of the finder, each a function that answers as if there were no such rule while it is switched off. Nothing in the finder knows of
 * this: the answer is put in where the finder is loaded (`variants.ts`).
 */
export interface Rule {
  readonly file: string;
  readonly name: string;
  /** What it answers while it is off, in terms of its parameters. */
  readonly off: string;
  readonly says: string;
}

const rule = (file: string, name: string, off: string, says: string): Rule => ({ file, name, off, says });

export const RULES: readonly Rule[] = [
  rule('threads', 'isLongStitch', 'false', 'a move by jumps may be a stitch too long for one record'),
  rule('locks', 'locksBetween', 'false', 'an object joined to its neighbor may have locks of its own'),
  rule('legs', 'getsOn', 'false', 'swings of a very dense column are no triple stitch'),
  rule('legs', 'lastMerged', 'a', 'a leg ends at the needle point that reaches farthest'),
  rule('leg-strings', 'zigzags', 'false', 'an open zigzag goes on where it does not turn back'),
  rule('leg-strings', 'isBent', 'false', 'a leg that bends is a run'),
  rule('leg-strings', 'isStep', 'false', 'a short way along the edge is a step between rows'),
  rule('cuts', 'leaps', 'false', 'the thread steps over to another area in one leap'),
  rule('cuts', 'leadsElsewhere', 'false', 'a row may lead on to another area'),
  rule('cuts', 'isCut', 'false', 'a string is two where its pitch changes for good'),
  rule('cuts', 'evenOut', 'raw.slice()', 'pitches are averaged over two places'),
  rule('patches', 'hasBentLegs', 'false', 'the rows of an open area are straight'),
  rule('patches', 'goesBack', 'false', 'a line sewn there and back is no patch'),
  rule('patches', 'joinedRows', 'false', 'rows may lead straight on to the next'),
  rule('patches', 'isOdd', 'false', 'the way into a column has another length than its swings'),
  rule('patches', 'agrees', 'true', 'the pitches of a patch agree'),
  rule('assemble-tops', 'familyFrom', '[patches[i]]', 'patches after each other may be one piece'),
  rule('assemble-tops', 'sameRows', 'true', 'sections of a fill have one direction and one distance of rows'),
  rule('assemble-tops', 'parallel', 'true', 'sections of a fill have one direction'),
  rule('assemble-tops', 'areasOf', '[[...family]]', 'sections of a fill touch'),
  rule('assemble-tops', 'touches', 'true', 'rows touch beside each other or end to end'),
  rule('assemble-tops', 'continuesColumn', 'false', 'a column that broke off goes on'),
  rule('tops', 'takeRowEnds', 'undefined', 'a fill has short rows at its ends'),
  rule('tops', 'takeTips', 'undefined', 'a column has small swings at its pointed ends'),
  rule('tops', 'takeStrayRows', 'undefined', 'what is left on a fill belongs to it'),
  rule('region', 'closeGaps', 'undefined', 'wedges between the ends of rows are covered'),
  rule('region', 'isNear', 'this.contains(x, y)', 'the edge of an area is a cell wide'),
  rule('fields', 'findField', 'null', 'there are areas without rows'),
  rule('fields', 'goesRound', 'false', 'what turns one way all along is a spiral'),
  rule('fields', 'patternOf', '"rows"', 'rows may be bent, spread or loose'),
  rule('passes', 'isSamePass', 'false', 'a column may be sewn in two passes'),
  rule('passes', 'isOtherWay', 'false', 'a net is sewn in two directions'),
  rule('passes', 'zigzagsOn', 'false', 'the pieces of an open zigzag are one'),
  rule('sections', 'firstOf', 'before.length', 'sections on threads of their own may be one area'),
  rule('sections', 'haveOneRaster', 'true', 'the rows of an area lie on one raster'),
  rule('run-passes', 'countPasses', '1', 'a line may be sewn several times'),
  rule('cover', 'capOf', 'null', 'a short zigzag closes the end of foam'),
  rule('cover', 'isOfNet', 'false', 'short rows beside a net belong to it'),
  rule('cover', 'stretchesUnder', '[]', 'thread on a top just sewn is hidden travel'),
  rule('cover', 'acrossShare', '0.5', 'thread belongs to the column that it goes along'),
  rule('cover', 'liesOn', '1', 'a top lies on what serves it'),
  rule('underlay', 'cluster', '[[...parts]]', 'stretches far from each other are pieces of their own'),
  rule('underlay', 'partsUnder', 'under', 'over foam the way from cap to cap is no underlay'),
  rule('underlay', 'readShared', 'null', 'what many lie on is read by itself'),
  rule('column-underlay', 'rowsAlong', 'null', 'a light fill may lie along a column'),
  rule('column-underlay', 'readCrossings', 'null', 'legs from side to side are a zigzag or rows'),
  rule('fill-underlay', 'edgeLoops', '[]', 'a way round an area is an edge run'),
  rule('fill-underlay', 'readRows', 'null', 'parallel legs under an area are a light fill'),
  rule('purposes', 'isBlanket', 'false', 'prongs to one side are a blanket stitch'),
  rule('purposes', 'isLayer', 'false', 'open rows that share their place are a net'),
  rule('purposes', 'goesAlong', 'false', 'lines that repeat each other over a stop are an applied piece'),
  rule('confidence', 'ofUnderlay', '[]', 'a bare column among others with underlay is doubtful'),
  rule('confidence', 'longStitches', 'false', 'rows of long stitches may be split satin'),
  rule('confidence', 'goesOn', 'false', 'columns that go on from each other may be one'),
  rule('groups', 'cutBetween', 'false', 'a cut ends a group'),
  rule('groups', 'touches', 'true', 'what makes a group touches'),
];

/** Functions that answer yes or no and are no rules: parts of others, and quick looks that save the closer one. */
export const NO_RULES: readonly string[] = [
  'cuts.differ',
  'cuts.fits',
  'fields.mayFill',
  'fields.mayStillFill',
  'find-objects.noneWithin',
  'legs.getsOnBy',
  'legs.near',
  'passes.isOver',
  'passes.liesIn',
  'region.contains',
  'region.nearEdge',
  'run-passes.liesAlong',
  'sections.isOneRaster',
  'sections.mayGoOn',
  'sections.touchesIn',
  'threads.endsBefore',
  'underlay.goesOnce',
];
