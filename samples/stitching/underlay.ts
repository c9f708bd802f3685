import { across, type Column } from './column.js';
import { between, distance, type Point, placeAt } from './plane.js';
import { run } from './run.js';

export type ColumnUnderlay = 'center-run' | 'edge-run' | 'zigzag' | 'double-zigzag';

export interface UnderlayPlan {
  /** Distance kept from each rail, mm; less in narrow columns. */
  readonly insetMm: number;
  /** Distance between neighbouring points of a zigzag on one rail, mm. */
  readonly zigzagMm: number;
}

/** Underlay stays this far from the column's two ends. */
const END_MM = 0.8;

const insetFor = (widthMm: number, wanted: number): number => Math.min(wanted, widthMm * 0.28);

function inside(column: Column, s: number, onLeft: boolean, inset: number): Point {
  const here = across(column, s);
  const [from, over] = onLeft ? [here.left, here.right] : [here.right, here.left];
  const d = distance(from, over);
  return between(from, over, insetFor(d, inset) / d);
}

function centreLine(column: Column): Point[] {
  const { centre, along, lengthMm } = column;
  const end = Math.min(END_MM, lengthMm / 4);
  const count = Math.max(1, Math.ceil(lengthMm / 0.5));
  return Array.from({ length: count + 1 }, (_, i) =>
    placeAt(centre, along, end + ((lengthMm - 2 * end) * i) / count),
  );
}

function rail(column: Column, onLeft: boolean, inset: number): Point[] {
  const end = Math.min(END_MM, column.lengthMm / 4);
  const count = Math.max(1, Math.ceil(column.lengthMm / 0.5));
  return Array.from({ length: count + 1 }, (_, i) =>
    inside(column, end + ((column.lengthMm - 2 * end) * i) / count, onLeft, inset),
  );
}

/** Zigzag from start to end; `firstLeft` says on which side it begins, which is what sets two passes apart. */
function zigzag(column: Column, plan: UnderlayPlan, firstLeft: boolean): Point[] {
  const end = Math.min(END_MM, column.lengthMm / 4);
  const length = column.lengthMm - 2 * end;
  const count = Math.max(2, Math.round(length / (plan.zigzagMm / 2)));
  return Array.from({ length: count + 1 }, (_, i) =>
    inside(column, end + (length * i) / count, firstLeft === (i % 2 === 0), plan.insetMm),
  );
}

/** True where the underlay leaves the needle at the end of the column it was begun from. */
export const comesBack = (kind: ColumnUnderlay): boolean => kind === 'edge-run' || kind === 'double-zigzag';

/** Needle points of one kind of underlay, begun at the column's start. */
export function columnUnderlay(column: Column, kind: ColumnUnderlay, plan: UnderlayPlan): Point[] {
  switch (kind) {
    case 'center-run':
      return run(centreLine(column), 2.2);
    case 'edge-run':
      return [
        ...run(rail(column, true, plan.insetMm), 2.2),
        ...run(rail(column, false, plan.insetMm), 2.2).reverse(),
      ];
    case 'zigzag':
      return zigzag(column, plan, true);
    case 'double-zigzag': {
      const out = zigzag(column, plan, true);
      return [...out, ...zigzag(column, plan, false).reverse().slice(1)];
    }
  }
}
