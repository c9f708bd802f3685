import { COMMON_PRACTICE } from '../core/sourced.js';

/** How underlay is laid. Lengths in mm. */
export interface LaySettings {
  /** Kept from the rails and the ends of the column, so that nothing shows. */
  readonly insetMm: number;
  /** Longest stitch of a center run or an edge run. */
  readonly runStitchMm: number;
  /** Between neighbouring points of a zigzag on one rail. */
  readonly zigzagMm: number;
  /** Longest swing of a zigzag; a longer one is broken by needle points. */
  readonly swingMm: number;
  /** Between the rows of a light fill. */
  readonly rowsMm: number;
  /** Longest stitch of a light fill. */
  readonly fillStitchMm: number;
  /** No stitch is shorter. */
  readonly leastStitchMm: number;
}

const OWN_CHOICE = 'our own choice';

/** What is laid where nobody asks for anything else. */
export const LAY_SETTINGS: LaySettings = {
  insetMm: 0.5,
  runStitchMm: 2,
  zigzagMm: 2.5,
  swingMm: 7,
  rowsMm: 3,
  fillStitchMm: 2.5,
  leastStitchMm: 0.6,
};

/** Where each figure of {@link LAY_SETTINGS} comes from. */
export const LAY_BASIS: Readonly<Record<keyof LaySettings, string>> = {
  insetMm: COMMON_PRACTICE,
  runStitchMm: COMMON_PRACTICE,
  zigzagMm: COMMON_PRACTICE,
  swingMm: `${COMMON_PRACTICE} (a longer stitch snags)`,
  rowsMm: COMMON_PRACTICE,
  fillStitchMm: OWN_CHOICE,
  leastStitchMm: `${OWN_CHOICE}, a file's own step above the 0.5 mm under which thread breaks (${COMMON_PRACTICE})`,
};
