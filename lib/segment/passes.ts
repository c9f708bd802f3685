/**
 * What is sewn more than once is one piece of top stitching: two passes over one column, and the two directions of a
 * net.
 */
import { shareWithin } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { evenly } from '../core/evenly.js';
import { Break, type Stitches } from '../format/stitches.js';
import { FINDER } from './parameters.js';
import { FillRegion } from './region.js';
import type { Top } from './tops.js';

const SAMPLE = FINDER.passSample.value;

/** Puts tops together that follow each other and lie on each other; each keeps the pass that was sewn last. */
export function joinPasses(stitches: Stitches, tops: readonly Top[]): Top[] {
  const joined: Top[] = [];
  for (const top of tops) {
    const before = joined[joined.length - 1];
    if (before !== undefined && isSamePass(stitches, before, top)) {
      joined.pop();
      top.takePassesOf(before);
    } else if (before !== undefined && isOtherWay(stitches, before, top)) {
      joined.pop();
      top.takeOtherWay(before);
    }
    joined.push(top);
  }
  return joined;
}

function isSamePass(stitches: Stitches, a: Top, b: Top): boolean {
  if (a.kind !== 'satin' || b.kind !== 'satin' || a.thread !== b.thread) return false;
  if (b.first - a.last > FINDER.passGap.value || Math.max(a.pitchMm, b.pitchMm) > FINDER.openPitch.value)
    return false;
  if (
    !alike(a.pitchMm, b.pitchMm, FINDER.passPitch.value) ||
    !alike(a.legMm, b.legMm, FINDER.passWidth.value)
  )
    return false;
  return liesIn(stitches, a, b) && liesIn(stitches, b, a);
}

/** Whether two open areas that follow each other are one net: the same fabric, rows across rows. */
function isOtherWay(stitches: Stitches, a: Top, b: Top): boolean {
  if (a.kind !== 'fill' || b.kind !== 'fill' || Math.min(a.pitchMm, b.pitchMm) < FINDER.netPitch.value)
    return false;
  if (stitches.breakBefore.subarray(a.first + 1, b.first + 1).some((cut) => cut >= Break.stop)) return false;
  if (!alike(a.pitchMm, b.pitchMm, FINDER.opener.value)) return false;
  return isOver(stitches, a, b) && isOver(stitches, b, a);
}

/** Whether the rows of one open area lie over those of another, or beside its last ones. */
function isOver({ x, y }: Stitches, high: Top, low: Top): boolean {
  const { region } = low;
  if (!(region instanceof FillRegion)) return false;
  let near = 0;
  for (let i = high.first; i <= high.last; i++) if (region.isNear(x[i], y[i])) near++;
  return near >= FINDER.netAgain.value * (high.last - high.first + 1);
}

/**
 * Puts the pieces of an open zigzag together: round a corner its swings do not turn back on each other, but the thread
 * goes on as before. Underlay is not asked, as each of its pieces is for a column of its own.
 */
export function joinOpenZigzags(stitches: Stitches, tops: readonly Top[]): Top[] {
  const joined: Top[] = [];
  for (const top of tops) {
    const before = joined[joined.length - 1];
    if (before !== undefined && zigzagsOn(stitches, before, top)) before.takePiece(top);
    else joined.push(top);
  }
  return joined;
}

function zigzagsOn({ x, y }: Stitches, a: Top, b: Top): boolean {
  if (
    a.kind !== 'satin' ||
    b.kind !== 'satin' ||
    a.thread !== b.thread ||
    a.under.length + b.under.length > 0
  )
    return false;
  return (
    Math.min(a.pitchMm, b.pitchMm) >= FINDER.openPitch.value &&
    b.first - a.last <= FINDER.passGap.value &&
    alike(a.pitchMm, b.pitchMm, FINDER.openPitchAlike.value) &&
    alike(a.legMm, b.legMm, FINDER.openSwingAlike.value) &&
    distance(x[a.last], y[a.last], x[b.first], y[b.first]) <= a.legMm + 2 * a.pitchMm
  );
}

/** Whether two figures differ by no more than a factor. */
export const alike = (p: number, q: number, most: number): boolean => Math.max(p, q) <= most * Math.min(p, q);

/** Whether nearly all of one top lies within another. */
function liesIn({ x, y }: Stitches, low: Top, high: Top): boolean {
  const most = FINDER.passCovered.value;
  if (shareWithin(low.bounds, high.bounds, 1) < most) return false;
  const points = evenly(low.first, low.last, SAMPLE);
  return points.filter((i) => high.region.contains(x[i], y[i])).length >= most * points.length;
}
