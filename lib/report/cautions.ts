import { RULE_LIMITS } from '../advice/rule-limits.js';
import { type Catalogue, find } from '../materials/catalogue.js';
import type { Fabric } from '../materials/fabric.js';
import type { Conditions, NamedGarment } from '../mechanics/conditions.js';
import { type CautionCode, risk } from './phrases/en/risk.js';

/** Words for what is worn over other clothes, or not worn at all (common practice, no source). */
const NOT_ON_SKIN =
  /\b(jacket|coat|raincoat|windbreaker|breaker|vest|shell|cap|hat|snapback|visor|tote|bag|duffel|backpack|canvas|towel|apron|blanket|umbrella|patch|necktie|tie|napkin|curtain|tablecloth)s?\b/i;

/** Whether the back of the stitching lies on skin: by the name of the garment; where the fabric alone is known, by what it is made into. */
function isWornOnSkin(
  { cap, rigid, holesStay, pile, structure, mass }: Fabric,
  garment: NamedGarment | null,
): boolean {
  if (cap || rigid || holesStay) return false;
  if (garment !== null) return !NOT_ON_SKIN.test(garment.name);
  return structure === 'knit' || (!pile && mass.value < RULE_LIMITS.heavyMass.value);
}

/** What could hurt someone or spoil this fabric: the usual cautions; local rules go before them. */
export function cautionCodes(
  { fabric, garment, stack, washes }: Conditions,
  catalogue: Catalogue,
): CautionCode[] {
  const made = find(catalogue, 'fabrics', fabric);
  const { cap, washable, holesStay, open, pile } = made;
  const stays = stack.some(({ sheet }) => !find(catalogue, 'sheets', sheet).perforates);
  return [
    ...(cap ? (['cap-frame'] as const) : []),
    ...(holesStay ? (['holes-stay'] as const) : []),
    ...(!washable && (open || pile) ? (['heat'] as const) : []),
    ...(!washable && washes > 0 ? (['not-for-washing'] as const) : []),
    ...(stays && isWornOnSkin(made, garment) ? (['skin'] as const) : []),
  ];
}

/** The same in English, a sentence each. */
export const cautionsFor = (conditions: Conditions, catalogue: Catalogue): string[] =>
  cautionCodes(conditions, catalogue).map((code) => risk.cautions[code]);
