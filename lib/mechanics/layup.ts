import { type Catalogue, find } from '../materials/catalogue.js';
import type { Fabric } from '../materials/fabric.js';
import type { PlyValues } from '../materials/ply-values.js';
import type { Sheet } from '../materials/sheets.js';
import { lamina, NO_STIFFNESS, type PlaneStiffness, plus, rotated } from './laminate.js';

/** One sheet of a stack of backing; its grain lies `angleDeg` counter-clockwise from +X. */
export interface StackedSheet {
  readonly sheet: string;
  readonly angleDeg: number;
}

export interface Layer {
  /** N/mm. */
  readonly membrane: PlaneStiffness;
  /** Geometric mean of the stiffnesses along and across, N/mm. */
  readonly meanStiffness: number;
  /** N·mm. */
  readonly bending: PlaneStiffness;
  /** Final shrinkage, a part of one. */
  readonly shrinkage: number;
  readonly perforates: boolean;
  /** Fibers held together by a binder alone, which needle points cut. */
  readonly bonded: boolean;
}

/** Fabric and backing as the mechanics see them, all in the axes of the design. */
export interface Layup {
  readonly fabric: Layer;
  readonly sheets: readonly Layer[];
  /** All sheets together; null without any. Unglued plies slide: bending stiffnesses add and do not compound. */
  readonly backing: Pick<Layer, 'membrane' | 'bending'> | null;
}

export interface LayupChoice {
  readonly fabric: string;
  readonly stack: readonly StackedSheet[];
  /** Direction of the fabric's wale or warp, degrees from +X. */
  readonly grainDeg: number;
}

function layer(ply: PlyValues, angleDeg: number, perforates: boolean, bonded: boolean): Layer {
  const along = ply.bendingAlong.value * 1e-3;
  const across = ply.bendingAcross.value * 1e-3;
  const poisson = ply.poisson.value;
  // Twisting stiffness of cloth is seldom measured: that of an even ply of the same two bending stiffnesses.
  const shear = (Math.sqrt(along * across) * (1 - poisson)) / 2;
  return {
    membrane: rotated(
      lamina({
        along: ply.membraneAlong.value,
        across: ply.membraneAcross.value,
        shear: ply.membraneShear.value,
        poisson,
      }),
      angleDeg,
    ),
    meanStiffness: Math.sqrt(ply.membraneAlong.value * ply.membraneAcross.value),
    bending: rotated(lamina({ along, across, shear, poisson }), angleDeg),
    shrinkage: ply.shrinkage.value / 100,
    perforates,
    bonded,
  };
}

/**
 * Looks up fabric and sheets and turns them into the axes of the design.
 * @throws LieflatError `unknown-id`.
 */
export function layupOf(catalogue: Catalogue, choice: LayupChoice): Layup {
  const cloth: Fabric = find(catalogue, 'fabrics', choice.fabric);
  const fabric = layer(cloth, choice.grainDeg, false, false);
  const sheets = choice.stack.map(({ sheet, angleDeg }) => {
    const found: Sheet = find(catalogue, 'sheets', sheet);
    return layer(found, angleDeg, found.perforates, found.kind === 'cut-away');
  });
  return { fabric, sheets, backing: backingOf(sheets) };
}

function backingOf(sheets: readonly Layer[]): Layup['backing'] {
  if (sheets.length === 0) return null;
  const total = (of: 'membrane' | 'bending') => sheets.reduce((sum, s) => plus(sum, s[of]), NO_STIFFNESS);
  return { membrane: total('membrane'), bending: total('bending') };
}

/** The same with layers some times as stiff to draw out: 0 is the fabric, others are the sheets from 1. */
export function stiffened({ fabric, sheets }: Layup, times: (layer: number) => number): Layup {
  const changed = (one: Layer, factor: number): Layer => ({
    ...one,
    membrane: plus(NO_STIFFNESS, one.membrane, factor),
    meanStiffness: factor * one.meanStiffness,
  });
  const stiffer = sheets.map((sheet, k) => changed(sheet, times(k + 1)));
  return { fabric: changed(fabric, times(0)), sheets: stiffer, backing: backingOf(stiffer) };
}
