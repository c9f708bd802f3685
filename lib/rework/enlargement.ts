import type { Bounds } from '../core/bounds.js';
import type { Design } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { ProofFault } from './proof.js';

/** How a design is made larger: growth along x and y as fractions (0.05 is 5 %), and how far it is moved, mm. */
export interface Enlargement {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/**
 * A design made larger, and where the objects of the one it was made from are in it: ranges and swings count along the new stitches,
 * so nothing has to be found again.
 */
export interface EnlargedDesign {
  readonly design: Design;
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  /** What could not be made larger as the rest, and was grown or left as it stood; none where it is not said. */
  readonly left?: readonly LeftPart[];
}

/** A part of an object that could not be made larger as the rest. */
export interface LeftPart {
  readonly object: number;
  readonly part: 'top' | 'underlay';
  readonly because: NotGrown;
}

/**
 * Why: its stitches follow no rule that sews them again, too few of its rows lie straight beside each other, it is a run that has no width to be widened, or it failed
 * the proof.
 */
export type NotGrown = 'no-rule' | 'few-rows' | 'run' | ProofFault;

/**
 * A design as it gets with a certain growth: all of it, or one object at a time, each laid when it is asked for. Positions are not rounded to
 * what a file can say.
 */
export interface Growing {
  whole(): EnlargedDesign;
  /**
   * The top stitching of one object, stitch for stitch as it is in the whole: a design and stitches of little else, and that object alone.
   *
   * @param k its place in the list of objects, from 0
   */
  alone(k: number): EnlargedDesign;
  /** A box that holds the needle points of that object's top stitching, without laying it, mm. */
  reach(k: number): Bounds;
  /** Whether a thread of it may pass within so many mm of a place, told without laying it: where this says no, none does. */
  mayHold(k: number, x: number, y: number, withinMm: number): boolean;
}

/**
 * A way to make a design larger. The design, its needle points and the objects in them go in, and what does not hang on the growth is
 * made ready once; none of them is changed. Objects to `leave` are not laid anew: each of their stitches stays, moved to where its place comes to lie.
 */
export type Enlarge = (
  design: Design,
  stitches: Stitches,
  objects: readonly StitchObject[],
  leave?: ReadonlySet<number>,
) => (by: Enlargement) => Growing;
