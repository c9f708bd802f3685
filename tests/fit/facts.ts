/** The facts of the trade that the free parameters rest on, as figures of the two reference designs (common practice, no source). */
import type { StackedSheet } from '../../lib/mechanics/goods.js';
import type { MechanicsParameters } from '../../lib/mechanics/parameters.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { assess, prepare } from '../../lib/mechanics/risk.js';
import type { TestDesign } from '../mechanics/designs.js';
import { BONDED, WOVEN, WOVEN_CROSSED } from '../mechanics/stacks.js';
import { relaidAll } from '../stitch/relaid-all.js';

/** The thinnest, stretchiest goods, where the facts were seen. */
export const FACT_FABRIC = 'performance-knit-thin';

export interface References {
  /** Bold satin name over double zigzag. */
  name: TestDesign;
  /** Filled design of 12,000 stitches. */
  filled: TestDesign;
}

export interface FactFigures {
  /** Fall of the wrinkle height, a part of one, from one bonded sheet to one woven. */
  F7: number;
  /** … and to two woven, the second turned by 45°. */
  F7crossed: number;
  /** Wrinkle height of the filled design over that of the name, same goods and backing. */
  F13: number;
  /** Fall from double zigzag to a light fill. */
  F15: number;
  /** Fall from double zigzag over one bonded sheet to a light fill over two crossed woven sheets. */
  F16: number;
  /** Wrinkle height of the name, mm, and how far its column edges move in, mm. */
  wrinkleMm: number;
  pullInMm: number;
}

export interface PreparedReferences {
  name: PreparedDesign;
  light: PreparedDesign;
  filled: PreparedDesign;
}

export const prepareReferences = (
  { name, filled }: References,
  parameters: MechanicsParameters,
): PreparedReferences => ({
  name: prepare({ ...name, parameters }),
  light: prepare({ ...relaidAll(name, 'fill'), parameters }),
  filled: prepare({ ...filled, parameters }),
});

export function factFigures(designs: PreparedReferences, parameters: MechanicsParameters): FactFigures {
  const on = (design: PreparedDesign, stack: readonly StackedSheet[]) =>
    assess(design, { fabric: FACT_FABRIC, stack }, undefined, parameters);
  const base = on(designs.name, BONDED);
  const fall = (design: PreparedDesign, stack: readonly StackedSheet[]) =>
    1 - on(design, stack).wrinkleMm / base.wrinkleMm;
  return {
    F7: fall(designs.name, WOVEN),
    F7crossed: fall(designs.name, WOVEN_CROSSED),
    F13: on(designs.filled, BONDED).wrinkleMm / base.wrinkleMm,
    F15: fall(designs.light, BONDED),
    F16: fall(designs.light, WOVEN_CROSSED),
    wrinkleMm: base.wrinkleMm,
    pullInMm: base.pullInMm,
  };
}
