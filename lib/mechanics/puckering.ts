/** A design sewn on some fabric and backing, let go, laundered if it is, and what is then seen of it: one full solve. */
import { narrowing, pointsMoved } from './column-pull.js';
import type { SolveOptions } from './conjugate-gradients.js';
import type { Goods } from './goods.js';
import type { MeshedDesign } from './meshed-design.js';
import { type Released, release, type Treatment } from './release.js';
import { type Sewn, sew } from './sewing.js';
import type { SewingSettings } from './sewing-settings.js';
import { type WrinkleFields, worstPatchOf, wrinkleFields } from './wrinkle-field.js';

export interface Puckering {
  readonly sewn: Sewn;
  readonly released: Released;
  readonly fields: WrinkleFields;
  /** Height of the wrinkles over the worst patch, peak to valley, mm. */
  readonly heightMm: number;
  /** Shortening there as a part of what makes wrinkles begin: ranks fabrics that all stay flat. */
  readonly nearness: number;
  /** How much narrower each object gets along its stitches, both edges together, mm. */
  readonly narrowingMm: readonly number[];
}

export const AS_SEWN: Treatment = { hoopStretch: 0, laundered: 0 };

export function puckering(
  design: MeshedDesign,
  goods: Goods,
  settings: SewingSettings,
  treatment: Treatment = AS_SEWN,
  options?: SolveOptions,
): Puckering {
  const sewn = sew(design, goods, settings, options);
  const released = release(design, goods, settings, sewn, treatment, options);
  const fields = wrinkleFields(design, goods, settings.longestSpan, released.strain);
  const moved = pointsMoved(design, sewn);
  const seen = (field: Float64Array) => worstPatchOf(field, design.open, design.map.cellMm);
  return {
    sewn,
    released,
    fields,
    heightMm: seen(fields.heightMm),
    nearness: seen(fields.nearness),
    narrowingMm: design.objects.map((object) => narrowing(design.stitches, object, moved)),
  };
}
