import type { UnderlayKind } from '../../segment/objects.js';
import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { placeOf } from '../place-of.js';
import { inWords } from '../words.js';

const HEAVY: readonly UnderlayKind[] = ['double-zigzag', 'zigzag'];

/** A wide satin column over zigzag: the underlay's own wide stitches pull as well. */
export const wideSatinHeavyUnderlay: Finder = ({ objects, limits, stitches }) =>
  objects.flatMap(({ object, widthMm }) => {
    const heavy = HEAVY.find((kind) => object.underlay.kinds.includes(kind));
    const verdict = heavy && widthMm && judge(limits['wide-satin-heavy-underlay'], widthMm.median);
    if (!verdict) return [];
    const words = heavy === 'zigzag' ? 'zigzag' : 'double zigzag';
    return {
      code: 'wide-satin-heavy-underlay',
      ...verdict,
      object: object.id,
      ...placeOf(stitches, object.underlay.range?.[0] ?? object.range[0]),
      measured: widthMm.median,
      unit: 'mm',
      message: `Satin column ${inWords(widthMm.median)} wide over ${words} underlay: the underlay's wide stitches pull as well and add to the puckering. Put a light fill of short stitches under it instead.`,
      basis: limits['wide-satin-heavy-underlay'].basis,
    };
  });
