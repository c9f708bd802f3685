import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { Finding } from './finding.js';

/** The part of a finding that says where: a stitch and its needle place. */
export const placeOf = ({ x, y }: Stitches, stitch: number): Pick<Finding, 'stitch' | 'at'> => ({
  stitch,
  at: { x: x[stitch], y: y[stitch] },
});

/** The part of a finding of an object that says which, and where that begins. */
export const startOf = (
  stitches: Stitches,
  { id, range }: StitchObject,
): Pick<Finding, 'object' | 'stitch' | 'at'> => ({ object: id, ...placeOf(stitches, range[0]) });

/** The part of a finding that says that it is of the whole design. */
export const NOWHERE: Pick<Finding, 'object' | 'stitch' | 'at'> = { object: null, stitch: null, at: null };
