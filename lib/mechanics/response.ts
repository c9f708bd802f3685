/** What the goods do under a design: the solves, and the wrinkles that follow from them. */

import type { Thread } from '../materials/threads.js';
import { bearing, type TackingSettings } from './bearing.js';
import type { FieldSolution, LoadSpectrum, SolveOptions } from './field.js';
import type { Goods } from './goods.js';
import { newTensorField, type TensorField } from './grid.js';
import { plus } from './laminate.js';
import type { Load, PreparedDesign } from './prepared-design.js';
import { launderedPrestress } from './thread-load.js';
import { wrinkleMap } from './wrinkle.js';

/** The model's parameters as plain numbers, in the units of {@link MechanicsParameters}. */
export interface Settings extends TackingSettings {
  readonly tension: number;
  readonly threshold: number;
  readonly longestSpan: number;
}

/** What happens to the goods besides the sewing, as parts of one. */
export interface Treatment {
  /** Stretch in the hoop, let go after sewing. */
  readonly hoopStretch: number;
  /** Part of the final shrinkage that has come about. */
  readonly laundered: number;
}

/** Parts of a cause to leave out, to see what it did. */
export interface Omission {
  /** Top stitching other than as sewn. */
  readonly top?: Load;
  readonly withoutUnderlayPull?: boolean;
}

export interface Response {
  /** Strain by sewing, for a laying tension of 1 N. */
  readonly perNewton: TensorField;
  /** Its steps, underlay and top stitching, to find the displacement from. */
  readonly steps: readonly FieldSolution[];
  /** Strain by the thread drawing in when laundered. */
  readonly drawnIn: TensorField | null;
  /** Strain by the goods being let go or shrinking. */
  readonly later: TensorField | null;
  readonly engaged: Float64Array;
  readonly iterations: number;
}

/**
 * Solves for a design on its goods. Underlay pulls while nothing is tacked but what the hoop holds; then the top stitching pulls on
 * goods that the underlay has tacked. Each step adds its strain.
 */
export function respond(
  design: PreparedDesign,
  goods: Goods,
  settings: Settings,
  treatment: Treatment,
  options?: SolveOptions,
  omission: Omission = {},
): Response {
  const { solver, underlay, thread } = design;
  const top = omission.top ?? design.top;
  const { engaged, hooped, stiffness } = bearing(design, goods, settings);
  const solve = (spectrum: LoadSpectrum) => solver.solve(stiffness, spectrum, options);

  const steps: FieldSolution[] = [];
  if (!omission.withoutUnderlayPull) steps.push(solver.solveUniform(hooped, underlay.spectrum));
  steps.push(solve(top.spectrum));
  const perNewton = steps.map(({ strain }) => strain).reduce(sum);

  let drawnIn: TensorField | null = null;
  const shrink = drawingIn(thread, treatment);
  if (shrink > 0) {
    const all = sum(top.prestress, underlay.prestress);
    const prestress = launderedPrestress(all, thread.axialStiffness.value, shrink, springOf(goods));
    drawnIn = solve(solver.load(prestress)).strain;
  }

  let later: TensorField | null = null;
  const excess = excessesOf(goods, treatment);
  if (excess.some((e) => e !== 0)) {
    // Goods grow smaller than the sheets they are tacked to: each sheet is too large by its excess and pushes.
    const push = newTensorField(engaged.length);
    stiffness.parts.forEach(({ stiffness: k, share }, s) => {
      for (let p = 0; p < push.xx.length; p++) {
        const e = excess[s] * share[p];
        push.xx[p] -= (k.m11 + k.m12) * e;
        push.yy[p] -= (k.m12 + k.m22) * e;
        push.xy[p] -= (k.m16 + k.m26) * e;
      }
    });
    later = solve(solver.load(push)).strain;
  }
  return {
    perNewton,
    steps,
    drawnIn,
    later,
    engaged,
    iterations: Math.max(...steps.map(({ iterations }) => iterations)),
  };
}

/** Part of one by which the thread draws in. */
export const drawingIn = ({ shrinkage }: Thread, { laundered }: Treatment): number =>
  (laundered * shrinkage.value) / 100;

/** Stiffness that all layers together set against a thread that draws in, N/mm: the mean along and across. */
export function springOf({ fabric, sheets }: Goods): number {
  let all = fabric.membrane;
  for (const { membrane } of sheets) all = plus(all, membrane);
  return (all.m11 + all.m22) / 2;
}

/** By what part of one every sheet is too large for the goods in the end. */
export const excessesOf = ({ fabric, sheets }: Goods, treatment: Treatment): number[] =>
  sheets.map(({ shrinkage }) => treatment.hoopStretch + treatment.laundered * (fabric.shrinkage - shrinkage));

/** a + b. */
export const sum = (a: TensorField, b: TensorField): TensorField => combined(a, 1, b);

/** factor · a + b. */
export function combined(a: TensorField, factor: number, b: TensorField | null): TensorField {
  const out = newTensorField(a.xx.length);
  for (const key of ['xx', 'yy', 'xy'] as const) {
    const [to, from, more] = [out[key], a[key], b?.[key]];
    for (let p = 0; p < to.length; p++) to[p] = factor * from[p];
    if (more) for (let p = 0; p < to.length; p++) to[p] += more[p];
  }
  return out;
}

/** Height of the wrinkles at every cell, mm. */
export function wrinklesOf(
  design: PreparedDesign,
  goods: Goods,
  settings: Settings,
  response: Response,
): Float64Array {
  const { perNewton, drawnIn, later, engaged } = response;
  const { tension, hooped } = settings;
  return wrinkleMap({
    goods,
    strain: combined(perNewton, tension, drawnIn),
    later,
    open: design.open,
    toPoint: design.nearest.distance,
    tacked: engaged.map((e) => (e - hooped) / (1 - hooped)),
    threshold: settings.threshold,
    longestSpanMm: settings.longestSpan,
  });
}
