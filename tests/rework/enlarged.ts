import type { Design } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { penetrations, type Stitches } from '../../lib/format/stitches.js';
import { measureObject } from '../../lib/measure/measure-object.js';
import type { ObjectMeasures } from '../../lib/measure/measures.js';
import type { Enlarge, EnlargedDesign, Enlargement } from '../../lib/rework/enlargement.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';

export interface Read {
  design: Design;
  stitches: Stitches;
  objects: readonly StitchObject[];
  measures: ObjectMeasures[];
}

const measured = (
  design: Design,
  stitches: Stitches,
  objects: readonly StitchObject[],
): Read & { measures: ObjectMeasures[] } => ({
  design,
  stitches,
  objects,
  measures: objects.map((object) => measureObject(stitches, object)),
});

export function read(design: Design): Read {
  const stitches = penetrations(design);
  return measured(design, stitches, findObjects(stitches));
}

/** A design before and after, measured by the objects that the enlargement gives. */
export function enlargedBy(
  enlarge: Enlarge,
  design: Design,
  x: number,
  y = x,
  move: Partial<Enlargement> = {},
): { before: Read; after: Read; left: EnlargedDesign['left'] } {
  const before = read(design);
  const made = enlarge(design, before.stitches, before.objects)({ x, y, dx: 0, dy: 0, ...move }).whole();
  return { before, after: measured(made.design, made.stitches, made.objects), left: made.left };
}

/** The design as a file would hold it; null where no such file can be written. */
export function written(design: Design): Design | null {
  try {
    return decodeDst(encodeDst(design));
  } catch {
    return null;
  }
}

export const growth = (share: number): Enlargement => ({ x: share, y: share, dx: 0, dy: 0 });

/** Figures of an object that a person sees first. */
export const told = ({ kind, block, split, underlay, locks }: StitchObject) => ({
  kind,
  block,
  split,
  underlay: underlay.kinds.join(' + '),
  locks,
});
