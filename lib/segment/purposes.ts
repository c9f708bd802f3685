/**
 * What a piece of top stitching is sewn for. An applied piece shows in lines that repeat each other across stops: where it goes
 * (placement), what holds it (tack-down), what covers its edge. A zigzag or a blanket stitch by itself, too open to cover, is an
 * edging where it goes round and decoration where it does not; an area too open to cover is a net.
 */
import { AlikeBoxes } from '../core/alike-boxes.js';
import { holds, overlap, shareWithin } from '../core/bounds.js';
import { distance, squareToSegment } from '../core/distance.js';
import { evenly } from '../core/evenly.js';
import { boundsOf } from '../format/extent.js';
import { isPause, type Stitches } from '../format/stitches.js';
import { Above } from './above.js';
import type { Pattern, Purpose } from './objects.js';
import { FINDER } from './parameters.js';
import { ColumnRegion, FillRegion } from './region.js';
import type { Top } from './tops.js';

const LAYERS = FINDER.coverTops.value;
const SAMPLE = FINDER.pieceSample.value;

/** A column, an area or a run, with the stitches that it has. */
export interface SewnPiece {
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
export function tellPurposes(stitches: Stitches, pieces: readonly SewnPiece[]): Told[] {
  const lines = linesOf(stitches, pieces);
  const { over, overHeld, below } = lineUp(stitches, pieces, lines);
  return lines.map((line, i) => ({
    purpose: purposeOf(line, over[i] === 1, overHeld[i] === 1, below[i] === 1),
    overPiece: below[i] === 1,
  }));
}

type SewnLike = 'run' | 'blanket' | 'open-ring' | 'open-zigzag' | 'column' | 'open-column' | 'net' | 'area';

function purposeOf(line: SewnLike, over: boolean, overHeld: boolean, below: boolean): Purpose {
  if (over) return line === 'run' && (overHeld || !below) ? 'placement' : 'tack-down';
  if (line === 'net') return 'net';
  if (line === 'blanket' || line === 'open-ring') return 'edging';
  if (line === 'open-column' && below) return 'edging';
  if (line === 'open-zigzag') return below ? 'edging' : 'decorative';
  return 'top';
}

/** How many stops and changes of color come before each piece. */
function phasesOf({ breakBefore }: Stitches, pieces: readonly SewnPiece[]): Int32Array {
  const phases = new Int32Array(pieces.length);
  let phase = 0;
  let at = 0;
  pieces.forEach(({ first }, k) => {
    for (; at <= first; at++) if (isPause(breakBefore[at])) phase++;
    phases[k] = phase;
  });
  return phases;
}

function lineOf(stitches: Stitches, { first, last, top }: SewnPiece): SewnLike {
  if (top === null) return isBlanket(stitches, first, last) ? 'blanket' : 'run';
  if (top.kind === 'fill') return top.crossed || top.pitchMm >= FINDER.netAlone.value ? 'net' : 'area';
  if (top.pitchMm < FINDER.openPitch.value)
    return top.pitchMm < FINDER.openCover.value ? 'column' : 'open-column';
  return top.region instanceof ColumnRegion && top.region.frame.closed ? 'open-ring' : 'open-zigzag';
}

function linesOf(stitches: Stitches, pieces: readonly SewnPiece[]): SewnLike[] {
  let all: Above | null = null;
  return pieces.map((piece) => {
    const line = lineOf(stitches, piece);
    const { top } = piece;
    if (line !== 'area' || top === null || top.pitchMm < FINDER.netPitch.value) return line;
    if (all === null) {
      all = new Above();
      for (const other of pieces) if (other.top) all.add(other.top);
    }
    return isLayer(stitches, piece, top, all) ? 'net' : line;
  });
}

/** Whether an open area shares much of its place with what else is sewn there, in whatever color: rows across it, or a design that it holds up. */
function isLayer({ x, y }: Stitches, { first, last }: SewnPiece, own: Top, all: Above): boolean {
  const { region } = own;
  if (!(region instanceof FillRegion)) return false;
  const others = all.over(own.bounds, LAYERS).filter((top) => top !== own);
  if (others.length === 0) return false;
  // a border lies along the edge
  const inner = evenly(first, last, SAMPLE).filter(
    (i) => !region.nearEdge(x[i], y[i], FINDER.edgeReach.value),
  );
  const shared = inner.filter((i) =>
    others.some((top) => holds(top.bounds, x[i], y[i], 0) && top.region.contains(x[i], y[i])),
  );
  return inner.length > 0 && shared.length >= FINDER.layerShared.value * inner.length;
}

/** Whether a run is a blanket stitch: it goes out to the side and back by turns with steps along its way. */
function isBlanket({ x, y }: Stitches, first: number, last: number): boolean {
  const way = (a: number, b: number) => {
    const l = distance(x[a], y[a], x[b], y[b]) || 1;
    return [(x[b] - x[a]) / l, (y[b] - y[a]) / l] as const;
  };
  /** Prongs to the left less those to the right. */
  let left = 0;
  for (let i = first + 1; i + 3 <= last; i++) {
    if (distance(x[i], y[i], x[i + 2], y[i + 2]) > FINDER.backPlace.value) continue;
    const [px, py] = way(i, i + 1);
    const [ax, ay] = way(i - 1, i);
    const [bx, by] = way(i + 2, i + 3);
    const turn = FINDER.prongTurn.value;
    if (Math.abs(px * ax + py * ay) > turn || Math.abs(px * bx + py * by) > turn || ax * bx + ay * by < turn)
      continue;
    left += Math.sign(ax * py - ay * px);
  }
  return Math.abs(left) >= FINDER.prongs.value * (last - first);
}

/** Of each piece: 1 where a line goes along it that is sewn after a stop, where along that one another does, where it goes along one itself. */
interface LinedUp {
  readonly over: Uint8Array;
  readonly overHeld: Uint8Array;
  readonly below: Uint8Array;
}

function lineUp(stitches: Stitches, pieces: readonly SewnPiece[], lines: readonly SewnLike[]): LinedUp {
  const [over, overHeld, below] = [0, 0, 0].map(() => new Uint8Array(pieces.length));
  const phases = phasesOf(stitches, pieces);
  if (pieces.length === 0 || phases[0] === phases[phases.length - 1]) return { over, overHeld, below };
  const boxes = pieces.map(({ first, last, top }) => top?.bounds ?? boundsOf(stitches, first, last));
  const alike = FINDER.pieceAlike.value;
  const reach = FINDER.pieceReach.value;
  const others = new AlikeBoxes(boxes, alike, reach);
  const fits = (i: number, j: number) =>
    phases[j] > phases[i] &&
    lines[j] !== 'area' &&
    lines[j] !== 'net' &&
    overlap(boxes[i], boxes[j]) &&
    shareWithin(boxes[i], boxes[j], 1) >= alike &&
    shareWithin(boxes[j], boxes[i], reach) >= alike;
  for (let i = pieces.length - 1; i >= 0; i--) {
    if (lines[i] !== 'run' && lines[i] !== 'open-ring' && lines[i] !== 'open-zigzag') continue;
    for (const j of others.after(i)) {
      const known = over[i] & below[j] & (overHeld[i] | (over[j] ^ 1));
      if (known || !fits(i, j) || !goesAlong(stitches, pieces[i], pieces[j])) continue;
      over[i] = 1;
      overHeld[i] |= over[j];
      below[j] = 1;
    }
  }
  return { over, overHeld, below };
}

/** Whether most of one line lies beneath another or beside it. */
function goesAlong(stitches: Stitches, low: SewnPiece, high: SewnPiece): boolean {
  const { x, y } = stitches;
  const { top } = high;
  const reach = FINDER.besideLine.value;
  const beside = (i: number) => {
    for (let k = high.first; k < high.last; k++)
      if (squareToSegment(x[i], y[i], x[k], y[k], x[k + 1], y[k + 1]) <= reach * reach) return true;
    return false;
  };
  const points = evenly(low.first, low.last, SAMPLE);
  const near = points.filter((i) =>
    top === null ? beside(i) : holds(top.bounds, x[i], y[i], 1) && top.region.contains(x[i], y[i]),
  );
  return near.length >= FINDER.staysUnder.value * points.length;
}
