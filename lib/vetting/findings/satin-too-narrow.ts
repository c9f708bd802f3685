import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { startOf } from '../place-of.js';

/** A satin column too narrow to sew cleanly; in lettering that is too small the lettering is the fault. */
export const satinTooNarrow: Finder = ({ objects, limits, stitches, lines }) => {
  const small = lines.filter(({ capMm }) => judge(limits['lettering-too-small'], capMm));
  const said = new Set(small.flatMap(({ strokes }) => strokes.map(({ object }) => object.id)));
  return objects.flatMap(({ object, widthMm }) => {
    if (object.purpose !== 'top') return [];
    const verdict = widthMm && !said.has(object.id) && judge(limits['satin-too-narrow'], widthMm.median);
    if (!verdict) return [];
    return {
      code: 'satin-too-narrow',
      ...verdict,
      ...startOf(stitches, object),
      measured: widthMm.median,
      unit: 'mm',
      params: { widthMm: widthMm.median },
      fix: { do: 'ask-digitizer', objects: [object.id], to: 'widen-column' },
      basis: limits['satin-too-narrow'].basis,
    };
  });
};
