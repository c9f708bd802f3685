/**
 * Tells what underlay a stretch of thread under a satin column is.
 *
 * The column is unrolled: every needle point gets its place along the centre line and across it, so that a curved
 * column reads like a straight one. Joined into straight legs, the stretch then shows what it is: legs along the
 * middle are a center run, legs along both sides an edge run, legs from side to side that join at the sides a
 * zigzag (there and back: a double zigzag), legs from side to side with a step between them rows of a light fill.
 */
import { acrossAt, alongAt, type ColumnFrame, nodeAt } from '../geometry/column-frame.js';
import type { UnderlayKind } from './objects.js';
import { cosineOf, FINDER } from './parameters.js';

const LEG_COS = cosineOf(FINDER.underTurn);
const STITCH_MM = FINDER.underStitch.value;
const LEG_MM = FINDER.underLeg.value;
const HALF_MM = FINDER.underHalf.value;
const MIDDLE = FINDER.middleShare.value;
const MIDDLE_MM = FINDER.middleMm.value;
const STEEP = FINDER.crossSteep.value;
const COVERS = FINDER.runCovers.value;
const LONG = FINDER.runLeast.value;
const LONG_MM = FINDER.runLong.value;
const PIECE = FINDER.runPiece.value;
const UNEVEN = FINDER.alongRowsUneven.value;
const EDGE_INSET_MM = FINDER.edgeInset.value;

export interface UnderlayReading {
  readonly kinds: UnderlayKind[];
  readonly spacingMm: number | null;
}

interface UnderlayLeg {
  ds: number;
  dc: number;
  /** Mean place across, as a share of the half width, and in mm. */
  share: number;
  across: number;
  halfWidth: number;
}

/**
 * @param x, y stitch positions, mm
 * @param indexes stitch indexes of the stretch, in sewing order; a negative entry marks a place where the thread
 *   left the column
 */
export function readColumnUnderlay(
  column: ColumnFrame,
  x: Float64Array,
  y: Float64Array,
  indexes: readonly number[],
): UnderlayReading {
  const legs = unroll(column, x, y, indexes);
  const length = column.lengthMm || 1;
  const reach = spread(legs);
  const crosses = (leg: UnderlayLeg) =>
    reach > MIDDLE &&
    Math.abs(leg.dc) >=
      Math.max(2 * MIDDLE_MM, FINDER.crossReach.value * reach * leg.halfWidth, STEEP * Math.abs(leg.ds));
  const kinds = new Set<UnderlayKind>();
  let spacingMm: number | null = null;

  const runs = runsAlong(legs, crosses, Math.min(LONG * length, LONG_MM));
  const rows = rowsAlong(runs, length);
  if (rows !== null) {
    kinds.add('fill');
    spacingMm = rows.spacingMm;
  }
  // an edge run and the row beside which it ends or begins are one run that is longer than a row
  const besideRows = (r: Run) => (rows?.runs.includes(r) ? Math.max(0, r.length - length) : r.length);
  const covered = (side: number) =>
    runs.filter((r) => sideOf(r) === side).reduce((sum, r) => sum + besideRows(r), 0) / length;
  if (rows === null ? middleShare(legs, crosses, length) >= COVERS : covered(0) >= COVERS)
    kinds.add('center-run');
  if (covered(1) >= COVERS && covered(-1) >= COVERS) kinds.add('edge-run');

  const zigzag = readCrossings(legs, crosses, length);
  if (zigzag !== null) {
    kinds.add(zigzag.kind);
    spacingMm = zigzag.spacingMm;
  }
  return { kinds: [...kinds], spacingMm };
}

/** Share of the column's length along whose middle a stretch of thread runs (over 1 where it goes there and back). */
export function shareAlongMiddle(
  column: ColumnFrame,
  x: Float64Array,
  y: Float64Array,
  indexes: readonly number[],
): number {
  return middleShare(unroll(column, x, y, indexes), () => false, column.lengthMm || 1);
}

function middleShare(
  legs: readonly UnderlayLeg[],
  crosses: (leg: UnderlayLeg) => boolean,
  length: number,
): number {
  return (
    runsAlong(legs, crosses, PIECE * length).reduce((n, r) => n + (sideOf(r) === 0 ? r.length : 0), 0) /
    length
  );
}

const sideOf = ({ share, across }: { share: number; across: number }): number =>
  Math.abs(share) <= MIDDLE || Math.abs(across) <= MIDDLE_MM ? 0 : Math.sign(share);

/** The stretch in the column's own coordinates, joined into straight legs. */
function unroll(
  column: ColumnFrame,
  x: Float64Array,
  y: Float64Array,
  indexes: readonly number[],
): UnderlayLeg[] {
  const legs: UnderlayLeg[] = [];
  // all by plain numbers: kept as objects, every stitch would leave some behind
  let [ds, dc, shareSum, acrossSum, widthSum, weight] = [0, 0, 0, 0, 0, 0];
  let [lastDs, lastDc, lastL] = [0, 0, 0];
  let [beforeS, beforeAcross, beforeHalf] = [0, 0, 0];
  let any = false;
  let hint = -1;
  for (const i of indexes) {
    if (i < 0) {
      closeLeg(legs, ds, dc, shareSum, acrossSum, widthSum, weight);
      weight = 0;
      any = false;
      continue;
    }
    const node = nodeAt(column, x[i], y[i], hint);
    const s = alongAt(column, node, x[i], y[i]);
    const at = acrossAt(column, node, x[i], y[i]);
    const halfWidth = column.halfWidth[node];
    hint = node;
    if (any) {
      let along = s - beforeS;
      if (column.closed) along -= column.lengthMm * Math.round(along / column.lengthMm);
      const aside = at - beforeAcross;
      const l = Math.sqrt(along * along + aside * aside);
      if (l < STITCH_MM) continue;
      const half = Math.max(HALF_MM, (halfWidth + beforeHalf) / 2);
      const across = (at + beforeAcross) / 2;
      if (weight > 0 && along * lastDs + aside * lastDc < LEG_COS * l * lastL) {
        closeLeg(legs, ds, dc, shareSum, acrossSum, widthSum, weight);
        weight = 0;
      }
      if (weight === 0) ds = dc = shareSum = acrossSum = widthSum = 0;
      ds += along;
      dc += aside;
      shareSum += (across / half) * l;
      acrossSum += across * l;
      widthSum += half * l;
      weight += l;
      lastDs = along;
      lastDc = aside;
      lastL = l;
    }
    any = true;
    beforeS = s;
    beforeAcross = at;
    beforeHalf = halfWidth;
  }
  closeLeg(legs, ds, dc, shareSum, acrossSum, widthSum, weight);
  return legs;
}

/** Adds a leg, sums of its stitches weighted by their length, unless there is none or it is too short to be one. */
function closeLeg(
  legs: UnderlayLeg[],
  ds: number,
  dc: number,
  shareSum: number,
  acrossSum: number,
  widthSum: number,
  weight: number,
): void {
  if (weight === 0 || ds ** 2 + dc ** 2 <= LEG_MM ** 2) return;
  legs.push({ ds, dc, share: shareSum / weight, across: acrossSum / weight, halfWidth: widthSum / weight });
}

/** How far to the sides the stretch reaches, as a share of the half width (90th percentile of leg ends). */
function spread(legs: readonly UnderlayLeg[]): number {
  const shares = new Float64Array(legs.length);
  for (let k = 0; k < shares.length; k++) {
    const { share, dc, halfWidth } = legs[k];
    shares[k] = Math.max(Math.abs(share), Math.abs(dc) / (2 * halfWidth));
  }
  shares.sort();
  return shares.length === 0
    ? 0
    : Math.min(1, shares[Math.floor(FINDER.reachShare.value * (shares.length - 1))]);
}

interface Run {
  length: number;
  share: number;
  across: number;
  halfWidth: number;
}

/** Legs along the column, joined where they follow each other on the same side; steps between rows left out. */
function runsAlong(
  legs: readonly UnderlayLeg[],
  crosses: (leg: UnderlayLeg) => boolean,
  least: number,
): Run[] {
  const runs: Run[] = [];
  let current: Run | null = null;
  for (const leg of legs) {
    const along = Math.abs(leg.ds);
    if (crosses(leg) || along < FINDER.alongTimes.value * Math.abs(leg.dc)) {
      current = null;
      continue;
    }
    const joins =
      current !== null &&
      sideOf(current) === sideOf(leg) &&
      Math.abs(current.across - leg.across) < FINDER.sameLane.value * leg.halfWidth;
    if (current !== null && joins) {
      const total: number = current.length + along;
      current.share = (current.share * current.length + leg.share * along) / total;
      current.across = (current.across * current.length + leg.across * along) / total;
      current.length = total;
    } else {
      current = { length: along, share: leg.share, across: leg.across, halfWidth: leg.halfWidth };
      runs.push(current);
    }
  }
  return runs.filter((r) => r.length >= least);
}

/**
 * The runs that are rows of a light fill along the column: three or more that lie side by side at even distances,
 * sewn in that order, or two that lie farther inside than an edge run would. Null where there are none.
 */
function rowsAlong(runs: readonly Run[], length: number): { runs: Run[]; spacingMm: number } | null {
  const long = runs.filter((r) => r.length >= COVERS * length);
  const gap = (i: number) => long[i + 1].across - long[i].across;
  const apart = (g: number) =>
    Math.abs(g) > FINDER.alongRowsLeast.value && Math.abs(g) < FINDER.alongRowsMost.value;
  for (let first = 0; first + 1 < long.length; first++) {
    if (!apart(gap(first))) continue;
    let last = first + 1;
    while (last + 1 < long.length && Math.abs(gap(last) / gap(first) - 1) < UNEVEN) last++;
    const rows = long.slice(first, last + 1);
    const inset = Math.min(...rows.map((r) => r.halfWidth - Math.abs(r.across)));
    if (rows.length >= FINDER.alongRowsFewest.value || (long.length === 2 && inset >= EDGE_INSET_MM)) {
      return {
        runs: rows,
        spacingMm: Math.abs(rows[rows.length - 1].across - rows[0].across) / (rows.length - 1),
      };
    }
  }
  return null;
}

/** Reads the legs that go from side to side: a zigzag, a double zigzag, or rows of a light fill. */
function readCrossings(
  legs: readonly UnderlayLeg[],
  crosses: (leg: UnderlayLeg) => boolean,
  length: number,
): { kind: UnderlayKind; spacingMm: number } | null {
  // the way of the middles: swings of a slanted zigzag go forward and back by turns, their middles do not
  let forward = 0;
  let backward = 0;
  let zigs = 0;
  let joints = 0;
  const steps: number[] = [];
  let last = -1;
  for (let i = 0; i < legs.length; i++) {
    if (!crosses(legs[i])) continue;
    if (last >= 0 && legs[last].dc * legs[i].dc < 0) {
      const step = legs.slice(last + 1, i).reduce((sum, l) => sum + l.ds, 0);
      if (Math.abs(step) < FINDER.crossJoint.value) {
        joints++;
        const way = (legs[last].ds + legs[i].ds) / 2 + step;
        if (way > 0) forward += way;
        else backward -= way;
      } else if (
        Math.abs(step) <= FINDER.crossStep.value &&
        Math.abs(step) < FINDER.crossStepShare.value * length
      ) {
        const slope = Math.abs(legs[i].dc) / Math.hypot(legs[i].ds, legs[i].dc);
        steps.push(Math.abs(step) * slope);
      }
    }
    last = i;
    zigs++;
  }
  if (steps.length > joints || (steps.length >= 2 && joints < 2)) {
    return steps.length >= 2
      ? { kind: 'fill', spacingMm: steps.sort((a, b) => a - b)[steps.length >> 1] }
      : null;
  }
  if (zigs < FINDER.zigzagFewest.value || joints < 2) return null;
  const total = forward + backward;
  const there = Math.max(forward, backward);
  const back = Math.min(forward, backward);
  if (total < FINDER.zigzagCovers.value * length) return null;
  const double = back > FINDER.doubleBack.value * there || total > FINDER.doubleLong.value * length;
  return { kind: double ? 'double-zigzag' : 'zigzag', spacingMm: (2 * total) / joints };
}
