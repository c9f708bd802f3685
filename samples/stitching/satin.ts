import { across, type Column } from './column.js';
import { between, distance, type Point } from './plane.js';

export interface SatinPlan {
  /** Distance between neighbouring points of one rail along the centre line, mm. */
  readonly spacingMm: number;
  /** Swings longer than this are broken by a needle point inside the column; Infinity never breaks them. */
  readonly splitOverMm: number;
}

export interface Satin {
  readonly points: Point[];
  /** Width at right angles to the centre line and spacing along it, one entry a swing. */
  readonly widths: number[];
  readonly spacings: number[];
  readonly split: boolean;
  /** Swings that stop short of the crowded inner rail of a tight bend. */
  readonly shortened: number;
}

/** Inner-rail points closer than this are pulled back, every other one. */
const CROWDED_MM = 0.2;
/** How much of the swing a shortened one keeps. */
const KEPT = 0.78;
/** Where the needle points of split swings stand, in parts of a piece, so that they form no line down the column. */
const SHIFTS = [0, 0.2, -0.16, 0.1, -0.22, 0.15];

/** Top stitching of a column from its start to its end. */
export function satin(column: Column, plan: SatinPlan): Satin {
  const points: Point[] = [];
  const widths: number[] = [];
  const spacings: number[] = [];
  let split = false;
  let shortened = 0;
  let swing = 0;
  let onLeft = true;
  const crowdedTurn = { left: 0, right: 0 };
  let s = 0;
  for (;;) {
    const here = across(column, s);
    // In a bend the outer rail opens: the step goes by a line well outside the centre.
    const outer = Math.max(here.stretchLeft, here.stretchRight, 1);
    const spacing = plan.spacingMm / (1 + (outer - 1) * 0.5);
    let target = onLeft ? here.left : here.right;
    const side = onLeft ? 'left' : 'right';
    const crowded = spacing * (onLeft ? here.stretchLeft : here.stretchRight) < CROWDED_MM;
    if (crowded && crowdedTurn[side]++ % 2 === 1) {
      target = between(onLeft ? here.right : here.left, target, KEPT);
      shortened++;
    }
    if (points.length > 0) {
      const from = points[points.length - 1];
      const length = distance(from, target);
      if (length > plan.splitOverMm) {
        split = true;
        const pieces = Math.ceil(length / plan.splitOverMm);
        const shift = SHIFTS[swing % SHIFTS.length];
        for (let k = 1; k < pieces; k++) points.push(between(from, target, (k + shift) / pieces));
      }
      swing++;
      widths.push(here.widthMm);
      spacings.push(spacing);
    }
    points.push(target);
    onLeft = !onLeft;
    if (s >= column.lengthMm) break;
    s += spacing / 2;
    // The last swing closes the column at its very end.
    if (s > column.lengthMm - spacing / 4) s = column.lengthMm;
  }
  return { points, widths, spacings, split, shortened };
}
