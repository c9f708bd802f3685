/** A plan looked up and checked: the fabric, and what is done with it. */
import { LieflatError } from '../core/errors.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import type { Fabric } from '../materials/fabric.js';
import { type Layup, type LayupChoice, layupOf, type StackedSheet } from './layup.js';
import type { MechanicsParameters } from './parameters.js';
import type { FabricTreatment } from './release.js';
import { type ParameterValues, settingsOf } from './settings.js';
import { stackText } from './stack-notation.js';

/** The figures that the mechanics go by, complete: none falls back to a built-in one. */
export interface MechanicsFigures {
  readonly catalogue: Catalogue;
  readonly parameters: MechanicsParameters;
}

/** What lies under and over the design, and what is done with it. */
export interface GivenConditions {
  /** Fabric id. */
  readonly fabric: string;
  /** From the garment outward; empty for no backing. */
  readonly stack: readonly StackedSheet[];
  /** Direction of the fabric's wale or warp, degrees counter-clockwise from +X; 90 (upright on the garment) by default. */
  readonly grainDeg?: number;
  /** % by which the fabric is stretched in the hoop; 0 by default. */
  readonly hoopStretchPercent?: number;
  /** Launderings after sewing; 0 by default. */
  readonly washes?: number;
}

export interface Case {
  readonly catalogue: Catalogue;
  readonly fabric: Fabric;
  readonly choice: LayupChoice;
  readonly layup: Layup;
  readonly settings: ParameterValues;
  readonly treatment: FabricTreatment;
  /** One text for one setup. */
  readonly key: string;
}

/** Part of the final shrinkage after some launderings, from that after the first. */
export const launderedPart = (firstWash: number, washes: number): number => 1 - (1 - firstWash) ** washes;

/** Upright on the garment. */
export const DEFAULT_GRAIN_DEG = 90;

/** @throws LieflatError `unknown-id`, `bad-argument`. */
export function caseOf(plan: GivenConditions, { catalogue, parameters }: MechanicsFigures): Case {
  const { fabric, stack, grainDeg = DEFAULT_GRAIN_DEG, hoopStretchPercent = 0, washes = 0 } = plan;
  const need = (what: string, value: number, ok: boolean, todo: string) => {
    if (!ok)
      throw new LieflatError({ code: 'bad-argument', place: what, what: `${value} makes no sense`, todo });
  };
  need('grain', grainDeg, Number.isFinite(grainDeg), 'give an angle in degrees');
  need(
    'hoop stretch',
    hoopStretchPercent,
    hoopStretchPercent >= 0 && hoopStretchPercent <= 50,
    'give 0 to 50 %',
  );
  need('launderings', washes, washes >= 0 && Number.isFinite(washes), 'give a count from 0');
  for (const { angleDeg } of stack)
    need('angle of a sheet', angleDeg, Number.isFinite(angleDeg), 'give degrees');
  // What the first wash takes out bears nothing any more: fabric that springs back ends as if it had never lain there.
  const left = stack.filter(
    ({ sheet }) => washes === 0 || find(catalogue, 'sheets', sheet).kind !== 'soluble',
  );
  const choice: LayupChoice = { fabric, stack: left, grainDeg };
  return {
    catalogue,
    fabric: find(catalogue, 'fabrics', fabric),
    choice,
    layup: layupOf(catalogue, choice),
    settings: settingsOf(parameters),
    treatment: {
      hoopStretch: hoopStretchPercent / 100,
      laundered: launderedPart(parameters.firstWash.value, washes),
    },
    key: stackText(left),
  };
}
