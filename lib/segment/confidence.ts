/**
 * How sure the reading of a piece is: from how near the decisions that made it were to falling the other way. A margin is 0 where
 * both ways were as good and 1 where nothing spoke for the other.
 */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import type { Doubt, ObjectKind, Pattern, Purpose, Underlay } from './objects.js';
import { FINDER } from './parameters.js';
import { alike } from './passes.js';
import type { SewnPiece } from './purposes.js';
import type { Top } from './tops.js';

/** One way in which a piece might be read otherwise; `could` is null where it would still be what it is. */
interface Other {
  readonly could: Doubt['could'] | null;
  readonly margin: number;
}

export interface Surety {
  readonly confidence: number;
  readonly doubt: Doubt | null;
}

/** Tells how sure each piece is; all lists are of the same pieces, in sewing order. */
export function tellSurety(
  stitches: Stitches,
  pieces: readonly SewnPiece[],
  purposes: readonly Purpose[],
  underlays: readonly Underlay[],
): Surety[] {
  const columns = pieces.flatMap(({ top }, i) => (top?.kind === 'satin' && purposes[i] === 'top' ? [i] : []));
  const lain = columns.filter((i) => underlays[i].range !== null).length;
  const mostLie = lain >= FINDER.mostLie.value * columns.length;
  return pieces.map((piece, i) => {
    const { top } = piece;
    const others =
      top === null
        ? ofRun(piece)
        : [
            ...ofTop(stitches, top, piece.pattern, purposes[i]),
            ...ofUnderlay(stitches, top, underlays[i], purposes[i], mostLie),
          ];
    const seam = top !== null && i > 0 && goesOn(stitches, pieces[i - 1], piece);
    if (seam || (top !== null && i + 1 < pieces.length && goesOn(stitches, piece, pieces[i + 1])))
      others.push({ could: null, margin: FINDER.seamMargin.value });
    return suretyOf(others);
  });
}

/** Confidence is a half where another reading is as good; what is farther off than the least margin is no doubt. */
function suretyOf(others: readonly Other[]): Surety {
  const near = others.filter(({ margin }) => margin < 1).sort((a, b) => a.margin - b.margin);
  if (near.length === 0) return { confidence: 1, doubt: null };
  const told = near.find(({ could }) => could !== null);
  return {
    confidence: (1 + near[0].margin) / 2,
    doubt: told?.could ? { could: told.could, margin: told.margin } : null,
  };
}

/** A short run may be thread that leads from one piece to the next, or lies under what covers it in part. */
function ofRun({ first, last }: SewnPiece): Other[] {
  return [{ could: 'underlay', margin: rise(last - first + 1, 0, FINDER.sureRun.value) }];
}

function ofTop(stitches: Stitches, top: Top, pattern: Pattern | null, purpose: Purpose): Other[] {
  const legs = top.patches.reduce((n, { from }) => n + from.length, 0);
  const others: Other[] = [{ could: 'run', margin: rise(legs, 0, FINDER.sureLegs.value) }];
  const other: ObjectKind = top.kind === 'satin' ? 'fill' : 'satin';
  if (top.split || (pattern === 'rows' && longStitches(stitches, top)))
    others.push({ could: other, margin: apart(top.pitchMm, FINDER.rowsFrom.value) });
  if (top.kind === 'satin')
    others.push({
      could: purpose === 'top' ? 'decorative' : 'top',
      margin: apart(top.pitchMm, FINDER.openPitch.value),
    });
  else
    others.push({
      could: purpose === 'top' ? 'net' : 'top',
      margin: apart(top.pitchMm, FINDER.netAlone.value),
    });
  return others;
}

/** Whether the stitches of rows are as long as those of split satin. */
function longStitches({ x, y }: Stitches, top: Top): boolean {
  let [mm, stitches] = [0, 0];
  for (const { from, to } of top.patches)
    for (let k = 0; k < from.length; k++) {
      mm += distance(x[from[k]], y[from[k]], x[to[k]], y[to[k]]);
      stitches += to[k] - from[k];
    }
  return mm > FINDER.longRows.value * stitches;
}

/**
 * Thread beneath that shows nothing, and a column without underlay where the others have some, may be underlay not seen. A lock beneath
 * is a lock, and a column over foam needs none.
 */
function ofUnderlay(
  stitches: Stitches,
  top: Top,
  underlay: Underlay,
  purpose: Purpose,
  mostLie: boolean,
): Other[] {
  if (underlay.range !== null || purpose !== 'top' || top.capped > 0) return [];
  if (top.under.some(({ first, last }) => reach(stitches, first, last) > FINDER.lockReach.value))
    return [{ could: null, margin: FINDER.unreadMargin.value }];
  const bare = top.kind === 'satin' && mostLie;
  return bare ? [{ could: null, margin: FINDER.bareMargin.value }] : [];
}

/** Farthest that a stretch of thread comes from where it begins, mm. */
function reach({ x, y }: Stitches, first: number, last: number): number {
  let far = 0;
  for (let i = first + 1; i <= last; i++) far = Math.max(far, distance(x[first], y[first], x[i], y[i]));
  return far;
}

/** Whether one column begins where another ends, as wide and as dense: perhaps they are one. */
function goesOn({ x, y }: Stitches, a: SewnPiece, b: SewnPiece): boolean {
  if (a.top?.kind !== 'satin' || b.top?.kind !== 'satin' || a.top.thread !== b.top.thread) return false;
  if (b.first - a.last > FINDER.passGap.value) return false;
  const most = FINDER.openSwingAlike.value;
  return (
    alike(a.top.pitchMm, b.top.pitchMm, most) &&
    alike(a.top.legMm, b.top.legMm, most) &&
    distance(x[a.last], y[a.last], x[b.first], y[b.first]) <= a.top.legMm
  );
}

/** From 0 at one value to 1 at another. */
const rise = (value: number, none: number, all: number): number =>
  Math.max(0, Math.min(1, (value - none) / (all - none)));

/** How far a figure lies from the one at which it would be decided otherwise: 1 where it is half as large again, or less by as much. */
const apart = (value: number, limit: number): number =>
  Math.min(1, Math.abs(Math.log(value / limit)) / Math.log(FINDER.sureFactor.value));
