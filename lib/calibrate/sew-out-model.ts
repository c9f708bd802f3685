/**
 * What the model says of one sew-out for any values of the free parameters, from a few solves.
 *
 * Strains after the release are linear in three things as long as the same threads pull: they go with the tension, but for what the hoop's
 * stretch leaves, and laundering adds a part for what has shrunk. How firmly needle points hold wants a solve each for a softer and a firmer hold; between
 * them strains and pull-in go along a parabola over its logarithm. The longest span only needs the wrinkles anew. Differences by the hold are
 * told from the rough mesh; one solve on the fine one puts heights and pull-in on their level.
 */
import type { Catalogue } from '../materials/catalogue.js';
import { caseOf, type GivenConditions, launderedPart } from '../mechanics/case.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import type { PreparedDesign } from '../mechanics/prepared-design.js';
import { AS_SEWN, pullsOf } from '../mechanics/puckering.js';
import { type FabricTreatment, Released } from '../mechanics/release.js';
import { settingsOf } from '../mechanics/settings.js';
import { levelOf, SolvedSetup } from '../mechanics/setup.js';
import { type StrainCase, StrainSpace } from '../mechanics/strain-space.js';
import { WrinkleView } from '../mechanics/wrinkle-field.js';
import type { FreeName, FreeValues, Prior } from './free-parameters.js';

export interface SewOutModel {
  /** Height of the worst patch of the whole design, mm. */
  height(values: Omit<FreeValues, 'scoreHalf'>): number;
  /** By how much an object gets narrower along its stitches, both edges together, mm. */
  narrowing(object: number, values: Pick<FreeValues, 'tension' | 'pointSpring'>): number;
}

export interface ModelSettings {
  readonly catalogue: Catalogue;
  /** What is not free, and what the free ones are changed from. */
  readonly parameters: MechanicsParameters;
  readonly priors: Readonly<Record<FreeName, Prior>>;
}

const SHRUNK: FabricTreatment = { hoopStretch: 0, laundered: 1 };
/** How far from the middle the softer and the firmer hold are solved, as parts of how far a fit may go. */
const SOLVED_AT = 0.7;

/**
 * One model for each of some counts of launderings of a design on the same fabric and backing; the solves serve all of them.
 * @param leveled false where differences between settings are all that is wanted: no solve on the fine mesh
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export function sewOutModels(
  design: PreparedDesign,
  plan: Pick<GivenConditions, 'fabric' | 'stack'>,
  washes: readonly number[],
  settings: ModelSettings,
  leveled: boolean,
): Map<number, SewOutModel> {
  const { catalogue, parameters } = settings;
  const { layup } = caseOf(plan, { catalogue, parameters });
  const washed = caseOf({ ...plan, washes: 1 }, { catalogue, parameters }).layup;
  // What the first wash takes out of the stack leaves another layup.
  const same = layup.sheets.length === washed.sheets.length;
  const fresh = washes.filter((n) => same || n === 0);
  const later = washes.filter((n) => !fresh.includes(n));
  return new Map([
    ...(fresh.length > 0 ? modelsOf(design, layup, fresh, settings, leveled) : []),
    ...(later.length > 0 ? modelsOf(design, washed, later, settings, leveled) : []),
  ]);
}

type SolvedLayup = SolvedSetup['layup'];

function modelsOf(
  design: PreparedDesign,
  layup: SolvedLayup,
  washes: readonly number[],
  settings: ModelSettings,
  leveled: boolean,
): [number, SewOutModel][] {
  const solves = new Solves(design, layup, settings, Math.max(...washes) > 0, leveled);
  return washes.map((n) => [
    n,
    {
      height: (values) => solves.height(values, launderedPart(values.firstWash, n), values.longestSpan),
      narrowing: (object, values) =>
        solves.narrowing(
          design.objects.findIndex(({ id }) => id === object),
          values,
        ),
    },
  ]);
}

/** Numbers at a softer hold of needle points, the middle and a firmer one, as a parabola over the logarithm of the hold. */
class OverHold {
  readonly slope: Float64Array;
  readonly curve: Float64Array;

  constructor(
    softer: Float64Array,
    readonly middle: Float64Array,
    firmer: Float64Array,
  ) {
    this.slope = middle.map((_, k) => (firmer[k] - softer[k]) / 2);
    this.curve = middle.map((mid, k) => (firmer[k] + softer[k] - 2 * mid) / 2);
  }

  /** @param at −1 at the softer, 0 in the middle, 1 at the firmer one */
  value(k: number, at: number): number {
    return this.middle[k] + at * this.slope[k] + at * at * this.curve[k];
  }
}

type Sewing = Pick<FreeValues, 'tension' | 'pointSpring'>;
const MOST_KNOWN = 64;

/** Heights of a design, and how much narrower objects get, as far as parameters move them. */
class Solves {
  private readonly base: SolvedSetup;
  /** By what the logarithm of the needle points' hold goes up or down from the middle to where it is solved. */
  private readonly step: number;
  private readonly space: StrainSpace;
  private readonly narrower: OverHold;
  private readonly known = new Map<string, number>();
  private readonly level: number;

  constructor(
    private readonly design: PreparedDesign,
    layup: SolvedLayup,
    { parameters, priors }: ModelSettings,
    launders: boolean,
    leveled: boolean,
  ) {
    const { rough } = design;
    const settings = settingsOf(parameters);
    const base = new SolvedSetup(design, layup, settings, AS_SEWN);
    this.base = base;
    this.step = SOLVED_AT * (priors.pointSpring.centre - priors.pointSpring.low);
    const heldBy = (steps: number) => {
      const pointSpring = settings.pointSpring * Math.exp(steps * this.step);
      return layup.backing
        ? new SolvedSetup(design, layup, { ...settings, pointSpring }, AS_SEWN, base)
        : base;
    };
    const [softer, firmer] = [heldBy(-1), heldBy(1)];
    const fine = leveled ? finely(design, base.fine.released) : null;
    const strains = (one: SolvedSetup) =>
      fine ? one.strains.map((v, k) => v + fine[k] - base.strains[k]) : one.strains;
    const sewn = new OverHold(strains(softer), strains(base), strains(firmer));
    // Laundering wrinkles other cells than sewing, nearer and farther from the stitching: a difference of the rough mesh is not enough.
    const washed =
      launders &&
      (fine
        ? finely(design, laundered(base))
        : new SolvedSetup(design, layup, settings, SHRUNK, base).strains);
    const fields = [
      sewn.middle,
      sewn.slope,
      sewn.curve,
      rough.strains(base.released.partOf('careful hooping')),
      ...(washed ? [washed.map((v, k) => v - (fine ?? base.strains)[k])] : []),
    ];
    const most = {
      tension: Math.exp(priors.tension.high),
      longestSpan: Math.exp(priors.longestSpan.high),
    };
    const farthest = [-1, 0, 1].flatMap((steps) =>
      [0, 1].map((shrunk) =>
        this.strainCase(
          { ...most, pointSpring: settings.pointSpring * Math.exp(steps * this.step) },
          shrunk,
          most.longestSpan,
        ),
      ),
    );
    this.space = new StrainSpace(rough, fields, farthest);
    const narrower = ({ sewn }: SolvedSetup) =>
      Float64Array.from(pullsOf(rough.design, sewn), ({ alongStitchMm }, k) => {
        const off = leveled ? base.fine.pulls[k].alongStitchMm - roughly[k].alongStitchMm : 0;
        return 2 * (alongStitchMm + off);
      });
    const roughly = pullsOf(rough.design, base.sewn);
    this.narrower = new OverHold(narrower(softer), narrower(base), narrower(firmer));
    this.level = 1;
    if (leveled) this.level = levelOf(base.fine.heightMm, this.height(settings, 0, settings.longestSpan));
    this.known.clear();
  }

  /** @param shrunk part of the final shrinkage that has come about */
  height({ tension, pointSpring }: Sewing, shrunk: number, longestSpan: number): number {
    // One sew-out may have many readings, and a fit asks for each of them.
    const key = `${tension} ${pointSpring} ${shrunk} ${longestSpan}`;
    let height = this.known.get(key);
    if (height === undefined) {
      if (this.known.size > MOST_KNOWN) this.known.clear();
      const heights = this.space.heights(this.strainCase({ tension, pointSpring }, shrunk, longestSpan));
      height = this.level * this.design.rough.seenWhole(heights);
      this.known.set(key, height);
    }
    return height;
  }

  narrowing(object: number, { tension, pointSpring }: Sewing): number {
    return (tension / this.base.settings.tension) * this.narrower.value(object, this.hold(pointSpring));
  }

  /** Where a hold lies: −1 at the softer, 1 at the firmer one. */
  private hold(pointSpring: number): number {
    return Math.log(pointSpring / this.base.settings.pointSpring) / this.step;
  }

  private strainCase({ tension, pointSpring }: Sewing, shrunk: number, longestSpanMm: number): StrainCase {
    const times = tension / this.base.settings.tension;
    const at = this.hold(pointSpring);
    // What the hoop's stretch leaves hangs on no thread.
    return {
      times: [times, times * at, times * at * at, 1 - times, shrunk],
      law: this.base.law,
      longestSpanMm,
    };
  }
}

/** The fine solve of a setup, laundered until nothing shrinks any more. */
const laundered = ({ design, layup, settings, fine: { sewn, released } }: SolvedSetup): Released =>
  new Released(design.fine.design, layup, settings, sewn, SHRUNK, undefined, released.like);

/** Strains of the fine mesh at the cells of the rough view. */
function finely({ fine, rough }: PreparedDesign, { strain }: Released): Float64Array {
  return new WrinkleView({ ...rough.design, mesh: fine.design.mesh }).strains(strain);
}
