import { type StitchObject, UNSURE } from '../segment/objects.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { CalledUnderlay, Fix } from './finding.js';

/** What goes under a wide column by the rule of the trade: short stitches tack the fabric and pull little (common practice, no source). */
export const LIGHT_UNDERLAY = 'fill' satisfies LaidUnderlay;

/** What a column calls for, with the figures of its finding; where it may be something else nothing mends it unasked. */
export function calledUnderlay<P extends object>(
  { id, confidence }: StitchObject,
  figures: P,
): { params: P & CalledUnderlay; fix: Fix | null } {
  const onlyIfNamed = confidence < UNSURE;
  return {
    params: { ...figures, to: LIGHT_UNDERLAY, onlyIfNamed },
    fix: onlyIfNamed ? null : { do: 'relay', objects: [id], to: LIGHT_UNDERLAY },
  };
}
