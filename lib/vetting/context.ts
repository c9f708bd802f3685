import type { Design } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import type { HoopField, Place } from '../materials/places.js';
import type { DesignMeasures, ObjectMeasures } from '../measure/measures.js';
import type { Finding } from './finding.js';
import type { LetteringLine } from './lettering.js';
import type { Limits } from './limits.js';

/** Everything a finding may look at. */
export interface FindingContext {
  readonly design: Design;
  readonly stitches: Stitches;
  readonly objects: readonly ObjectMeasures[];
  readonly measures: DesignMeasures;
  readonly limits: Limits;
  /** Where on the garment the design goes, if it was said. */
  readonly place?: Place;
  /** The hoop it is sewn in, if it was said. */
  readonly hoop?: HoopField;
}

/** What {@link FindingContext} holds, and what several findings need worked out of it. */
export interface VettingContext extends FindingContext {
  /** 1 for the penetrations of locks, as `markLocks` writes it. */
  readonly locks: Uint8Array;
  /** Satin lettering of about the size from which it is too small. */
  readonly lines: readonly LetteringLine[];
}

/** Looks for one kind of fault; one finding an object at most. */
export type Finder = (context: VettingContext) => Finding[];
