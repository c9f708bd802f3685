/** Whether what is sewn again is what it was. */
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { findSections, isTop, type Section } from './find-sections.js';
import { unchanged } from './new-edges.js';
import { patternsOf } from './section-pattern.js';
import type { SectionShape } from './section-shape.js';
import { sewSection } from './sew-section.js';

/** So far may needle points lie from where they were when they are sewn again, mm: this share of them, and all. */
const MOST_WITHIN_MM = 0.15;
const MOST_SHARE = 0.95;
const ALL_WITHIN_MM = 0.4;
/** Needle points, mm. */
interface Points {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

/** How far the first point, in order, may be from its like: rows that get a stitch more or less shift all that follow. */
const SHIFT = 12;

/** Whether points have others near them, in about the same order: nearly all very near, and none far. */
function areNear(points: Points, others: Points): boolean {
  let far = 0;
  let at = 0;
  for (let i = 0; i < points.x.length; i++) {
    let best = Number.POSITIVE_INFINITY;
    let nearest = at;
    for (let j = Math.max(0, at - SHIFT); j <= Math.min(others.x.length - 1, at + SHIFT); j++) {
      const d =
        Math.hypot(points.x[i] - others.x[j], points.y[i] - others.y[j]) + 1e-6 * Math.abs(j - at - 1);
      if (d < best) {
        best = d;
        nearest = j;
      }
    }
    if (best > ALL_WITHIN_MM) return false;
    if (best > MOST_WITHIN_MM) far++;
    at = nearest;
  }
  return far <= (1 - MOST_SHARE) * points.x.length;
}

/** Whether needle points are those that were, in about the same order: each has one near it, and none is added elsewhere. */
export const returnsNear = (was: Points, is: Points): boolean => areNear(was, is) && areNear(is, was);

/** Whether a section that is sewn between its own edges is what it was: what cannot be sewn again is not to be sewn larger. */
export function sewsBack(
  { x, y }: Pick<Stitches, 'x' | 'y'>,
  { from, to, joined }: Section,
  shape: SectionShape,
): boolean {
  const [first, end] = [from[0], to[to.length - 1] + 1];
  const was = { x: x.subarray(first, end), y: y.subarray(first, end) };
  const pattern = () => patternsOf([{ shape, joined }])[0];
  return returnsNear(was, sewSection(shape, unchanged(shape), pattern, joined, false));
}

/**
 * The sections of objects, but for some to leave, that are what they were when they are sewn again, and the ids of those objects of which one is not. Where the row beside a ledge reaches along it, more than
 * rows may have been taken for one: an object that does not sew back is tried with every row on its own line.
 */
export function returningSections(
  stitches: Stitches,
  objects: readonly StitchObject[],
  leave: ReadonlySet<number>,
  shapeOf: (section: Section) => SectionShape,
): { sections: Section[]; unlike: ReadonlySet<number> } {
  const unlikeIn = (sections: readonly Section[]) =>
    new Set(
      sections.flatMap((section) =>
        isTop(section) && !sewsBack(stitches, section, shapeOf(section)) ? [section.object.id] : [],
      ),
    );
  const found = findSections(stitches, objects).filter(({ object }) => !leave.has(object.id));
  const failing = unlikeIn(found);
  if (failing.size === 0) return { sections: found, unlike: failing };
  const again = findSections(
    stitches,
    objects.filter(({ id }) => failing.has(id)),
    'all',
  ).filter(isTop);
  const unlike = unlikeIn(again);
  const sections = [
    ...found.filter((section) => !isTop(section) || !failing.has(section.object.id)),
    ...again,
  ]
    .filter(({ object }) => !unlike.has(object.id))
    .sort((p, q) => p.from[0] - q.from[0]);
  return { sections, unlike };
}
