import { COMMON_PRACTICE, of, WORK } from './figure.js';

/** What lies beneath what, and what is left in the open. */
export const COVER = {
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
  /** A patch of no more legs than this that several tops cover is thread that happened to turn back. */
  fewLegs: of(12, 8, 16, 'legs'),
  /** Costs of a stitch beneath a column that goes across it, of one beneath an area, beneath a top where another is sewn sooner, in the open, and of a change from one top to another. */
  coverAcross: of(1, 0.7, 1.4, 'cost'),
  coverArea: of(0.2, 0.1, 0.3, 'cost'),
  coverLater: of(0.5, 0.3, 0.7, 'cost'),
  coverOpen: of(1.5, 1.1, 2, 'cost'),
  coverChange: of(1, 0.7, 1.4, 'cost'),
  /** A short zigzag this many times as open as the very dense column over it is the cap of its end, over foam. */
  capOpener: of(2.5, 2, 3.5, '×'),
  capSwing: of(0.5, 0.4, 0.6, 'share of the swings above'),
  foamPitch: of(
    0.135,
    0.125,
    0.145,
    'mm',
    'our own choice: usual satin has 0.2 mm from swing to swing, foam is cut by swings half as far apart',
  ),
  /** Most points of an open patch that are asked what they lie under, and most tops. */
  coverSample: of(400, 200, 800, 'points', WORK),
  coverTops: of(64, 32, 128, 'tops', WORK),
  /** What lies beside a top by less than this is asked about. */
  aboveReach: of(1, 0.7, 1.5, 'mm'),
  /** Shortest run in the open between tops, at the end of a thread, and alone on a thread. */
  betweenPoints: of(7, 5, 10, 'stitches'),
  betweenMm: of(14, 10, 18, 'mm'),
  atEndPoints: of(4, 3, 6, 'stitches'),
  atEndMm: of(5, 3.5, 7, 'mm'),
  alonePoints: of(3, 2, 4, 'stitches'),
  aloneMm: of(1.5, 1, 2.2, 'mm', `${COMMON_PRACTICE}: locks alone stay within a millimeter`),
} as const;
