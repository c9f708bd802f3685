import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { placeOf } from '../place-of.js';
import { counted, inWords } from '../words.js';

/** Lines of satin lettering whose capitals are so small that they close up: one finding a line. */
export const letteringTooSmall: Finder = ({ stitches, limits, lines }) =>
  lines.flatMap(({ strokes, letters, capMm, strokeMm }) => {
    const verdict = judge(limits['lettering-too-small'], capMm);
    if (!verdict) return [];
    const { object } = strokes[0];
    return {
      code: 'lettering-too-small',
      ...verdict,
      object: object.id,
      ...placeOf(stitches, object.range[0]),
      measured: capMm,
      unit: 'mm',
      message: `Satin lettering only ${inWords(capMm)} high (${counted(letters, 'letter', 'letters')}, strokes up to ${inWords(strokeMm)} wide): its openings close up. Make it larger, or sew it with a thinner thread and a 65/9 needle.`,
      basis: limits['lettering-too-small'].basis,
    };
  });
