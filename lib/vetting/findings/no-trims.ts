import { COMMON_PRACTICE } from '../../core/sourced.js';
import { Break, breaksOf } from '../../format/stitches.js';
import type { Finder } from '../context.js';
import { mildestEdge } from '../limits.js';
import { NOWHERE } from '../place-of.js';
import { isSewnIn } from '../spans.js';

/** A design that moves about and yet holds no trim at all: they were lost, or never put in. */
export const noTrims: Finder = ({ measures, stitches, objects, limits }) => {
  if (measures.trims > 0) return [];
  const { x, y } = stitches;
  const from = mildestEdge(limits['jump-not-trimmed']);
  let moves = 0;
  for (const i of breaksOf(stitches, Break.jump)) {
    const mm = Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    if (mm > from && !isSewnIn(objects, i, mm)) moves++;
  }
  if (moves < 2) return [];
  return [
    {
      code: 'no-trims',
      severity: 'note',
      ...NOWHERE,
      measured: 0,
      limit: null,
      unit: 'trims',
      params: { moves },
      fix: { do: 'ask-digitizer', objects: [], to: 'add-trims' },
      basis: COMMON_PRACTICE,
    },
  ];
};
