import { type Column, turnedRound, widened } from './column.js';
import { between, distance, type Point } from './plane.js';
import { run } from './run.js';
import { satin } from './satin.js';
import type { Sewing } from './sewing.js';
import { meanAxisDeg, Part, spreadOf } from './truth.js';
import { type ColumnUnderlay, columnUnderlay, comesBack } from './underlay.js';

export interface ColumnStyle {
  readonly spacingMm: number;
  /** Widening on each side to make up for pull, mm. */
  readonly pullMm: number;
  readonly underlay: readonly ColumnUnderlay[];
  readonly insetMm: number;
  readonly zigzagMm: number;
  readonly splitOverMm: number;
}

export const SATIN: ColumnStyle = {
  spacingMm: 0.4,
  pullMm: 0.15,
  underlay: ['center-run'],
  insetMm: 0.5,
  zigzagMm: 2.4,
  splitOverMm: 7,
};

/** Where the column is left: its start again, or its other end. */
export type Exit = 'start' | 'end';

/** Underlay that, begun at the start, leaves the needle where the top stitching has to begin. */
function underlayFor(style: ColumnStyle, exit: Exit): ColumnUnderlay[] {
  const kinds = [...style.underlay];
  const endsAtStart = (): boolean => kinds.filter((kind) => !comesBack(kind)).length % 2 === 0;
  const wanted = exit === 'end';
  // One run along the middle more brings the needle to the right end.
  if (endsAtStart() !== wanted) kinds.unshift('center-run');
  return kinds;
}

/**
 * Sews one column, underlay first. The needle has to be at (or travels straight to) its start. A thread that is begun for this
 * column is begun by the caller, at `entryOf` the column.
 */
export function sewColumn(
  sewing: Sewing,
  label: string,
  drawn: Column,
  style: ColumnStyle,
  exit: Exit = 'end',
): void {
  const column = widened(drawn, style.pullMm);
  const back = turnedRound(column);
  const kinds = underlayFor(style, exit);
  const top = satin(exit === 'end' ? column : back, style);
  const dx: number[] = [];
  const dy: number[] = [];
  for (let i = 0; i < column.left.length; i++) {
    dx.push(column.right[i].x - column.left[i].x);
    dy.push(column.right[i].y - column.left[i].y);
  }
  const hasZigzag = kinds.some((kind) => kind === 'zigzag' || kind === 'double-zigzag');
  const piece = sewing.open({
    label,
    kind: 'satin',
    underlay: [...new Set(kinds)],
    underlaySpacingMm: hasZigzag ? style.zigzagMm : null,
    widthMm: spreadOf(top.widths),
    spacingMm: spreadOf(top.spacings),
    angleDeg: column.ring ? null : meanAxisDeg(dx, dy),
    split: top.split,
    swings: top.widths.length,
    shortened: top.shortened,
  });
  let atStart = true;
  for (const kind of kinds) {
    sewing.sew(columnUnderlay(atStart ? column : back, kind, style), Part.underlay, piece);
    if (!comesBack(kind)) atStart = !atStart;
  }
  const gap = distance(sewing.needle, top.points[0]);
  // Begin on the other rail where the needle stands, or the first stitch would be too short to sew; halve one that would be too long.
  const points = gap < 0.5 ? top.points.slice(1) : top.points;
  if (gap > style.splitOverMm) sewing.stitch(between(sewing.needle, points[0], 0.5), Part.top, piece);
  sewing.sew(points, Part.top, piece);
}

/** Where the needle enters a column that is to be sewn. */
export const entryOf = (column: Column): Point => column.centre[Math.min(3, column.centre.length - 1)];

/** A place inside the column near the entry, to lay the first lock along. */
export const insideEntry = (column: Column): Point => column.centre[Math.min(column.centre.length - 1, 12)];

/** Starts a thread at the column's start, sews the column and locks. */
export function sewLoneColumn(
  sewing: Sewing,
  label: string,
  column: Column,
  style: ColumnStyle,
  exit: Exit = 'end',
): void {
  sewing.begin(entryOf(column), insideEntry(column));
  sewColumn(sewing, label, column, style, exit);
  sewing.lockBack();
}

/** Goes along a way that stitching still to come will hide. */
export function travel(sewing: Sewing, way: readonly Point[]): void {
  sewing.sew(run([sewing.needle, ...way], 2.4).slice(1), Part.travel);
}
