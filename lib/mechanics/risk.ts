/**
 * The risk that a design puckers on its goods: score, grade, pull-in and wrinkle height, of the whole and of every object.
 *
 * Resolution rule: a cell is at most a third of the width of the columns that carry the pull, and at most 0.75 mm (see
 * `cellFor`); the result says what cell was used and whether the rule was met.
 */
import { LieflatError } from '../core/errors.js';
import type { Stitches } from '../format/stitches.js';
import { CATALOGUE, type Catalogue, find } from '../materials/catalogue.js';
import type { StitchObject } from '../segment/objects.js';
import { type Case, type Driver, driversOf, type Viewing } from './drivers.js';
import { SOLVE_OPTIONS, type SolveOptions } from './field.js';
import { type GoodsChoice, goodsOf, type StackedSheet } from './goods.js';
import type { Grid } from './grid.js';
import { type MechanicsParameters, PARAMETERS } from './parameters.js';
import { type PreparedDesign, prepareDesign } from './prepared-design.js';
import { Movement, type PullIn, pullIn } from './pull-in.js';
import { worstPatch } from './regions.js';
import { type Response, respond, type Settings, type Treatment, wrinklesOf } from './response.js';
import { gradeOf, scoreOf } from './score.js';
import { rangeOf, type Sensitivity, sensitivitiesOf } from './uncertainty.js';

/** What lies under and over the design, and what is done with it. */
export interface GoodsPlan {
  /** Fabric id. */
  readonly fabric: string;
  /** From the garment outward; empty for no backing. */
  readonly stack: readonly StackedSheet[];
  /** Direction of the fabric's wale or warp, degrees counter-clockwise from +X; 90 (upright on the garment) by default. */
  readonly grainDeg?: number;
  /** % by which the goods are stretched in the hoop; 0 by default. */
  readonly hoopStretchPercent?: number;
  /** Launderings after sewing; 0 by default. */
  readonly washes?: number;
}

export interface RiskInput extends GoodsPlan {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  /** Thread id; `polyester-40` by default. */
  readonly thread?: string;
  readonly catalogue?: Catalogue;
  readonly parameters?: MechanicsParameters;
  /** Size of a cell in mm, in place of the rule. */
  readonly cellMm?: number;
}

export interface Risk {
  /** 0 (lies flat) to 100. */
  readonly score: number;
  /** 5 (smooth) to 1 (severe). */
  readonly grade: number;
  /** How far edges move inward in sewing, mm; of the whole design the most of any object. */
  readonly pullInMm: number;
  /** Peak to valley, mm. */
  readonly wrinkleMm: number;
}

export interface DetailedRisk extends Risk {
  /** First-order estimate over the low and high of materials and parameters. */
  readonly range: {
    readonly score: [low: number, high: number];
    readonly wrinkleMm: [low: number, high: number];
  };
  readonly drivers: readonly Driver[];
  readonly sensitivities: readonly Sensitivity[];
}

export interface ObjectRisk extends DetailedRisk {
  readonly id: number;
  /** What each edge would have to be drawn out by, mm. */
  readonly pullCompensation: PullIn;
}

/** How high the goods wrinkle, cell by cell, row by row from the lower left. */
export interface WrinkleField {
  readonly grid: Grid;
  /** mm, one a cell. */
  readonly wrinkleMm: Float64Array;
}

/** Fields on the grid, row by row from the lower left. */
export interface RiskMaps extends WrinkleField {
  /** mm, one a cell middle; about the middle of the sheet. */
  readonly displacementX: Float64Array;
  readonly displacementY: Float64Array;
}

export interface DesignRisk extends DetailedRisk {
  readonly objects: readonly ObjectRisk[];
  readonly maps: RiskMaps;
  readonly resolution: { readonly cellMm: number; readonly wantedCellMm: number; readonly met: boolean };
}

/** Wrinkle height to this part is enough for drivers and ranges. */
const DETAIL_OPTIONS: SolveOptions = { ...SOLVE_OPTIONS, tolerance: 1e-2 };

const plainSettings = (p: MechanicsParameters): Settings => ({
  tension: p.tension.value,
  fullTacking: p.fullTacking.value,
  hooped: p.hooped.value,
  ownPoints: p.ownPoints.value,
  threshold: p.threshold.value,
  longestSpan: p.longestSpan.value,
  perforation: p.perforation.value,
});

/** Upright on the garment. */
export const DEFAULT_GRAIN_DEG = 90;
export const DEFAULT_THREAD = 'polyester-40';

/**
 * Everything about a design that does not depend on the goods. Give it to {@link assess} and {@link assessFully} for each fabric and
 * stack.
 * @throws LieflatError `unknown-id` for the thread.
 */
export function prepare(input: Omit<RiskInput, keyof GoodsPlan>): PreparedDesign {
  const { stitches, objects, catalogue = CATALOGUE, parameters = PARAMETERS, cellMm } = input;
  const thread = find(catalogue, 'threads', input.thread ?? DEFAULT_THREAD);
  return prepareDesign(stitches, objects, thread, parameters.bedIn.value, cellMm);
}

/**
 * A plan looked up and checked, for a design on it.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function caseOf(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue: Catalogue,
  parameters: MechanicsParameters,
): Case {
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
  // What the first wash takes out bears nothing any more: goods that spring back end as if it had never lain there.
  const left = stack.filter(
    ({ sheet }) => washes === 0 || find(catalogue, 'sheets', sheet).kind !== 'soluble',
  );
  const choice: GoodsChoice = { fabric, stack: left, grainDeg };
  const treatment: Treatment = {
    hoopStretch: hoopStretchPercent / 100,
    laundered: 1 - (1 - parameters.firstWash.value) ** washes,
  };
  return {
    catalogue,
    design,
    choice,
    goods: goodsOf(catalogue, choice),
    settings: plainSettings(parameters),
    treatment,
  };
}

export const riskOf =
  ({ scoreHalf }: MechanicsParameters) =>
  (wrinkleMm: number, pullInMm: number): Risk => {
    const score = scoreOf(wrinkleMm, scoreHalf.value);
    return { score, grade: gradeOf(score), pullInMm, wrinkleMm };
  };

/** Wrinkle height of the whole, then of each object. */
export const viewOf =
  (design: PreparedDesign): Viewing =>
  (map) => [
    worstPatch(map, design.grid.cellMm),
    ...design.regions.map((cells) => worstPatch(map, design.grid.cellMm, cells)),
  ];

/** The risk alone, for ranking many stacks: one solve of the field. `objects` are in the order of the design's. */
export interface QuickRisk extends Risk {
  readonly objects: readonly Risk[];
}

interface Assessment extends QuickRisk {
  readonly at: Case;
  readonly response: Response;
  readonly wrinkles: Float64Array;
  readonly seen: readonly number[];
  readonly pulls: readonly PullIn[];
  readonly movement: Movement;
}

function assessment(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue: Catalogue,
  parameters: MechanicsParameters,
): Assessment {
  const at = caseOf(design, plan, catalogue, parameters);
  const { goods, settings, treatment } = at;
  const response = respond(design, goods, settings, treatment);
  const wrinkles = wrinklesOf(design, goods, settings, response);
  const seen = viewOf(design)(wrinkles);
  const movement = new Movement(
    design.grid,
    response.steps.map((step) => design.solver.displacement(step)),
    settings.tension,
  );
  const pulls = design.objects.map((object) => pullIn(movement, design.stitches, object));
  const risk = riskOf(parameters);
  const objects = pulls.map(({ alongStitchMm }, k) => risk(seen[k + 1], alongStitchMm));
  const most = objects.reduce((max, { pullInMm }) => Math.max(max, pullInMm), 0);
  return { ...risk(seen[0], most), objects, at, response, wrinkles, seen, pulls, movement };
}

/**
 * Score, grade, pull-in and wrinkle height of a prepared design on some goods.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function assess(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue: Catalogue = CATALOGUE,
  parameters: MechanicsParameters = PARAMETERS,
): QuickRisk {
  const { score, grade, pullInMm, wrinkleMm, objects } = assessment(design, plan, catalogue, parameters);
  return { score, grade, pullInMm, wrinkleMm, objects };
}

/**
 * The height of the wrinkles cell by cell and nothing else: one solve of the field, as {@link assess} takes.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function wrinkleField(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue: Catalogue = CATALOGUE,
  parameters: MechanicsParameters = PARAMETERS,
): WrinkleField {
  const { goods, settings, treatment } = caseOf(design, plan, catalogue, parameters);
  const response = respond(design, goods, settings, treatment);
  return { grid: design.grid, wrinkleMm: wrinklesOf(design, goods, settings, response) };
}

/**
 * The drivers of the whole design alone, strongest first: a solve of the field, and one for each cause at work.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function designDrivers(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue: Catalogue = CATALOGUE,
  parameters: MechanicsParameters = PARAMETERS,
): readonly Driver[] {
  const at = caseOf(design, plan, catalogue, parameters);
  const response = respond(design, at.goods, at.settings, at.treatment);
  const view: Viewing = (map) => [worstPatch(map, design.grid.cellMm)];
  const [drivers] = driversOf(
    at,
    view(wrinklesOf(design, at.goods, at.settings, response)),
    view,
    DETAIL_OPTIONS,
  );
  return drivers;
}

/** {@link assess} with drivers, ranges, pull compensation and maps: about a dozen more solves. */
export function assessFully(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue: Catalogue = CATALOGUE,
  parameters: MechanicsParameters = PARAMETERS,
): DesignRisk {
  const base = assessment(design, plan, catalogue, parameters);
  const view = viewOf(design);
  const drivers = driversOf(base.at, base.seen, view, DETAIL_OPTIONS);
  const sensitivities = sensitivitiesOf(base.at, parameters, base.response, view, DETAIL_OPTIONS);
  const detailed = (risk: Risk, k: number): DetailedRisk => {
    const wrinkleMm = rangeOf(risk.wrinkleMm, sensitivities[k]);
    const { value } = parameters.scoreHalf;
    return {
      score: risk.score,
      grade: risk.grade,
      pullInMm: risk.pullInMm,
      wrinkleMm: risk.wrinkleMm,
      range: { score: [scoreOf(wrinkleMm[0], value), scoreOf(wrinkleMm[1], value)], wrinkleMm },
      drivers: drivers[k],
      sensitivities: sensitivities[k],
    };
  };
  const { grid, wantedCellMm } = design;
  return {
    ...detailed(base, 0),
    objects: base.objects.map((risk, k) => ({
      ...detailed(risk, k + 1),
      id: design.objects[k].id,
      pullCompensation: base.pulls[k],
    })),
    maps: { grid, wrinkleMm: base.wrinkles, ...movementMaps(grid, base.movement) },
    resolution: { cellMm: grid.cellMm, wantedCellMm, met: grid.cellMm <= wantedCellMm * (1 + 1e-9) },
  };
}

function movementMaps(grid: Grid, movement: Movement) {
  const { nx, ny, cellMm, x0, y0 } = grid;
  const displacementX = new Float64Array(nx * ny);
  const displacementY = new Float64Array(nx * ny);
  const [mx, my] = movement.at(x0 + (nx * cellMm) / 2, y0 + (ny * cellMm) / 2);
  for (let j = 0, p = 0; j < ny; j++)
    for (let i = 0; i < nx; i++, p++) {
      const [ux, uy] = movement.at(x0 + (i + 0.5) * cellMm, y0 + (j + 0.5) * cellMm);
      displacementX[p] = ux - mx;
      displacementY[p] = uy - my;
    }
  return { displacementX, displacementY };
}

/**
 * The risk of one design on one fabric over one stack, with everything that is known about it. A sew-out decides.
 * @throws LieflatError `unknown-id` for a fabric, sheet or thread that is not in the catalogue, `bad-argument`.
 */
export function puckerRisk(input: RiskInput): DesignRisk {
  return assessFully(prepare(input), input, input.catalogue, input.parameters);
}
