/** What the goods do under a design: the solves, and the wrinkles that follow from them. */
import type { FieldSolution, LoadSpectrum, SolveOptions } from './field.js';
import type { Goods } from './goods.js';
import { newTensorField, type TensorField } from './grid.js';
import { plus } from './laminate.js';
import type { Load, PreparedDesign } from './prepared-design.js';
import { engagement, perforated } from './tacking.js';
import { launderedPrestress } from './thread-load.js';
import { wrinkleMap } from './wrinkle.js';

/** The model's parameters as plain numbers, in the units of {@link MechanicsParameters}. */
export interface Settings {
  readonly tension: number;
  readonly fullTacking: number;
  readonly hooped: number;
  readonly ownPoints: number;
  readonly threshold: number;
  readonly longestSpan: number;
  readonly perforation: number;
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
  const { engaged, hooped, parts } = bearing(design, goods, settings);
  const stiffness = { base: goods.fabric.membrane, parts, beyond: hooped };
  const solve = (spectrum: LoadSpectrum) => solver.solve(stiffness, spectrum, options);

  const steps: FieldSolution[] = [];
  if (!omission.withoutUnderlayPull) steps.push(solver.solveUniform(hooped, underlay.spectrum));
  steps.push(solve(top.spectrum));
  const perNewton = steps.map(({ strain }) => strain).reduce(sum);

  let drawnIn: TensorField | null = null;
  if (treatment.laundered > 0 && thread.shrinkage.value > 0) {
    let mean = goods.fabric.membrane;
    for (const { stiffness: part } of stiffness.parts) mean = plus(mean, part);
    const shrink = (treatment.laundered * thread.shrinkage.value) / 100;
    const all = sum(top.prestress, underlay.prestress);
    const prestress = launderedPrestress(all, thread.axialStiffness.value, shrink, (mean.m11 + mean.m22) / 2);
    drawnIn = solve(solver.load(prestress)).strain;
  }

  let later: TensorField | null = null;
  const excess = goods.sheets.map(
    ({ shrinkage }) => treatment.hoopStretch + treatment.laundered * (goods.fabric.shrinkage - shrinkage),
  );
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

/**
 * The same with every sheet engaged alike everywhere, at the mean over the places that pull: sewing only, one solve in Fourier space and
 * no iteration. Goods between the objects come out stiffer than they are and wrinkles lower, so it ranks stacks and gives no heights.
 */
export function respondEvenly(design: PreparedDesign, goods: Goods, settings: Settings): Response {
  const { solver, top, underlay } = design;
  const { engaged, hooped, parts } = bearing(design, goods, settings);
  let even = goods.fabric.membrane;
  for (const { stiffness, share } of parts)
    even = plus(even, stiffness, meanWhereLoaded(share, top.prestress));
  const steps = [
    solver.solveUniform(hooped, underlay.spectrum),
    solver.solveUniform(even, top.spectrum, hooped),
  ];
  const perNewton = sum(steps[0].strain, steps[1].strain);
  return { perNewton, steps, drawnIn: null, later: null, engaged, iterations: 0 };
}

function meanWhereLoaded(share: Float64Array, { xx, yy }: TensorField): number {
  let pull = 0;
  let borne = 0;
  for (let p = 0; p < share.length; p++) {
    pull += xx[p] + yy[p];
    borne += share[p] * (xx[p] + yy[p]);
  }
  return pull > 0 ? borne / pull : 0;
}

/** Engagement, the goods as the hoop alone holds them, and every sheet with the part of it that bears at each place. */
function bearing({ underlayPoints, topPoints }: PreparedDesign, goods: Goods, settings: Settings) {
  let hooped = goods.fabric.membrane;
  for (const { membrane } of goods.sheets) hooped = plus(hooped, membrane, settings.hooped);
  const engaged = engagement(
    underlayPoints.map((n, p) => n + settings.ownPoints * topPoints[p]),
    settings.fullTacking,
    settings.hooped,
  );
  let torn = engaged;
  if (goods.sheets.some(({ perforates }) => perforates)) {
    const left = perforated(
      underlayPoints.map((n, p) => n + topPoints[p]),
      settings.perforation,
    );
    torn = engaged.map((e, p) => e * left[p]);
  }
  const parts = goods.sheets.map(({ membrane, perforates }) => ({
    stiffness: membrane,
    share: perforates ? torn : engaged,
  }));
  return { engaged, hooped, parts };
}

const sum = (a: TensorField, b: TensorField): TensorField => combined(a, 1, b);

/** factor · a + b. */
function combined(a: TensorField, factor: number, b: TensorField | null): TensorField {
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
