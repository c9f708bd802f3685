import { COMMON_PRACTICE } from '../../core/sourced.js';
import type { Finder } from '../context.js';
import { startOf } from '../place-of.js';

/** A very dense column with capped ends: right over foam, and too dense without it. */
export const satinOverFoam: Finder = ({ objects, limits, stitches }) =>
  objects.flatMap(({ object, spacingMm }) => {
    if (!object.foam || spacingMm === null) return [];
    return {
      code: 'satin-over-foam',
      severity: 'note',
      ...startOf(stitches, object),
      measured: spacingMm.median,
      limit: limits['satin-too-dense'].warn,
      unit: 'mm',
      params: { spacingMm: spacingMm.median },
      fix: { do: 'lay-foam', objects: [object.id] },
      basis: COMMON_PRACTICE,
    };
  });
