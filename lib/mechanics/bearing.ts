/** What part of every sheet bears at each place. */
import type { VaryingStiffness } from './field.js';
import type { Goods } from './goods.js';
import { type PlaneStiffness, plus } from './laminate.js';
import type { PreparedDesign } from './prepared-design.js';
import { engagement, perforated } from './tacking.js';

/** The parameters that decide it, in the units of {@link MechanicsParameters}. */
export interface TackingSettings {
  readonly fullTacking: number;
  readonly hooped: number;
  readonly ownPoints: number;
  readonly perforation: number;
}

/** Parts of one at every cell: of a sheet that holds together, and of one that the needle holes weaken. */
export interface Shares {
  readonly engaged: Float64Array;
  readonly torn: Float64Array;
}

/** `torn` is `engaged` itself where no sheet perforates: pass false to save the work. */
export function sharesOf(
  { underlayPoints, topPoints }: PreparedDesign,
  settings: TackingSettings,
  perforates: boolean,
): Shares {
  const { fullTacking, hooped, ownPoints, perforation } = settings;
  const engaged = engagement(
    underlayPoints.map((n, p) => n + ownPoints * topPoints[p]),
    fullTacking,
    hooped,
  );
  if (!perforates) return { engaged, torn: engaged };
  const left = perforated(
    underlayPoints.map((n, p) => n + topPoints[p]),
    perforation,
  );
  return { engaged, torn: engaged.map((e, p) => e * left[p]) };
}

/** The goods as the hoop alone holds them. */
export function hoopedStiffness({ fabric, sheets }: Goods, hooped: number): PlaneStiffness {
  let sum = fabric.membrane;
  for (const { membrane } of sheets) sum = plus(sum, membrane, hooped);
  return sum;
}

/** Engagement, and the goods with every sheet as it bears at each place. */
export function bearing(
  design: PreparedDesign,
  goods: Goods,
  settings: TackingSettings,
): { engaged: Float64Array; stiffness: VaryingStiffness; hooped: PlaneStiffness } {
  const { engaged, torn } = sharesOf(
    design,
    settings,
    goods.sheets.some(({ perforates }) => perforates),
  );
  const hooped = hoopedStiffness(goods, settings.hooped);
  const parts = goods.sheets.map(({ membrane, perforates }) => ({
    stiffness: membrane,
    share: perforates ? torn : engaged,
  }));
  return { engaged, hooped, stiffness: { base: goods.fabric.membrane, parts, beyond: hooped } };
}
