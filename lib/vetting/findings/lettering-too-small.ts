import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { startOf } from '../place-of.js';

/** Lines of satin lettering whose capitals are so small that they close up: one finding a line. */
export const letteringTooSmall: Finder = ({ stitches, limits, lines }) =>
  lines.flatMap(({ strokes, letters, capMm, strokeMm }) => {
    const verdict = judge(limits['lettering-too-small'], capMm);
    if (!verdict) return [];
    const { object } = strokes[0];
    return {
      code: 'lettering-too-small',
      ...verdict,
      ...startOf(stitches, object),
      measured: capMm,
      unit: 'mm',
      params: { heightMm: capMm, letters, strokeMm },
      fix: {
        do: 'ask-digitizer',
        objects: strokes.map((stroke) => stroke.object.id),
        to: 'enlarge-lettering',
      },
      basis: limits['lettering-too-small'].basis,
    };
  });
