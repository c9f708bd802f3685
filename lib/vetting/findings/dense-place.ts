import type { Finder } from '../context.js';
import { judge } from '../limits.js';
import { ownerOf } from '../spans.js';
import { trimmed } from '../words.js';

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
      message: `${trimmed(densest.perMm2, 1)} needle points a square millimetre at the densest place: the thread stands hard, needles run hot and can break. Take out what is hidden under other stitching, or open the spacing there.`,
      basis: limits['dense-place'].basis,
    },
  ];
};
