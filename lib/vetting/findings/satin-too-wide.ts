import type { Finder } from '../context.js';
import { judge } from '../limits.js';

/**
 * An unsplit satin column so wide that its stitches snag, or that the machine has to jump. The few swings across a
 * sharp corner do not make a column wide.
 */
export const satinTooWide: Finder = ({ objects, limits }) =>
  objects.flatMap(({ object, widthMm, widestAt }) => {
    if (object.split || widthMm === null || widestAt === null) return [];
    const verdict = judge(limits['satin-too-wide'], widthMm.p95);
    if (!verdict) return [];
    return {
      code: 'satin-too-wide',
      ...verdict,
      object: object.id,
      stitch: widestAt.stitch,
      at: { x: widestAt.x, y: widestAt.y },
      measured: widthMm.p95,
      unit: 'mm',
      params: { widthMm: widthMm.p95, past: verdict.severity === 'fail' ? 'record' : 'snag', over: null },
      fix: { do: 'split', objects: [object.id] },
      basis: limits['satin-too-wide'].basis,
    };
  });
