import type { LaidUnderlay } from '../../lib/stitch/laid-underlay.js';
import { relaid, type SewnDesign } from '../../lib/stitch/relaid.js';

/** The design with one kind of underlay under all its satin columns. */
export const relaidAll = (design: SewnDesign, kind: LaidUnderlay): SewnDesign =>
  relaid(design, new Map(design.objects.map(({ id }) => [id, kind])));
