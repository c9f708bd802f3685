/**
 * What a piece of top stitching is sewn for. An applied piece shows in lines that repeat each other across stops: where it goes
 * (placement), what holds it (tack-down), what covers its edge. A zigzag or a blanket stitch by itself, too open to cover, is an
 * edging where it goes round and decoration where it does not; an area too open to cover is a net.
 */
import { holds, shareWithin } from '../core/bounds.js';
import { distance, squareToSegment } from '../core/distance.js';
import { boundsOf } from '../format/extent.js';
import { isPause, type Stitches } from '../format/stitches.js';
import { NearMembers } from './near-members.js';
import type { Pattern, Purpose } from './objects.js';
import { FINDER } from './parameters.js';
import { ColumnRegion } from './region.js';
import type { Top } from './tops.js';

const SAMPLE = FINDER.pieceSample.value;

/** A column, an area or a run, with the stitches that it has. */
export interface Piece {
  readonly first: number;
  readonly last: number;
  /** Null for a run. */
  readonly top: Top | null;
  /** How an area is sewn; null for all else. */
  readonly pattern: Pattern | null;
}

export interface Told {
  readonly purpose: Purpose;
  /** It covers the edge of an applied piece: a placement line or a tack-down lies beneath it. */
  readonly overPiece: boolean;
}

/** Tells the purposes of the pieces of a design, which are in sewing order. */
export function tellPurposes(stitches: Stitches, pieces: readonly Piece[]): Told[] {
  const phases = phasesOf(stitches, pieces);
  const lines = pieces.map((piece) => lineOf(stitches, piece));
  const followers = findFollowers(stitches, pieces, phases, lines);
  const below = pieces.map((): number[] => []);
  followers.forEach((list, i) => {
    for (const j of list) below[j].push(i);
  });
  return pieces.map((_, i) => ({
    purpose: purposeOf(lines[i], followers[i], followers, below[i]),
    overPiece: below[i].length > 0,
  }));
}

type Line = 'run' | 'blanket' | 'open-ring' | 'open-zigzag' | 'column' | 'open-column' | 'net' | 'area';

function purposeOf(
  line: Line,
  over: readonly number[],
  all: readonly (readonly number[])[],
  below: readonly number[],
): Purpose {
  if (over.length > 0) {
    if (line !== 'run') return 'tack-down';
    const held = over.some((j) => all[j].length > 0);
    return held || below.length === 0 ? 'placement' : 'tack-down';
  }
  if (line === 'net') return 'net';
  if (line === 'blanket' || line === 'open-ring') return 'edging';
  if (line === 'open-column' && below.length > 0) return 'edging';
  if (line === 'open-zigzag') return below.length > 0 ? 'edging' : 'decorative';
  return 'top';
}

/** How many stops and changes of color come before each piece. */
function phasesOf({ breakBefore }: Stitches, pieces: readonly Piece[]): Int32Array {
  const phases = new Int32Array(pieces.length);
  let phase = 0;
  let at = 0;
  pieces.forEach(({ first }, k) => {
    for (; at <= first; at++) if (isPause(breakBefore[at])) phase++;
    phases[k] = phase;
  });
  return phases;
}

function lineOf(stitches: Stitches, { first, last, top }: Piece): Line {
  if (top === null) return isBlanket(stitches, first, last) ? 'blanket' : 'run';
  if (top.kind === 'fill') return top.crossed || top.pitchMm >= FINDER.netAlone.value ? 'net' : 'area';
  if (top.pitchMm < FINDER.openPitch.value)
    return top.pitchMm < FINDER.openCover.value ? 'column' : 'open-column';
  return top.region instanceof ColumnRegion && top.region.frame.closed ? 'open-ring' : 'open-zigzag';
}

/** Whether a run is a blanket stitch: it goes out to the side and back by turns with steps along its way. */
function isBlanket({ x, y }: Stitches, first: number, last: number): boolean {
  const way = (a: number, b: number) => {
    const l = distance(x[a], y[a], x[b], y[b]) || 1;
    return [(x[b] - x[a]) / l, (y[b] - y[a]) / l] as const;
  };
  let left = 0;
  let right = 0;
  for (let i = first + 1; i + 3 <= last; i++) {
    if (distance(x[i], y[i], x[i + 2], y[i + 2]) > FINDER.backPlace.value) continue;
    const [px, py] = way(i, i + 1);
    const [ax, ay] = way(i - 1, i);
    const [bx, by] = way(i + 2, i + 3);
    const turn = FINDER.prongTurn.value;
    if (Math.abs(px * ax + py * ay) > turn || Math.abs(px * bx + py * by) > turn || ax * bx + ay * by < turn)
      continue;
    if (ax * py - ay * px > 0) left++;
    else right++;
  }
  return Math.max(left, right) - Math.min(left, right) >= FINDER.prongs.value * (last - first);
}

/** For each piece the lines sewn after a stop that go along the same way. */
function findFollowers(
  stitches: Stitches,
  pieces: readonly Piece[],
  phases: Int32Array,
  lines: readonly Line[],
): number[][] {
  if (pieces.length === 0 || phases[0] === phases[phases.length - 1]) return pieces.map(() => []);
  const boxes = pieces.map(({ first, last, top }) => top?.bounds ?? boundsOf(stitches, first, last));
  const members = new NearMembers();
  for (const box of boxes) members.add(box);
  const alike = FINDER.pieceAlike.value;
  const fits = (i: number, j: number) =>
    phases[j] > phases[i] &&
    lines[j] !== 'area' &&
    lines[j] !== 'net' &&
    shareWithin(boxes[i], boxes[j], 1) >= alike &&
    shareWithin(boxes[j], boxes[i], FINDER.pieceReach.value) >= alike;
  return pieces.map((piece, i) => {
    if (lines[i] !== 'run' && lines[i] !== 'open-ring' && lines[i] !== 'open-zigzag') return [];
    return members.near(boxes[i], 0).filter((j) => fits(i, j) && goesAlong(stitches, piece, pieces[j]));
  });
}

/** Whether most of one line lies beneath another or beside it. */
function goesAlong(stitches: Stitches, low: Piece, high: Piece): boolean {
  const { x, y } = stitches;
  const stride = Math.ceil((low.last - low.first + 1) / SAMPLE);
  let asked = 0;
  let near = 0;
  const reach = FINDER.besideLine.value;
  const beside = (i: number) => {
    for (let k = high.first; k < high.last; k++)
      if (squareToSegment(x[i], y[i], x[k], y[k], x[k + 1], y[k + 1]) <= reach * reach) return true;
    return false;
  };
  for (let i = low.first; i <= low.last; i += stride) {
    asked++;
    const { top } = high;
    if (top === null ? beside(i) : holds(top.bounds, x[i], y[i], 1) && top.region.contains(x[i], y[i]))
      near++;
  }
  return near >= FINDER.staysUnder.value * asked;
}
