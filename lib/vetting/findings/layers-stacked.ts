import type { Finder } from '../context.js';
import { judge } from '../limits.js';

/** Too many pieces of top stitching one over another. */
export const layersStacked: Finder = ({ measures, limits }) => {
  const { layers } = measures;
  const verdict = layers && judge(limits['layers-stacked'], layers.count);
  if (!verdict) return [];
  return [
    {
      code: 'layers-stacked',
      ...verdict,
      object: null,
      stitch: null,
      at: { x: layers.x, y: layers.y },
      measured: layers.count,
      unit: 'layers',
      message: `${layers.count} pieces of stitching lie one over another: the place gets thick and stiff and is pulled from all of them. Cut away what is hidden underneath.`,
      basis: limits['layers-stacked'].basis,
    },
  ];
};
