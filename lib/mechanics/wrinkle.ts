/**
 * When goods wrinkle and how high. Shortening drives the height, not force: after wrinkling the force stays where it was at the
 * threshold, the shortening goes on.
 */
import type { Goods } from './goods.js';
import type { TensorField } from './grid.js';
import { compliance, type PlaneStiffness, rotated, stripStiffness } from './laminate.js';

/**
 * Bending stiffness that a long plate of span b, its edges free to turn, sets against a force along axis 1:
 * N_cr = 4π²·D/b² with D = (√(D11·D22) + D12 + 2·D66)/2 (Timoshenko & Gere, *Theory of Elastic Stability*; for an even plate D itself).
 */
export const plateBending = ({ m11, m12, m22, m66 }: PlaneStiffness): number =>
  (Math.sqrt(m11 * m22) + m12 + 2 * m66) / 2;

/** Half a wave of that plate in spans: (D11/D22)^¼. */
export const halfWave = ({ m11, m22 }: PlaneStiffness): number => (m11 / m22) ** 0.25;

/** Compressive strain at which goods of membrane stiffness N/mm and bending stiffness N·mm buckle over a span. */
export const criticalStrain = (k: number, bending: number, membrane: number, spanMm: number): number =>
  (k * Math.PI * Math.PI * bending) / (membrane * spanMm * spanMm);

/**
 * Peak-to-valley height of w = A·cos(2πx/λ) that takes up a shortening e: 2·(λ/π)·√e, the small-slope form
 * (0.3 % high at 1 % shortening, 3 % at 10 %, against the elastica).
 */
export const wrinkleHeight = (shortening: number, wavelengthMm: number): number =>
  (2 * wavelengthMm * Math.sqrt(shortening)) / Math.PI;

/** What goods set against a push along each of {@link DIRECTIONS} directions, evenly from 0 to 180°. */
interface ByDirection {
  readonly membrane: Float64Array;
  readonly bending: Float64Array;
  readonly halfWave: Float64Array;
  readonly stiffestMembrane: number;
  readonly softestBending: number;
}

const DIRECTIONS = 90;

/** Fabric or backing. */
type Layer = NonNullable<Goods['backing']>;

/** The same goods are asked about for many strains. */
const known = new WeakMap<Layer, ByDirection>();

function byDirection(layer: Layer): ByDirection {
  let found = known.get(layer);
  if (!found) {
    found = inEveryDirection(layer);
    known.set(layer, found);
  }
  return found;
}

function inEveryDirection({ membrane, bending }: Layer): ByDirection {
  const soft = compliance(membrane);
  const out = {
    // One entry more than directions: the last is the first again, for interpolation.
    membrane: new Float64Array(DIRECTIONS + 1),
    bending: new Float64Array(DIRECTIONS + 1),
    halfWave: new Float64Array(DIRECTIONS + 1),
  };
  for (let d = 0; d <= DIRECTIONS; d++) {
    const angle = (180 * d) / DIRECTIONS;
    const c = Math.cos((angle * Math.PI) / 180);
    const s = Math.sin((angle * Math.PI) / 180);
    out.membrane[d] = stripStiffness(soft, c * c, s * c);
    const turned = rotated(bending, -angle);
    out.bending[d] = plateBending(turned);
    out.halfWave[d] = halfWave(turned);
  }
  return {
    ...out,
    stiffestMembrane: Math.max(...out.membrane),
    softestBending: Math.min(...out.bending),
  };
}

const NONE = new Float64Array(DIRECTIONS + 1);
const NO_BACKING: ByDirection = {
  membrane: NONE,
  bending: NONE,
  halfWave: NONE,
  stiffestMembrane: 0,
  softestBending: 0,
};
/** Far more than rounding takes away from a bound. */
const SURELY = 1 - 1e-9;

export interface WrinkleInput {
  readonly goods: Goods;
  /** Strain of the goods by sewing (and by the thread drawing in later). */
  readonly strain: TensorField;
  /** Strain by what comes after sewing and cannot smooth the first: release from a stretched hoop, goods that shrink. */
  readonly later: TensorField | null;
  /** 0..1: part of each cell that no thread holds flat. */
  readonly open: Float64Array;
  /** mm to the nearest needle point. */
  readonly toPoint: Float64Array;
  /** 0..1: part of the backing that bends with the goods there because needle points join them. */
  readonly tacked: Float64Array;
  readonly threshold: number;
  readonly longestSpanMm: number;
}

/**
 * Height of the wrinkles at every cell, mm. The free span is the widest stretch between needle points about the place, twice the
 * distance to the nearest one, and no longer than the goods stand free; a wrinkle is two half waves of a plate of that span. Under a
 * cover of thread the goods do not wrinkle: the pull of the thread that lies on them balances their own push.
 */
export function wrinkleMap(input: WrinkleInput): Float64Array {
  const { goods, strain, later, open, toPoint, tacked, threshold, longestSpanMm } = input;
  const fabric = byDirection(goods.fabric);
  const { backing } = goods;
  const sheets = backing ? byDirection(backing) : NO_BACKING;
  const out = new Float64Array(open.length);
  for (let p = 0; p < out.length; p++) {
    if (open[p] === 0 || toPoint[p] === 0) continue;
    let xx = strain.xx[p];
    let yy = strain.yy[p];
    let xy = strain.xy[p];
    let shortening = pressed(xx, yy, xy);
    if (later) {
      const more = pressed(later.xx[p], later.yy[p], later.xy[p]);
      // The wrinkle runs as the stronger of the two has it.
      if (more > shortening) {
        xx = later.xx[p];
        yy = later.yy[p];
        xy = later.xy[p];
      }
      shortening += more;
    }
    shortening *= open[p];
    if (shortening === 0) continue;
    const span = Math.min(longestSpanMm, 2 * toPoint[p]);
    const held = Math.max(0, tacked[p]);
    // Most cells stay flat whichever way they are pushed, and need not be asked which.
    const softest = fabric.softestBending + held * sheets.softestBending;
    const stiffest = fabric.stiffestMembrane + held * sheets.stiffestMembrane;
    if (shortening < SURELY * criticalStrain(threshold, softest, stiffest, span)) continue;
    // The push runs at right angles to the larger principal strain.
    const turn = Math.atan2(-xy, yy - xx) / (2 * Math.PI);
    const at = (turn < 0 ? turn + 1 : turn) * DIRECTIONS;
    const d = Math.min(DIRECTIONS - 1, Math.floor(at));
    const t = at - d;
    const membrane = between(fabric.membrane, d, t) + held * between(sheets.membrane, d, t);
    const bending = between(fabric.bending, d, t) + held * between(sheets.bending, d, t);
    const excess = shortening - criticalStrain(threshold, bending, membrane, span);
    if (excess > 0) out[p] = wrinkleHeight(excess, 2 * span * between(fabric.halfWave, d, t));
  }
  return out;
}

/** Compressive part of the smaller principal strain (xy is γ). */
function pressed(xx: number, yy: number, xy: number): number {
  const difference = xx - yy;
  return Math.max(0, (Math.sqrt(difference * difference + xy * xy) - xx - yy) / 2);
}

const between = (values: Float64Array, d: number, t: number): number =>
  values[d] + t * (values[d + 1] - values[d]);
