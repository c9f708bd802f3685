/** What makes a design pucker: how much lower its wrinkles would be with one cause at a time switched off, on the rough mesh. */
import type { Case } from './case.js';
import { layupOf } from './layup.js';
import type { MeshedDesign } from './meshed-design.js';
import type { WrinkleLaw } from './plate-wrinkle.js';
import { SolvedSetup } from './setup.js';
import { Role } from './stitch-roles.js';

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
/** Fabric off: the same design on the stablest flat fabric of the catalogue. */
const STABLE_FABRIC = 'canvas-tote';
/** Backing off (that is, its weakness): every sheet twice, or one of these where there is none. */
const FIRST_SHEET = { sheet: 'cutaway-2.5oz', angleDeg: 0 };

/** Drivers of the design and of every object, strongest first. */
export function driversOf(at: Case, setup: SolvedSetup): Driver[][] {
  const { rough } = setup.design;
  const base = rough.seen(setup.heights);
  const falls = CAUSES.map((cause) => {
    const heights = withoutCause(at, setup, cause);
    if (!heights) return base.map(() => 0);
    return rough.seen(heights).map((now, k) => Math.max(0, base[k] - now));
  });
  return base.map((_, k) => {
    const all = falls.reduce((sum, fall) => sum + fall[k], 0);
    return CAUSES.map((cause, c) => ({ cause, share: all > 0 ? falls[c][k] / all : 0 }))
      .filter(({ share }) => share > 0)
      .sort((a, b) => b.share - a.share);
  });
}

/** Heights with one cause switched off; null where it is not at work. */
function withoutCause(at: Case, setup: SolvedSetup, cause: Cause): Float64Array | null {
  const { settings, treatment, design, released, law } = setup;
  const { rough } = design;
  const heightsOf = (strains: Float64Array, by: WrinkleLaw = law) =>
    rough.heights(strains, by, settings.longestSpan);
  const less = (part: Float64Array, factor = 1) => {
    const strains = rough.strains(part);
    return heightsOf(setup.strains.map((v, k) => v - factor * strains[k]));
  };
  switch (cause) {
    case 'width':
      return heightsOf(setup.pulled(shorterPull(rough.design, settings.bedIn)).strains);
    case 'spacing':
      return less(released.partOf('top stitching'), 1 - 1 / WIDER_SPACING);
    case 'underlay': {
      if (!design.objects.some(({ underlay }) => underlay.range)) return null;
      const others = [
        released.partOf('top stitching'),
        released.partOf('careful hooping'),
        ...(treatment.hoopStretch > 0 ? [released.partOf('hoop stretch')] : []),
        ...(treatment.laundered > 0 ? [released.partOf('laundering')] : []),
      ];
      return heightsOf(
        rough.strains(others[0].map((_, k) => others.reduce((sum, part) => sum + part[k], 0))),
      );
    }
    case 'layers': {
      const pull = onePull(rough.design);
      return pull && heightsOf(setup.pulled(pull).strains);
    }
    case 'fabric': {
      const firm = layupOf(at.catalogue, { ...at.choice, fabric: STABLE_FABRIC });
      const there = new SolvedSetup(design, firm, settings, treatment, setup);
      return there.heights;
    }
    case 'backing': {
      const { stack } = at.choice;
      const twice = stack.length === 0 ? [FIRST_SHEET] : [...stack, ...stack];
      const backed = layupOf(at.catalogue, { ...at.choice, stack: twice });
      return new SolvedSetup(design, backed, settings, treatment, setup).heights;
    }
    case 'laundering':
      return treatment.laundered > 0 ? less(released.partOf('laundering')) : null;
    case 'hooping':
      return treatment.hoopStretch > 0 ? less(released.partOf('hoop stretch')) : null;
  }
}

/** Tension of every stitch as a part of its own, were none of the top stitching longer than a narrow one. */
function shorterPull({ stitches: { x, y, count }, roles }: MeshedDesign, bedInMm: number): Float64Array {
  const pull = new Float64Array(count).fill(1);
  for (let i = 1; i < count; i++) {
    const length = Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    if (roles.thread[i] !== Role.top || length <= NARROW_MM) continue;
    pull[i] = NARROW_MM / (NARROW_MM + bedInMm) / (length / (length + bedInMm));
  }
  return pull;
}

/** The same were no place crossed by more threads than one layer has; null where none is. */
function onePull({ stitches: { x, y, count }, roles, map, lines }: MeshedDesign): Float64Array | null {
  const pull = new Float64Array(count).fill(1);
  let stacked = false;
  for (let i = 1; i < count; i++) {
    if (roles.thread[i] !== Role.top) continue;
    const u = Math.floor(((x[i] + x[i - 1]) / 2 - map.x0) / map.cellMm);
    const v = Math.floor(((y[i] + y[i - 1]) / 2 - map.y0) / map.cellMm);
    const there = lines[v * map.nx + u];
    if (there <= ONE_LAYER) continue;
    pull[i] = ONE_LAYER / there;
    stacked = true;
  }
  return stacked ? pull : null;
}
