/** A design sewn on a fabric and backing, let go, laundered if it is, and what is then seen of it: one full solve. */
import { type PullIn, pointsMoved, pullIn } from './column-pull.js';
import { SOLVE_OPTIONS, type SolveOptions } from './conjugate-gradients.js';
import type { Layup } from './layup.js';
import type { MeshedDesign } from './meshed-design.js';
import { WrinkleLaw } from './plate-wrinkle.js';
import { type FabricTreatment, Released, type ReleaseLike } from './release.js';
import type { ParameterValues } from './settings.js';
import { type HeldLayers, type SewnLayers, type StepsLike, sew } from './sewing.js';
import { SolveRoom } from './solve-room.js';
import { WrinkleView } from './wrinkle-field.js';

export interface Puckering {
  readonly sewn: HeldLayers;
  readonly released: Released;
  /** At the cells of the view, mm. */
  readonly heights: Float64Array;
  /** Height of the wrinkles over the worst patch, peak to valley, mm. */
  readonly heightMm: number;
  /** Shortening there as a part of what makes wrinkles begin: ranks fabrics that all stay flat. */
  readonly nearness: number;
  readonly pulls: readonly PullIn[];
  /** How much narrower each object gets along its stitches, both edges together, mm. */
  readonly narrowingMm: readonly number[];
}

export const AS_SEWN: FabricTreatment = { hoopStretch: 0, laundered: 0 };

/** What is known before a solve. */
export interface PuckeringLike {
  /** Steps of sewing nearly like those to be found; or what came of it, where nothing but the treatment differs. */
  readonly sewn: StepsLike | Pick<Puckering, 'sewn' | 'pulls'>;
  readonly released: ReleaseLike;
}

export function puckering(
  design: MeshedDesign,
  layup: Layup,
  settings: ParameterValues,
  treatment: FabricTreatment = AS_SEWN,
  options: SolveOptions = SOLVE_OPTIONS,
  like?: PuckeringLike,
  view: WrinkleView = new WrinkleView(design),
): Puckering {
  const known = like?.sewn;
  const roomy = { ...options, room: new SolveRoom() };
  const { sewn, pulls } = typeof known === 'object' ? known : sewnOn(design, layup, settings, roomy, known);
  const released = new Released(design, layup, settings, sewn, treatment, roomy, like?.released);
  const law = new WrinkleLaw(layup.fabric);
  const { heightMm, nearness } = view.wrinkles(released.strain, law, settings.longestSpan);
  return {
    sewn,
    released,
    heights: heightMm,
    heightMm: view.seenWhole(heightMm),
    nearness: view.seenWhole(nearness),
    pulls,
    narrowingMm: pulls.map(({ alongStitchMm }) => 2 * alongStitchMm),
  };
}

/** No more of it than is looked at once the hoop lets go. */
function sewnOn(...on: Parameters<typeof sew>): Pick<Puckering, 'sewn' | 'pulls'> {
  const all = sew(...on);
  return {
    sewn: { movement: all.movement, layerForces: all.layerForces },
    pulls: pullsOf(on[0], all),
  };
}

export function pullsOf(design: MeshedDesign, sewn: SewnLayers): PullIn[] {
  const moved = pointsMoved(design, sewn);
  return design.objects.map((object) => pullIn(design.stitches, object, moved));
}
