/** A column or an area that is sewn more than once: the passes are one piece of top stitching. */
import { shareWithin } from '../core/bounds.js';
import type { Stitches } from '../format/stitches.js';
import { FINDER } from './parameters.js';
import type { Top } from './tops.js';

/** Most points of a pass that are asked whether they lie in the other. */
const SAMPLE = 120;

/** Puts tops of one thread together that follow each other and lie on each other; each keeps the pass that was sewn last. */
export function joinPasses(stitches: Stitches, tops: readonly Top[]): Top[] {
  const joined: Top[] = [];
  for (const top of tops) {
    const before = joined[joined.length - 1];
    if (before !== undefined && isSamePass(stitches, before, top)) {
      joined.pop();
      top.takePassesOf(before);
    }
    joined.push(top);
  }
  return joined;
}

function isSamePass(stitches: Stitches, a: Top, b: Top): boolean {
  if (a.kind !== 'satin' || b.kind !== 'satin') return false;
  if (b.first - a.last > FINDER.passGap.value || Math.max(a.pitchMm, b.pitchMm) > FINDER.openPitch.value) return false;
  const alike = (p: number, q: number, most: number) => Math.max(p, q) <= most * Math.min(p, q);
  if (!alike(a.pitchMm, b.pitchMm, FINDER.passPitch.value) || !alike(a.legMm, b.legMm, FINDER.passWidth.value))
    return false;
  return liesIn(stitches, a, b) && liesIn(stitches, b, a);
}

/** Whether nearly all of one top lies within another. */
function liesIn({ x, y }: Stitches, low: Top, high: Top): boolean {
  const most = FINDER.passCovered.value;
  if (shareWithin(low.bounds, high.bounds, 1) < most) return false;
  const stride = Math.ceil((low.last - low.first + 1) / SAMPLE);
  let inside = 0;
  let asked = 0;
  for (let i = low.first; i <= low.last; i += stride) {
    asked++;
    if (high.region.contains(x[i], y[i])) inside++;
  }
  return inside >= most * asked;
}
