import type { Goods } from './goods.js';
import type { PlaneStiffness } from './laminate.js';
import { plus } from './laminate.js';
import { sharedStiffness } from './reduced-basis.js';

/** Parts of its sheets with which goods are looked at: where the hoop alone holds, and where needle points have tacked them. */
const LOOKED_AT = [
  { whole: 0.05, torn: 0.05 },
  { whole: 0.7, torn: 0.3 },
];

/** Numbers in which two goods differ where their strains do: logarithms of stiffnesses, and what is askew. */
function placeOf(goods: Goods): number[] {
  const { fabric, whole, torn } = sharedStiffness(goods);
  return LOOKED_AT.flatMap((part) => {
    const m: PlaneStiffness = plus(plus(fabric, whole, part.whole), torn, part.torn);
    const scale = Math.sqrt(m.m11 * m.m22);
    return [Math.log(m.m11), Math.log(m.m22), Math.log(m.m66), (2 * m.m16) / scale, (2 * m.m26) / scale];
  });
}

/**
 * Indexes of goods in an order in which the first few are spread over all: the softest, then always the one farthest from those
 * before. Goods alike to a before are left out.
 */
export function spreadOut(all: readonly Goods[]): number[] {
  const places = all.map(placeOf);
  const softest = places.reduce(
    (s, place, k) => (place[7] + place[5] < places[s][7] + places[s][5] ? k : s),
    0,
  );
  const order: number[] = [];
  const distance = places.map(() => Infinity);
  let next = softest;
  while (next >= 0) {
    order.push(next);
    let farthest = 1e-3;
    const from = places[next];
    next = -1;
    places.forEach((place, k) => {
      distance[k] = Math.min(distance[k], Math.hypot(...place.map((v, c) => v - from[c])));
      if (distance[k] > farthest) [farthest, next] = [distance[k], k];
    });
  }
  return order;
}
