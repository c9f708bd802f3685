import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { startOf } from '../place-of.js';

/** A fill that puts too many needle points on its area, whatever its rows. */
export const fillTooManyPoints: Finder = ({ objects, limits, stitches }) =>
  objects.flatMap(({ object, densityPerMm2 }) => {
    if (object.kind !== 'fill') return [];
    const verdict = judge(limits['fill-too-many-points'], densityPerMm2);
    if (!verdict) return [];
    return {
      code: 'fill-too-many-points',
      ...verdict,
      ...startOf(stitches, object),
      measured: densityPerMm2,
      unit: 'points/mm²',
      params: { perMm2: densityPerMm2 },
      fix: { do: 'ask-digitizer', objects: [object.id], to: 'lengthen-stitches' },
      basis: limits['fill-too-many-points'].basis,
    };
  });
