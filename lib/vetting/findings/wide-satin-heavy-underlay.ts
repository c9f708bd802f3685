import { calledUnderlay } from '../called-underlay.js';
import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { placeOf } from '../place-of.js';

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
      ...calledUnderlay(object, {
        widthMm: widthMm.median,
        underlay: heavy.kind,
        kept: null,
        decided: false,
      }),
      basis: limits[heavy.limitId].basis,
    };
  });
