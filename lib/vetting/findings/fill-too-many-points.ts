import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { placeOf } from '../place-of.js';
import { trimmed } from '../words.js';

/** A fill that puts too many needle points on its area, whatever its rows. */
export const fillTooManyPoints: Finder = ({ objects, limits, stitches }) =>
  objects.flatMap(({ object, densityPerMm2 }) => {
    if (object.kind !== 'fill') return [];
    const verdict = judge(limits['fill-too-many-points'], densityPerMm2);
    if (!verdict) return [];
    return {
      code: 'fill-too-many-points',
      ...verdict,
      object: object.id,
      ...placeOf(stitches, object.range[0]),
      measured: densityPerMm2,
      unit: 'points/mm²',
      message: `Fill with ${trimmed(densityPerMm2, 1)} needle points a square millimetre: the goods are perforated and stand stiff. Lengthen the stitches or open the rows.`,
      basis: limits['fill-too-many-points'].basis,
    };
  });
