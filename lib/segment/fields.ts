/**
 * Areas that are sewn in one line without rows: spirals, and rings that follow an outline. They are told from runs by what lies
 * beside the thread: more of the same thread, locally parallel, at an even distance.
 */
import { boundsOf } from '../format/extent.js';
import { type Stitches, threadMm } from '../format/stitches.js';
import { type Field, layField } from '../geometry/field.js';
import type { Pattern } from './objects.js';
import { FINDER } from './parameters.js';
import type { Patch } from './patches.js';

/** An area without rows, each of its stitches a strand. */
export interface FieldPatch extends Patch {
  readonly pattern: Pattern;
}

/** The area that a stretch of thread between rows and columns is, or null where it is none. */
export function findField(stitches: Stitches, first: number, last: number): FieldPatch | null {
  if (last - first < FINDER.fieldLeast.value || !mayFill(stitches, first, last)) return null;
  const { x, y } = stitches;
  const strands = Int32Array.from({ length: last - first }, (_, k) => first + k);
  const beside = new Besides();
  const field = layField(x, y, strands, (sofar, k) => beside.mayStillFill(sofar, k));
  if (!beside.fills) return null;
  const pitchMm = evenPitch(field);
  if (pitchMm === null) return null;
  return {
    from: strands,
    to: strands.map((i) => i + 1),
    kind: 'rows',
    pitchMm,
    // its strands are no legs
    legMm: 0,
    split: false,
    pattern: goesRound(stitches, first, last) ? 'spiral' : 'outline',
  };
}

/** Whether a stretch is long enough to fill a good part of the box around it; most runs are not, and need no closer look. */
function mayFill(stitches: Stitches, first: number, last: number): boolean {
  const { minX, minY, maxX, maxY } = boundsOf(stitches, first, last);
  return (
    threadMm(stitches, first, last) * FINDER.fieldPitch.value >=
    FINDER.fieldOfBox.value * (maxX - minX) * (maxY - minY)
  );
}

/** Counts the thread that lies beside no other strand, and not between two: most stretches have so much of it early on that they are no area. */
class Besides {
  fills = false;
  private alone = 0;
  private edge = 0;
  private mostAlone = 0;
  private mostEdge = 0;

  /** Takes entry `k` of a field in; false where the rest cannot make it one. */
  mayStillFill({ leftMm, rightMm, lengthMm }: Field, k: number): boolean {
    if (k === 0) {
      const all = lengthMm.reduce((sum, l) => sum + l, 0);
      this.fills = all > 0;
      this.mostAlone = (1 - FINDER.fieldBeside.value) * all;
      this.mostEdge = (1 - FINDER.fieldBetween.value) * all;
    }
    const left = leftMm[k] > 0 && leftMm[k] < FINDER.fieldPitch.value;
    const right = rightMm[k] > 0 && rightMm[k] < FINDER.fieldPitch.value;
    if (!left && !right) this.alone += lengthMm[k];
    if (!left || !right) this.edge += lengthMm[k];
    this.fills &&= this.alone <= this.mostAlone && this.edge <= this.mostEdge;
    return this.fills;
  }
}

/** The distance from strand to strand, or null where it is no even one. */
function evenPitch({ spacingMm }: Field): number | null {
  const known = spacingMm.filter((mm) => mm > 0).sort();
  const middle = known[known.length >> 1];
  if (!(middle <= FINDER.fieldPitch.value)) return null;
  const even = known.filter((mm) => Math.abs(mm - middle) < FINDER.fieldUneven.value * middle);
  return even.length >= FINDER.fieldEven.value * known.length ? middle : null;
}

/** Whether the thread turns one way all along, as in a spiral, and neither steps over from ring to ring nor in corners. */
function goesRound({ x, y }: Stitches, first: number, last: number): boolean {
  const turns: number[] = [];
  for (let i = first + 1; i < last; i++) {
    const [ax, ay] = [x[i] - x[i - 1], y[i] - y[i - 1]];
    const [bx, by] = [x[i + 1] - x[i], y[i + 1] - y[i]];
    turns.push(Math.atan2(ax * by - ay * bx, ax * bx + ay * by));
  }
  let [all, one, corners] = [0, 0, 0];
  turns.forEach((turn, k) => {
    const size = Math.abs(turn);
    all += size;
    one += turn;
    const beside = Math.max(Math.abs(turns[k - 1] ?? 0), Math.abs(turns[k + 1] ?? 0));
    if (size > FINDER.fieldCorner.value && beside < size / 2) corners += size;
  });
  const back = (all - Math.abs(one)) / 2;
  return back < FINDER.fieldBack.value * all && corners < FINDER.fieldCorners.value * all;
}

/** How the rows of a filled area are laid. */
export function patternOf({ x, y }: Stitches, from: Int32Array, to: Int32Array, pitchMm: number): Pattern {
  let [c, s, sum, bent, asked] = [0, 0, 0, 0, 0];
  for (let k = 0; k < from.length; k++) {
    const dx = x[to[k]] - x[from[k]];
    const dy = y[to[k]] - y[from[k]];
    const l = Math.hypot(dx, dy) || 1;
    c += (dx * dx - dy * dy) / l;
    s += (2 * dx * dy) / l;
    sum += l;
    if (to[k] - from[k] < FINDER.curvedStitches.value) continue;
    asked++;
    let rise = 0;
    for (let i = from[k] + 1; i < to[k]; i++)
      rise = Math.max(rise, Math.abs((x[i] - x[from[k]]) * dy - (y[i] - y[from[k]]) * dx) / l);
    if (rise > FINDER.curvedRise.value + FINDER.curvedShare.value * l) bent++;
  }
  if (Math.hypot(c, s) < FINDER.radialSpread.value * sum) return 'radial';
  if (asked > 0 && bent > asked / 2) return 'curved';
  return pitchMm >= FINDER.loosePitch.value ? 'loose' : 'rows';
}
