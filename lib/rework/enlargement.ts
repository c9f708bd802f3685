import type { Design } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';

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
  /** A short clause: why not. */
  readonly why: string;
}

/**
 * A way to make a design larger. The design, its needle points and the objects in them go in; none of them is changed. Positions of the
 * result are not rounded to what a file can say.
 */
export type Enlarge = (
  design: Design,
  stitches: Stitches,
  objects: readonly StitchObject[],
  by: Enlargement,
) => EnlargedDesign;
