/** Outlines of objects as an independent geometry library sees them. */
import Flatten from '@flatten-js/core';
import type { Stitches } from '../../lib/format/stitches.js';
import { measureRows } from '../../lib/geometry/rows.js';
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

/** A stitch at the end of a row that goes on by this share of the row distance, and along by no more than so many times as far, is a step over. */
const STEP_SHARE = 0.5;
const STEP_SLOPE = 2.5;

/** The outline of each section of a fill through the ends of its rows, steps over from row to row left out: closed. */
export function fillOutlines({ x, y }: Stitches, { from, to, sections }: StitchObject): Spot[][] {
  const { ux, uy, spacingMm } = measureRows(x, y, from, to, sections);
  const pitch = [...spacingMm].sort((a, b) => a - b)[spacingMm.length >> 1];
  const isStep = (i: number) => {
    const [dx, dy] = [x[i + 1] - x[i], y[i + 1] - y[i]];
    const across = Math.abs(dy * ux - dx * uy);
    return across >= STEP_SHARE * pitch && Math.abs(dx * ux + dy * uy) <= STEP_SLOPE * across;
  };
  const firsts = sections.length > 0 ? [...sections] : [0];
  return firsts.map((first, k) => {
    const sides: [Spot[], Spot[]] = [[], []];
    for (let row = first; row < (firsts[k + 1] ?? from.length); row++) {
      let [a, b] = [from[row], to[row]];
      while (b - a > 1 && isStep(b - 1)) b--;
      while (b - a > 1 && isStep(a)) a++;
      const forth = (x[b] - x[a]) * ux + (y[b] - y[a]) * uy >= 0 ? 0 : 1;
      sides[forth].push([x[a], y[a]]);
      sides[1 - forth].push([x[b], y[b]]);
    }
    return [...sides[0], ...sides[1].reverse(), sides[0][0]];
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
