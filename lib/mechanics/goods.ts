import type { Sourced } from '../core/sourced.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import type { Fabric } from '../materials/fabrics.js';
import type { PlyValues } from '../materials/ply-values.js';
import type { Sheet } from '../materials/sheets.js';
import { lamina, NO_STIFFNESS, type PlaneStiffness, plus, rotated } from './laminate.js';

/** One sheet of a stack of backing; its grain lies `angleDeg` counter-clockwise from +X. */
export interface StackedSheet {
  readonly sheet: string;
  readonly angleDeg: number;
}

/** Which end of a material's range to use. */
export type Level = 'value' | 'low' | 'high';

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

/** Fabric and backing as the field and the wrinkles see them, all in the axes of the design. */
export interface Goods {
  readonly fabric: Layer;
  readonly sheets: readonly Layer[];
  /** All sheets together; null without any. Unglued plies slide: bending stiffnesses add and do not compound. */
  readonly backing: Pick<Layer, 'membrane' | 'bending'> | null;
}

export interface GoodsChoice {
  readonly fabric: string;
  readonly stack: readonly StackedSheet[];
  /** Direction of the fabric's wale or warp, degrees from +X. */
  readonly grainDeg: number;
  readonly fabricMembraneLevel?: Level;
  readonly fabricBendingLevel?: Level;
  /** Of every sheet of a kind, by sheet id. */
  readonly sheetLevels?: Readonly<Record<string, Level>>;
}

function layer(
  ply: PlyValues,
  angleDeg: number,
  membraneLevel: Level,
  bendingLevel: Level,
  perforates: boolean,
  bonded: boolean,
): Layer {
  const m = (q: Sourced) => q[membraneLevel];
  const along = ply.bendingAlong[bendingLevel] * 1e-3;
  const across = ply.bendingAcross[bendingLevel] * 1e-3;
  const poisson = ply.poisson.value;
  // Twisting stiffness of cloth is seldom measured: that of an even ply of the same two bending stiffnesses.
  const shear = (Math.sqrt(along * across) * (1 - poisson)) / 2;
  return {
    membrane: rotated(
      lamina({
        along: m(ply.membraneAlong),
        across: m(ply.membraneAcross),
        shear: m(ply.membraneShear),
        poisson,
      }),
      angleDeg,
    ),
    meanStiffness: Math.sqrt(m(ply.membraneAlong) * m(ply.membraneAcross)),
    bending: rotated(lamina({ along, across, shear, poisson }), angleDeg),
    shrinkage: ply.shrinkage.value / 100,
    perforates,
    bonded,
  };
}

/** Whether goods are the same before and after laundering: what it dissolves leaves other goods than were sewn on. */
export const sameSheets = (sewn: Goods, washed: Goods): boolean =>
  sewn.sheets.length === washed.sheets.length;

/**
 * Looks up fabric and sheets and turns them into the axes of the design.
 * @throws LieflatError `unknown-id`.
 */
export function goodsOf(catalogue: Catalogue, choice: GoodsChoice): Goods {
  const { grainDeg, fabricMembraneLevel = 'value', fabricBendingLevel = 'value', sheetLevels = {} } = choice;
  const cloth: Fabric = find(catalogue, 'fabrics', choice.fabric);
  const fabric = layer(cloth, grainDeg, fabricMembraneLevel, fabricBendingLevel, false, false);
  const sheets = choice.stack.map(({ sheet, angleDeg }) => {
    const found: Sheet = find(catalogue, 'sheets', sheet);
    const level = sheetLevels[sheet] ?? 'value';
    return layer(found, angleDeg, level, level, found.perforates, found.kind === 'cut-away');
  });
  const total = (of: 'membrane' | 'bending') => sheets.reduce((sum, s) => plus(sum, s[of]), NO_STIFFNESS);
  const backing = sheets.length > 0 ? { membrane: total('membrane'), bending: total('bending') } : null;
  return { fabric, sheets, backing };
}
