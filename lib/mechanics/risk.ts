/**
 * The risk that a design puckers on its fabric: score, grade, pull-in and wrinkle height, of the whole and of every object, and how sure they
 * are. Heights and pull-in come from the fine mesh; ranges and causes from the rough one, put on the fine one's level.
 */
import type { Stitches } from '../format/stitches.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import type { HoopField } from '../materials/places.js';
import type { StitchObject } from '../segment/objects.js';
import { Draws, type Sensitivity } from './band.js';
import { type Case, caseOf, type GivenConditions, type MechanicsFigures } from './case.js';
import type { PullIn } from './column-pull.js';
import { type Driver, driversOf } from './drivers.js';
import type { Grid } from './grid.js';
import { type Quantiles, quantilesOf } from './paired-draws.js';
import type { MechanicsParameters } from './parameters.js';
import type { WrinkleLaw } from './plate-wrinkle.js';
import { type PreparedDesign, prepareDesign } from './prepared-design.js';
import { widthInFile } from './ruler.js';
import { gradeOf, scoreOf } from './score.js';
import { SolvedSetup } from './setup.js';
import { type TellingWidth, tellingWidth } from './telling-width.js';
import type { WrinkleView } from './wrinkle-field.js';

export type { GivenConditions } from './case.js';
export { DEFAULT_GRAIN_DEG } from './case.js';

/** A design to prepare. */
export interface DesignToPrepare {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  /** Thread id; `polyester-40` by default. */
  readonly thread?: string;
  /** The hoop it is sewn in; the smallest usual one that holds it by default. */
  readonly hoop?: HoopField;
  /** That one is a cap frame. */
  readonly onCap?: boolean;
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

export interface RangedRisk extends Risk {
  /** Tenth, half and nine tenths of the draws lie below these. */
  readonly wrinkleBandMm: Quantiles;
  /** From the first to the last of them. */
  readonly range: {
    readonly score: [low: number, high: number];
    readonly wrinkleMm: [low: number, high: number];
  };
  /** Heights draw by draw, mm: to compare two results by. */
  readonly draws: Float64Array;
}

export interface DetailedRisk extends RangedRisk {
  readonly drivers: readonly Driver[];
}

export interface ObjectRisk extends DetailedRisk {
  readonly id: number;
  /** What each edge would have to be drawn out by, mm. */
  readonly pullCompensation: PullIn;
}

/** How the fabric wrinkles, cell by cell, row by row from the lower left. */
export interface WrinkleField {
  readonly grid: Grid;
  /** Peak to valley, mm, one a cell. */
  readonly wrinkleMm: Float64Array;
}

/** The same with all that a relief needs. */
export interface RiskMaps extends WrinkleField {
  /** From crest to crest, mm; 0 where it is not pressed. */
  readonly wavelengthMm: Float64Array;
  /** Direction across the crests, degrees in (−90, 90]. */
  readonly acrossDeg: Float64Array;
}

export interface DesignRisk extends DetailedRisk {
  /** Shortening as a part of that at which wrinkles begin, over the worst patch: tells fabrics apart that stay flat. */
  readonly nearness: number;
  /** Of the design's height. */
  readonly sensitivities: readonly Sensitivity[];
  /** The one width that would narrow the band of that height most, measured on a sew-out; null where none narrows it enough. */
  readonly measure: TellingWidth | null;
  readonly objects: readonly ObjectRisk[];
  readonly maps: RiskMaps;
  readonly resolution: { readonly cellMm: number; readonly wantedCellMm: number; readonly met: boolean };
}

export const DEFAULT_THREAD = 'polyester-40';

/**
 * Everything about a design that does not depend on the fabric. Give it to {@link assess} and {@link assessFully} for each fabric and
 * stack.
 * @throws LieflatError `unknown-id` for the thread.
 */
export const prepare = (
  { stitches, objects, thread = DEFAULT_THREAD, hoop, onCap }: DesignToPrepare,
  catalogue: Catalogue,
): PreparedDesign => prepareDesign(stitches, objects, find(catalogue, 'threads', thread), hoop, onCap);

export const riskOf =
  ({ scoreHalf }: MechanicsParameters) =>
  (wrinkleMm: number, pullInMm: number): Risk => {
    const score = scoreOf(wrinkleMm, scoreHalf.value);
    return { score, grade: gradeOf(score), pullInMm, wrinkleMm };
  };

/** `objects` are in the order of the design's. */
export interface QuickRisk extends Risk {
  readonly objects: readonly Risk[];
}

const solve = (design: PreparedDesign, { layup, settings, treatment }: Case): SolvedSetup =>
  new SolvedSetup(design, layup, settings, treatment);

/** Risks of the whole and of every object of a setup. */
export function risksOfSetup({ design, fine }: SolvedSetup, parameters: MechanicsParameters): QuickRisk {
  const risk = riskOf(parameters);
  const [whole, ...ofObjects] = design.fine.seen(fine.heights);
  const objects = ofObjects.map((mm, k) => risk(mm, fine.pulls[k].alongStitchMm));
  const most = objects.reduce((max, { pullInMm }) => Math.max(max, pullInMm), 0);
  return { ...risk(whole, most), objects };
}

/**
 * Score, grade, pull-in and wrinkle height of a prepared design on a fabric.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function assess(
  design: PreparedDesign,
  conditions: GivenConditions,
  figures: MechanicsFigures,
): QuickRisk {
  return risksOfSetup(solve(design, caseOf(conditions, figures)), figures.parameters);
}

/**
 * The same with how the fabric wrinkles cell by cell, of one solve.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function assessWithMaps(
  design: PreparedDesign,
  conditions: GivenConditions,
  figures: MechanicsFigures,
): { risk: QuickRisk; maps: RiskMaps } {
  const setup = solve(design, caseOf(conditions, figures));
  return { risk: risksOfSetup(setup, figures.parameters), maps: mapsOf(setup) };
}

/**
 * How the fabric wrinkles cell by cell and nothing else.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function wrinkleField(
  design: PreparedDesign,
  conditions: GivenConditions,
  figures: MechanicsFigures,
): RiskMaps {
  return mapsOf(solve(design, caseOf(conditions, figures)));
}

/** How the fabric wrinkles on a solved setup. */
export const mapsOf = (setup: SolvedSetup): RiskMaps => mapsLater(setup)();

/** The same made where it is asked for, of what fills little memory until then. */
export function mapsLater({ design, fine: { released }, law, settings }: SolvedSetup): () => RiskMaps {
  return mapsFrom(design.fine, released.strain, law, settings.longestSpan);
}

/** By itself, as what is made later keeps all that it could see. */
const mapsFrom = (view: WrinkleView, strain: Float64Array, law: WrinkleLaw, longestSpanMm: number) => () => {
  const { heightMm, wavelengthMm, acrossDeg } = view.fields(strain, law, longestSpanMm);
  return { grid: view.design.map, wrinkleMm: heightMm, wavelengthMm, acrossDeg };
};

/**
 * The drivers of the whole design alone, strongest first.
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function designDrivers(
  design: PreparedDesign,
  conditions: GivenConditions,
  figures: MechanicsFigures,
): readonly Driver[] {
  const at = caseOf(conditions, figures);
  return driversOf(at, solve(design, at))[0];
}

/** A risk with its band. */
export function ranged(risk: Risk, draws: Float64Array, { scoreHalf }: MechanicsParameters): RangedRisk {
  const band = quantilesOf(draws);
  return {
    score: risk.score,
    grade: risk.grade,
    pullInMm: risk.pullInMm,
    wrinkleMm: risk.wrinkleMm,
    wrinkleBandMm: band,
    range: {
      score: [scoreOf(band[0], scoreHalf.value), scoreOf(band[2], scoreHalf.value)],
      wrinkleMm: [band[0], band[2]],
    },
    draws,
  };
}

/** {@link assess} with drivers, ranges, pull compensation and maps. */
export function assessFully(
  design: PreparedDesign,
  conditions: GivenConditions,
  figures: MechanicsFigures,
): DesignRisk {
  const { parameters } = figures;
  const at = caseOf(conditions, figures);
  const setup = solve(design, at);
  const base = risksOfSetup(setup, parameters);
  // All that follows is solved on the rough mesh.
  setup.forgetFine();
  const all = new Draws(at, setup, parameters);
  const draws = all.heights();
  const drivers = driversOf(at, setup);
  const detailed = (risk: Risk, k: number): DetailedRisk => ({
    ...ranged(risk, draws[k], parameters),
    drivers: drivers[k],
  });
  const { cellMm } = design.fine.design.mesh.even;
  return {
    ...detailed(base, 0),
    nearness: setup.fine.nearness,
    sensitivities: all.sensitivities(),
    measure: measureOf(design, draws[0], all.narrowings()),
    objects: base.objects.map((risk, k) => ({
      ...detailed(risk, k + 1),
      id: design.objects[k].id,
      pullCompensation: setup.fine.pulls[k],
    })),
    maps: mapsOf(setup),
    resolution: {
      cellMm,
      wantedCellMm: design.wantedCellMm,
      met: cellMm <= design.wantedCellMm * (1 + 1e-9),
    },
  };
}

function measureOf(
  { stitches, objects }: PreparedDesign,
  heights: Float64Array,
  narrowings: readonly Float64Array[],
): TellingWidth | null {
  const measurable = objects.flatMap((object, k) => {
    const inFile = widthInFile(stitches, object);
    return inFile ? [{ id: object.id, inFile, narrowingMm: narrowings[k] }] : [];
  });
  return tellingWidth(heights, measurable);
}
