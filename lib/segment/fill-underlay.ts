/** Tells what underlay the thread under a filled area is. */
import type { Stitches } from '../format/stitches.js';
import type { UnderlayReading } from './column-underlay.js';
import type { UnderlayKind } from './objects.js';
import type { Patch } from './patches.js';
import type { FillRegion } from './region.js';

/** An edge run keeps within this distance of the edge, mm. */
const EDGE_REACH_MM = 1.9;
/** Share of the shortest outline that the area can have which an edge run must follow. */
const FOLLOWS = 0.6;

/**
 * @param parts stitch ranges under the area, in sewing order; those with a patch are rows or zigzags, the others
 *   running stitches
 */
export function readFillUnderlay(
  stitches: Stitches,
  region: FillRegion,
  parts: readonly { first: number; last: number; patch: Patch | null }[],
): UnderlayReading {
  const kinds = new Set<UnderlayKind>();
  let spacingMm: number | null = null;
  let alongEdge = 0;
  for (const { first, last, patch } of parts) {
    if (patch === null) {
      alongEdge += lengthAlongEdge(stitches, region, first, last);
    } else {
      const rows = patch.kind === 'rows' || patch.split;
      kinds.add(rows ? 'fill' : 'zigzag');
      spacingMm = rows ? patch.pitchMm : 2 * patch.pitchMm;
    }
  }
  // of all shapes of an area the circle has the shortest outline
  if (alongEdge >= FOLLOWS * 2 * Math.sqrt(Math.PI * region.areaMm2)) kinds.add('edge-run');
  return { kinds: [...kinds], spacingMm };
}

function lengthAlongEdge(stitches: Stitches, region: FillRegion, first: number, last: number): number {
  const { x, y } = stitches;
  let sum = 0;
  let before = false;
  for (let i = first; i <= last; i++) {
    const edge = region.nearEdge(x[i], y[i], EDGE_REACH_MM);
    if (edge && before) sum += Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    before = edge;
  }
  return sum;
}
