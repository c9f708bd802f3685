import type { Finder, VettingContext } from '../context.js';
import { findCrowd } from '../crowd.js';
import { judge, mildestEdge } from '../limits.js';
import { gatherCells } from '../needle-cells.js';
import { ownerOf } from '../spans.js';
import { CircleSearch, type Pile } from '../thickest-circle.js';

/** Points within a circle this wide are on one spot, mm (common practice, no source). */
const ACROSS_MM = 0.3;
/** Work that the exact search for piles may take: so much in any design, and so much a stitch. */
const WORK_ALWAYS = 4e6;
const WORK_PER_STITCH = 40;

/** Needle points piled on one spot, so that they cut the fabric: the worst pile of each object. */
export const needlePointsPiled: Finder = (context) => {
  const limit = context.limits['needle-points-piled'];
  return [...worstPiles(context, mildestEdge(limit))].flatMap(([object, { points, x, y, last }]) => {
    const verdict = judge(limit, points);
    if (!verdict) return [];
    return {
      code: 'needle-points-piled',
      ...verdict,
      object,
      stitch: last,
      at: { x, y },
      measured: points,
      unit: 'points',
      params: { points, ofShort: false },
      fix: { do: 'ask-digitizer', objects: object === null ? [] : [object], to: 'spread-points' },
      basis: limit.basis,
    };
  });
};

/** The worst pile of more than `most` points by the object that sews the last of them, `last` being its stitch. */
function worstPiles(context: VettingContext, most: number): Map<number | null, Pile> {
  const { stitches, objects, measures, locks } = context;
  const worst = new Map<number | null, Pile>();
  const crowd = findCrowd(stitches, measures.bounds, locks, ACROSS_MM, most);
  const cells = gatherCells(stitches, crowd, ACROSS_MM);
  const search = new CircleSearch(cells, WORK_ALWAYS + WORK_PER_STITCH * stitches.count);
  for (let slot = 0; slot < cells.head.length; slot++) {
    // a pile touches at most four cells, so one of them holds a quarter of it
    if (cells.head[slot] < 0 || 4 * cells.size[slot] <= most) continue;
    const seen = worst.get(ownerOf(objects, crowd[cells.head[slot]]));
    const pile = search.around(slot, Math.max(most, seen?.points ?? 0));
    if (!pile || pile.points <= most) continue;
    const last = crowd[pile.last];
    const owner = ownerOf(objects, last);
    if (pile.points > (worst.get(owner)?.points ?? 0)) worst.set(owner, { ...pile, last });
  }
  return worst;
}
