/**
 * What the model says of one sew-out for any values of the free parameters, from a few solves.
 *
 * Strains after the release are linear in three things as long as the same threads pull: they go with the tension, but for what the hoop's
 * stretch leaves, and laundering adds a part for what has shrunk. How firmly needle points hold wants a solve each for a softer and a firmer hold; between
 * them strains and pull-in go along a parabola over its logarithm. The longest span only needs the wrinkles anew. Differences by the hold are
 * told from the rough mesh; one solve on the fine one puts heights and pull-in on their level.
 */
import type { Catalogue } from '../materials/catalogue.js';
import { caseOf, type GoodsPlan, launderedPart } from '../mechanics/case.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import type { PreparedDesign } from '../mechanics/prepared-design.js';
import { AS_SEWN, pullsOf } from '../mechanics/puckering.js';
import { Released, type Treatment } from '../mechanics/release.js';
import { settingsOf } from '../mechanics/settings.js';
import { levelOf, SolvedSetup } from '../mechanics/setup.js';
import { WrinkleView, worstPatch } from '../mechanics/wrinkle-field.js';
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

const SHRUNK: Treatment = { hoopStretch: 0, laundered: 1 };
/** How far from the middle the softer and the firmer hold are solved, as parts of how far a fit may go. */
const SOLVED_AT = 0.7;

/**
 * One model for each of some counts of launderings of a design on the same fabric and backing; the solves serve all of them.
 * @param leveled false where differences between settings are all that is wanted: no solve on the fine mesh
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export function sewOutModels(
  design: PreparedDesign,
  plan: Pick<GoodsPlan, 'fabric' | 'stack'>,
  washes: readonly number[],
  settings: ModelSettings,
  leveled: boolean,
): Map<number, SewOutModel> {
  const { catalogue, parameters } = settings;
  const { goods } = caseOf(plan, catalogue, parameters);
  const washed = caseOf({ ...plan, washes: 1 }, catalogue, parameters).goods;
  // What the first wash takes out of the stack leaves other goods.
  const same = goods.sheets.length === washed.sheets.length;
  const fresh = washes.filter((n) => same || n === 0);
  const later = washes.filter((n) => !fresh.includes(n));
  return new Map([
    ...(fresh.length > 0 ? modelsOf(design, goods, fresh, settings, leveled) : []),
    ...(later.length > 0 ? modelsOf(design, washed, later, settings, leveled) : []),
  ]);
}

type Goods = SolvedSetup['goods'];

function modelsOf(
  design: PreparedDesign,
  goods: Goods,
  washes: readonly number[],
  settings: ModelSettings,
  leveled: boolean,
): [number, SewOutModel][] {
  const space = new StrainSpace(design, goods, settings, Math.max(...washes) > 0, leveled);
  return washes.map((n) => [
    n,
    {
      height: (values) => space.height(values, launderedPart(values.firstWash, n), values.longestSpan),
      narrowing: (object, values) =>
        space.narrowing(
          design.objects.findIndex(({ id }) => id === object),
          values,
        ),
    },
  ]);
}

/** A figure, or what to add to one, at a softer hold of needle points, the middle and a firmer one. */
interface OverHold {
  readonly softer: number;
  readonly middle: number;
  readonly firmer: number;
}

/** @param at −1 at the softer, 0 in the middle, 1 at the firmer one */
const parabola = ({ softer, middle, firmer }: OverHold, at: number): number =>
  middle + (at * (firmer - softer)) / 2 + (at * at * (firmer + softer - 2 * middle)) / 2;

type Sewing = Pick<FreeValues, 'tension' | 'pointSpring'>;
const MOST_KNOWN = 64;

/** Strains at the cells of the rough view, and how much narrower objects get, as far as parameters move them. */
class StrainSpace {
  private readonly base: SolvedSetup;
  /** By what the logarithm of the needle points' hold goes up or down from the middle to where it is solved. */
  private readonly step: number;
  private readonly hooped: Float64Array;
  private readonly sewn: { readonly [At in keyof OverHold]: Float64Array };
  /** What shrinking in full adds. */
  private readonly shrunk: Float64Array | null;
  private readonly narrower: readonly OverHold[];
  private readonly kept: Int32Array;
  private readonly known = new Map<string, number>();
  private readonly level: number;

  constructor(
    private readonly design: PreparedDesign,
    goods: Goods,
    { parameters, priors }: ModelSettings,
    launders: boolean,
    leveled: boolean,
  ) {
    const { rough } = design;
    const settings = settingsOf(parameters);
    const base = new SolvedSetup(design, goods, settings, AS_SEWN);
    this.base = base;
    this.step = SOLVED_AT * (priors.pointSpring.centre - priors.pointSpring.low);
    const heldBy = (steps: number) => {
      const pointSpring = settings.pointSpring * Math.exp(steps * this.step);
      return goods.backing
        ? new SolvedSetup(design, goods, { ...settings, pointSpring }, AS_SEWN, base)
        : base;
    };
    const [softer, firmer] = [heldBy(-1), heldBy(1)];
    this.hooped = rough.strains(base.released.partOf('careful hooping'));
    const fine = leveled ? finely(design, base.fine.released) : null;
    const toFine = fine && minus(fine, base.strains);
    // Laundering wrinkles other cells than sewing, nearer and farther from the stitching: a difference of the rough mesh is not enough.
    const washed =
      launders &&
      (fine
        ? finely(design, laundered(base))
        : new SolvedSetup(design, goods, settings, SHRUNK, base).strains);
    this.shrunk = washed ? minus(washed, fine ?? base.strains) : null;
    const leveledStrains = (strains: Float64Array) =>
      toFine ? strains.map((v, k) => v + toFine[k]) : strains;
    this.sewn = {
      softer: leveledStrains(softer.strains),
      middle: leveledStrains(base.strains),
      firmer: leveledStrains(firmer.strains),
    };
    const along = [softer, base, firmer].map(({ sewn }) => pullsOf(rough.design, sewn));
    this.narrower = design.objects.map((_, k) => {
      const [soft, middle, firm] = along.map((pulls) => 2 * pulls[k].alongStitchMm);
      const off = leveled ? 2 * base.fine.pulls[k].alongStitchMm - middle : 0;
      return { softer: soft + off, middle: middle + off, firmer: firm + off };
    });
    this.kept = this.thatMayWrinkle(Math.exp(priors.tension.high), Math.exp(priors.longestSpan.high));
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
      const { kept, design } = this;
      const heights = this.heights(kept, { tension, pointSpring }, shrunk, longestSpan);
      height = this.level * worstPatch(heights, design.rough.area, kept);
      this.known.set(key, height);
    }
    return height;
  }

  narrowing(object: number, { tension, pointSpring }: Sewing): number {
    return (tension / this.base.settings.tension) * parabola(this.narrower[object], this.hold(pointSpring));
  }

  /** Where a hold lies: −1 at the softer, 1 at the firmer one. */
  private hold(pointSpring: number): number {
    return Math.log(pointSpring / this.base.settings.pointSpring) / this.step;
  }

  private heights(
    cells: Int32Array,
    { tension, pointSpring }: Sewing,
    laundered: number,
    longestSpan: number,
  ): Float64Array {
    const { base, hooped, sewn, shrunk, design } = this;
    const times = tension / base.settings.tension;
    const at = this.hold(pointSpring);
    const there = new Float64Array(3 * cells.length);
    for (let m = 0, k = 0; m < cells.length; m++)
      for (let q = 3 * cells[m]; q < 3 * cells[m] + 3; q++) {
        const { softer, middle, firmer } = sewn;
        const one = parabola({ softer: softer[q], middle: middle[q], firmer: firmer[q] }, at);
        // What the hoop's stretch leaves hangs on no thread.
        there[k++] = times * one + (1 - times) * hooped[q] + (shrunk ? laundered * shrunk[q] : 0);
      }
    const out = new Float64Array(design.rough.cells.length);
    design.rough.heightsAt(cells, there, base.law, longestSpan, out);
    return out;
  }

  /** Cells that wrinkle for some values. */
  private thatMayWrinkle(tension: number, longestSpan: number): Int32Array {
    const { design, base, step, shrunk } = this;
    const all = Int32Array.from(design.rough.cells.keys());
    const most = new Float64Array(all.length);
    for (const steps of [-1, 0, 1])
      for (const laundered of shrunk ? [0, 1] : [0]) {
        const pointSpring = base.settings.pointSpring * Math.exp(steps * step);
        const heights = this.heights(all, { tension, pointSpring }, laundered, longestSpan);
        for (let m = 0; m < most.length; m++) most[m] = Math.max(most[m], heights[m]);
      }
    return all.filter((m) => most[m] > 0);
  }
}

const minus = (a: Float64Array, b: Float64Array): Float64Array => a.map((v, k) => v - b[k]);

/** The fine solve of a setup, laundered until nothing shrinks any more. */
const laundered = ({ design, goods, settings, fine: { sewn, released } }: SolvedSetup): Released =>
  new Released(design.fine.design, goods, settings, sewn, SHRUNK, undefined, released.like);

/** Strains of the fine mesh at the cells of the rough view. */
function finely({ fine, rough }: PreparedDesign, { strain }: Released): Float64Array {
  return new WrinkleView({ ...rough.design, mesh: fine.design.mesh }).strains(strain);
}
