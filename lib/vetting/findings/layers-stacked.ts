import { mostBoxesStacked } from '../../measure/layers.js';
import type { Finder } from '../context.js';
import { judge, mildestEdge } from '../limits.js';

/** Too many pieces of top stitching one over another. */
export const layersStacked: Finder = ({ stitches, measures, objects, limits }) => {
  const limit = limits['layers-stacked'];
  if (mostBoxesStacked(stitches, objects, measures.bounds) <= mildestEdge(limit)) return [];
  const { layers } = measures;
  const verdict = layers && judge(limit, layers.count);
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
      params: { layers: layers.count },
      fix: { do: 'ask-digitizer', objects: [], to: 'cut-away-hidden' },
      basis: limit.basis,
    },
  ];
};
