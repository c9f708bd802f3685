import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { ownerOf } from '../spans.js';

/** The densest place of the design, everything sewn there counted. */
export const densePlace: Finder = ({ measures, objects, limits }) => {
  const { densest } = measures;
  const verdict = densest && judge(limits['dense-place'], densest.perMm2);
  if (!verdict) return [];
  return [
    {
      code: 'dense-place',
      ...verdict,
      object: ownerOf(objects, densest.stitch),
      stitch: densest.stitch,
      at: { x: densest.x, y: densest.y },
      measured: densest.perMm2,
      unit: 'points/mm²',
      params: { perMm2: densest.perMm2 },
      fix: { do: 'ask-digitizer', objects: [], to: 'cut-away-hidden' },
      basis: limits['dense-place'].basis,
    },
  ];
};
