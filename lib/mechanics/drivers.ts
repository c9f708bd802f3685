/** Which causes make the wrinkles: each is switched off in turn and the goods solved again. */
import type { Catalogue } from '../materials/catalogue.js';
import type { SolveOptions } from './field.js';
import { type Goods, type GoodsChoice, goodsOf } from './goods.js';
import type { Load, PreparedDesign } from './prepared-design.js';
import { type Omission, respond, type Settings, type Treatment, wrinklesOf } from './response.js';
import { Role } from './stitch-roles.js';
import { rasterise, stitchTension } from './thread-load.js';

export const CAUSES = [
  'width',
  'spacing',
  'underlay',
  'layers',
  'fabric',
  'backing',
  'laundering',
  'hooping',
] as const;
export type Cause = (typeof CAUSES)[number];

export interface Driver {
  readonly cause: Cause;
  /** Part of one: how much of the fall that all causes bring, each switched off by itself, is brought by this one. */
  readonly share: number;
}

/** Width off: no stitch pulls harder than one of this length. */
const NARROW_MM = 2;
/** Spacing off: the top stitching lies this many times as far apart. */
const WIDER_SPACING = 1.5;
/** Layers off: no place carries more lines of thread a mm than one satin column at 0.4 mm (zig and zag) with a fifth to spare. */
const ONE_LAYER = 6;
/** Fabric off: the same design on the stablest flat goods of the catalogue. */
const STABLE_FABRIC = 'canvas-tote';
/** Backing off (that is, its weakness): every sheet twice, or one of these where there is none. */
const FIRST_SHEET = { sheet: 'cutaway-2.5oz', angleDeg: 0 };

/** What is looked at: a map of wrinkle heights to figures in mm, one for the design and one an object. */
export type Viewing = (wrinkles: Float64Array) => number[];

export interface Case {
  readonly catalogue: Catalogue;
  readonly design: PreparedDesign;
  readonly choice: GoodsChoice;
  readonly goods: Goods;
  readonly settings: Settings;
  readonly treatment: Treatment;
}

/** Drivers of the design and of every object, strongest first; `base` is what is seen with all causes on. */
export function driversOf(
  at: Case,
  base: readonly number[],
  view: Viewing,
  options: SolveOptions,
): Driver[][] {
  const falls = CAUSES.map((cause) => {
    const changed = withoutCause(at, cause);
    if (!changed) return base.map(() => 0);
    const { goods, treatment, omission } = changed;
    const response = respond(at.design, goods, at.settings, treatment, options, omission);
    return view(wrinklesOf(at.design, goods, at.settings, response)).map((now, k) =>
      Math.max(0, base[k] - now),
    );
  });
  return base.map((_, k) => {
    const all = falls.reduce((sum, fall) => sum + fall[k], 0);
    return CAUSES.map((cause, c) => ({ cause, share: all > 0 ? falls[c][k] / all : 0 }))
      .filter(({ share }) => share > 0)
      .sort((a, b) => b.share - a.share);
  });
}

/** The case with one cause switched off; null where it is not at work. */
function withoutCause(
  { catalogue, design, choice, goods, treatment }: Case,
  cause: Cause,
): { goods: Goods; treatment: Treatment; omission?: Omission } | null {
  switch (cause) {
    case 'width': {
      const { grid, stitches, roles, bedInMm } = design;
      const narrow = rasterise(grid, stitches, (length, i) =>
        roles.thread[i] === Role.top ? stitchTension(Math.min(length, NARROW_MM), 1, bedInMm) : -1,
      );
      return { goods, treatment, omission: { top: loadOf(design, () => 1, narrow.prestress) } };
    }
    case 'spacing':
      return { goods, treatment, omission: { top: loadOf(design, () => 1 / WIDER_SPACING) } };
    case 'underlay': {
      const laid = design.roles.thread.some((role) => role === Role.underlay);
      return laid ? { goods, treatment, omission: { withoutUnderlayPull: true } } : null;
    }
    case 'layers': {
      const { topLines } = design;
      const stacked = topLines.some((lines) => lines > ONE_LAYER);
      const cap = (p: number) => Math.min(1, ONE_LAYER / topLines[p]);
      return stacked ? { goods, treatment, omission: { top: loadOf(design, cap) } } : null;
    }
    case 'fabric':
      return { goods: goodsOf(catalogue, { ...choice, fabric: STABLE_FABRIC }), treatment };
    case 'backing': {
      const stack = choice.stack.length === 0 ? [FIRST_SHEET] : [...choice.stack, ...choice.stack];
      return { goods: goodsOf(catalogue, { ...choice, stack }), treatment };
    }
    case 'laundering':
      return treatment.laundered > 0 ? { goods, treatment: { ...treatment, laundered: 0 } } : null;
    case 'hooping':
      return treatment.hoopStretch > 0 ? { goods, treatment: { ...treatment, hoopStretch: 0 } } : null;
  }
}

function loadOf(design: PreparedDesign, factor: (p: number) => number, from = design.top.prestress): Load {
  const scaled = (field: Float64Array) => field.map((v, p) => (v === 0 ? 0 : v * factor(p)));
  const prestress = { xx: scaled(from.xx), yy: scaled(from.yy), xy: scaled(from.xy) };
  return { prestress, spectrum: design.solver.load(prestress) };
}
