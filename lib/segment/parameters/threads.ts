import { COMMON_PRACTICE, of } from './figure.js';

/** Where a thread ends, and the locks at its ends. */
export const THREADS = {
  /** A move up to this length may be a stitch across a wide column, whatever lies beside it. */
  longStitch: of(17, 13, 24, 'mm', 'our own choice: what a machine sews in two records'),
  /** What one record of a file holds along each axis: no stitch need be made of jumps that is shorter. */
  record: of(12.1, 12.1, 12.1, 'mm', 'the stitch format'),
  /** A neighboring swing is at least this share as long as a longer move that is a stitch, and runs back within this angle. */
  longAlike: of(0.25, 0.15, 0.4, 'share'),
  longTurn: of(45, 30, 60, '°'),
  /** Longest stitch of a lock. */
  lockStitch: of(
    1.05,
    0.85,
    1.25,
    'mm',
    `${COMMON_PRACTICE}: stitches of a lock are up to a millimeter long`,
  ),
  /** The same of one that goes round and comes back to its first needle place. */
  lockRoundStitch: of(1.25, 1.1, 1.4, 'mm'),
  /** Most stitches of a lock. */
  lockMost: of(9, 7, 12, 'stitches'),
  /** Locks in the middle of a thread lie this near to the end that they lock, */
  lockHome: of(1.5, 1, 2, 'mm'),
  /** begin this near to it, and reach this far. */
  lockNear: of(4, 3, 6, 'stitches'),
  lockUntil: of(9, 7, 12, 'stitches'),
  /** A stitch this many times as long as those of a lock is clearly longer. */
  lockLonger: of(1.5, 1.3, 1.8, '×'),
  /** A lock over its own needle places goes on while stitches are shorter than this share of the longest of so many next ones. */
  lockShorter: of(0.55, 0.4, 0.7, 'share'),
  lockAhead: of(3, 2, 4, 'stitches'),
  /** Locks that run straight on get this share of their way ahead. */
  lockStraight: of(0.95, 0.9, 0.98, 'share'),
  /** A lock comes back to one of its needle places within this many stitches: there and back, round a triangle or a square. */
  lockRound: of(4, 3, 5, 'stitches'),
  /** It closes round a triangle or a square where it comes back this near: each of its ends may be a step of the file off. */
  lockCloses: of(0.29, 0.2, 0.35, 'mm', 'two steps of the stitch format, both ways'),
  /** Shorter stitches are noise of the file. */
  lockLeast: of(0.15, 0.11, 0.25, 'mm', 'a step of the stitch format, or its diagonal'),
  /** Stitches on one spot that tie a thread by themselves. */
  lockOnSpot: of(3, 2, 4, 'stitches'),
  /** A needle place met again lies within this distance. */
  samePlace: of(0.16, 0.13, 0.2, 'mm', 'the step of the stitch format, both ways'),
  /** A thread of fewer stitches holds no swings and no rows. */
  threadLeast: of(4, 3, 6, 'stitches'),
} as const;
