import { COMMON_PRACTICE } from '../../core/sourced.js';
import type { Finder } from '../context.js';
import { placeOf } from '../place-of.js';
import { inWords } from '../words.js';

/** A very dense column with capped ends: right over foam, and too dense without it. */
export const satinOverFoam: Finder = ({ objects, limits, stitches }) =>
  objects.flatMap(({ object, spacingMm }) => {
    if (!object.foam || spacingMm === null) return [];
    return {
      code: 'satin-over-foam',
      severity: 'note',
      object: object.id,
      ...placeOf(stitches, object.range[0]),
      measured: spacingMm.median,
      limit: limits['satin-too-dense'].warn,
      unit: 'mm',
      message: `Satin stitches only ${inWords(spacingMm.median)} apart with closed ends: this column looks made to be sewn over foam. Lay foam under it; without foam it is too dense.`,
      basis: COMMON_PRACTICE,
    };
  });
