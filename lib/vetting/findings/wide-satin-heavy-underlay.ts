import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { placeOf } from '../place-of.js';
import { inWords, UNDERLAY_NAMES } from '../words.js';

/** Underlay of wide stitches, the heaviest first. */
const HEAVY = [
  { kind: 'double-zigzag', limitId: 'wide-satin-double-zigzag' },
  { kind: 'zigzag', limitId: 'wide-satin-zigzag' },
] as const;

/** A wide satin column over zigzag: the underlay's own wide stitches pull as well. */
export const wideSatinHeavyUnderlay: Finder = ({ objects, limits, stitches }) =>
  objects.flatMap(({ object, widthMm }) => {
    const heavy = HEAVY.find(({ kind }) => object.underlay.kinds.includes(kind));
    const verdict = heavy && widthMm && judge(limits[heavy.limitId], widthMm.median);
    if (!verdict) return [];
    return {
      code: 'wide-satin-heavy-underlay',
      ...verdict,
      object: object.id,
      ...placeOf(stitches, object.underlay.range?.[0] ?? object.range[0]),
      measured: widthMm.median,
      unit: 'mm',
      message: `Satin column ${inWords(widthMm.median)} wide over ${UNDERLAY_NAMES[heavy.kind]} underlay: the underlay's wide stitches pull as well and add to the puckering. Put a light fill of short stitches under it instead.`,
      basis: limits[heavy.limitId].basis,
    };
  });
