/** Outlines of objects as an independent geometry library sees them. */
import Flatten from '@flatten-js/core';
import { polygonContains } from 'd3-polygon';
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

/** A row that ends this much inside the line between the ends beside it, as the next but one does, begins or ends a little inside the outline, mm. */
const INSIDE_MM = 0.12;

/** A section of a fill: the ends of its rows, steps over from row to row left out, and its outline through them: closed. */
export interface Section {
  readonly ends: Spot[];
  readonly outline: Spot[];
}

/**
 * The sections of a fill. Where rows end on the outline but begin a little inside it, so that the step over is no tiny stitch, the outline goes through the outer
 * ends alone: the others say nothing of where it lies.
 */
export function sectionsOf({ x, y }: Stitches, { from, to, sections }: StitchObject): Section[] {
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
    const [left, right] = [withoutDrawnIn(sides[0], -ux, -uy), withoutDrawnIn(sides[1], ux, uy)];
    return { ends: sides.flat(), outline: [...left, ...right.toReversed(), left[0]] };
  });
}

/** Row ends on one side that lie on the outline; (`ux`, `uy`) points outward. */
function withoutDrawnIn(ends: Spot[], ux: number, uy: number): Spot[] {
  const depth = ends.map(([px, py], k) => {
    if (k === 0 || k === ends.length - 1) return 0;
    const [[ax, ay], [bx, by]] = [ends[k - 1], ends[k + 1]];
    return ((ax + bx) / 2 - px) * ux + ((ay + by) / 2 - py) * uy;
  });
  const isInside = (k: number) => (depth[k] ?? 0) > INSIDE_MM;
  return ends.filter((_, k) => !isInside(k) || !(isInside(k - 2) || isInside(k + 2)));
}

/** Distances of every `stride`-th spot of some chains from others, mm. */
export function apart(spots: Spot[][], chains: Spot[][], stride = 1): number[] {
  const segments = chains.flatMap((chain) =>
    chain.slice(1).flatMap(([bx, by], i) => {
      const [ax, ay] = chain[i];
      const [a, b] = [new Flatten.Point(ax, ay), new Flatten.Point(bx, by)];
      const half = Math.hypot(bx - ax, by - ay) / 2;
      return a.equalTo(b)
        ? []
        : [{ segment: new Flatten.Segment(a, b), x: (ax + bx) / 2, y: (ay + by) / 2, half }];
    }),
  );
  return spots
    .flat()
    .filter((_, i) => i % stride === 0)
    .map(([px, py]) => {
      const point = new Flatten.Point(px, py);
      let least = Number.POSITIVE_INFINITY;
      for (const { segment, x, y, half } of segments) {
        // one whose middle is that far off cannot be nearer: it need not be asked
        if (Math.hypot(px - x, py - y) - half < least) least = Math.min(least, point.distanceTo(segment)[0]);
      }
      return least;
    });
}

/** How far the row ends of a section lie outside an outline, each, mm: 0 inside it. */
export function outside(ends: Spot[], outline: Spot[]): number[] {
  return apart([ends], [outline]).map((mm, k) =>
    polygonContains(outline as [number, number][], ends[k] as [number, number]) ? 0 : mm,
  );
}
