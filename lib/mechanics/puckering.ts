/** A design sewn on a fabric and backing, let go, laundered if it is, and what is then seen of it: one full solve. */
import { type PullIn, pointsMoved, pullIn } from './column-pull.js';
import { SOLVE_OPTIONS, type SolveOptions } from './conjugate-gradients.js';
import type { Layup } from './layup.js';
import type { MeshedDesign } from './meshed-design.js';
import { WrinkleLaw } from './plate-wrinkle.js';
import { type FabricTreatment, Released, type ReleaseLike } from './release.js';
import type { ParameterValues } from './settings.js';
import { type SewnLayers, sew } from './sewing.js';
import { type WrinkleFields, WrinkleView } from './wrinkle-field.js';

export interface Puckering {
  readonly sewn: SewnLayers;
  readonly released: Released;
  readonly fields: WrinkleFields;
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
  /** Steps of sewing nearly like these; or all of it, where nothing but the treatment differs. */
  readonly sewn: SewnLayers | Pick<SewnLayers, 'steps'>;
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
  const sewn = known && 'movement' in known ? known : sew(design, layup, settings, options, known);
  const released = new Released(design, layup, settings, sewn, treatment, options, like?.released);
  const law = new WrinkleLaw(layup.fabric);
  const fields = view.fields(view.strains(released.strain), law, settings.longestSpan);
  const pulls = pullsOf(design, sewn);
  const seen = (field: Float64Array) => view.seenWhole(Float64Array.from(view.cells, (cell) => field[cell]));
  return {
    sewn,
    released,
    fields,
    heightMm: seen(fields.heightMm),
    nearness: seen(fields.nearness),
    pulls,
    narrowingMm: pulls.map(({ alongStitchMm }) => 2 * alongStitchMm),
  };
}

export function pullsOf(design: MeshedDesign, sewn: SewnLayers): PullIn[] {
  const moved = pointsMoved(design, sewn);
  return design.objects.map((object) => pullIn(design.stitches, object, moved));
}
