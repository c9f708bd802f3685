/** Outlines of objects as an independent geometry library sees them. */
import Flatten from '@flatten-js/core';
import type { Stitches } from '../../lib/format/stitches.js';
import type { StitchObject } from '../../lib/segment/objects.js';

export type Spot = readonly [x: number, y: number];

/** The two edges and the two end caps of each section of an object, as chains of needle points. */
export function edgesOf({ x, y }: Stitches, { from, to, sections }: StitchObject): Spot[][] {
  const firsts = sections.length > 0 ? [...sections] : [0];
  return firsts.flatMap((first, k) => {
    const end = firsts[k + 1] ?? from.length;
    const sides: [Spot[], Spot[]] = [[], []];
    for (let i = first; i < end; i++) {
      const back = (i - first) % 2;
      sides[back].push([x[from[i]], y[from[i]]]);
      sides[1 - back].push([x[to[i]], y[to[i]]]);
    }
    if (sides[0].length === 0) return [];
    const last = sides[0].length - 1;
    return [...sides, [sides[0][0], sides[1][0]], [sides[0][last], sides[1][last]]];
  });
}

/** Distances of every `stride`-th spot of some chains from others, mm. */
export function apart(spots: Spot[][], chains: Spot[][], stride = 1): number[] {
  const segments = chains.flatMap((chain) =>
    chain.slice(1).flatMap((end, i) => {
      const [a, b] = [new Flatten.Point(...chain[i]), new Flatten.Point(...end)];
      return a.equalTo(b) ? [] : [new Flatten.Segment(a, b)];
    }),
  );
  return spots
    .flat()
    .filter((_, i) => i % stride === 0)
    .map((spot) => {
      const point = new Flatten.Point(...spot);
      return Math.min(...segments.map((segment) => point.distanceTo(segment)[0]));
    });
}
