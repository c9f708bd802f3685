import { calledUnderlay } from '../called-underlay.js';
import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { startOf } from '../place-of.js';

/** A wide satin column with nothing under it that tacks the fabric to the backing. */
export const wideSatinNoUnderlay: Finder = ({ objects, limits, stitches }) =>
  objects.flatMap(({ object, widthMm }) => {
    if (widthMm === null || object.underlay.kinds.length > 0 || object.purpose !== 'top') return [];
    // foam holds the stitches up by itself, and what tacks an applied piece down holds the fabric under its edge
    if (object.foam || object.overPiece) return [];
    const verdict = judge(limits['wide-satin-no-underlay'], widthMm.median);
    if (!verdict) return [];
    return {
      code: 'wide-satin-no-underlay',
      ...verdict,
      ...startOf(stitches, object),
      measured: widthMm.median,
      unit: 'mm',
      ...calledUnderlay(object, { widthMm: widthMm.median }),
      basis: limits['wide-satin-no-underlay'].basis,
    };
  });
