import { type Catalogue, find } from '../materials/catalogue.js';
import type { Conditions } from '../mechanics/conditions.js';
import { type CautionCode, risk } from './phrases/en/risk.js';

/** What could hurt someone or spoil this fabric: the usual cautions; local rules go before them. */
export function cautionCodes({ fabric, stack, washes }: Conditions, catalogue: Catalogue): CautionCode[] {
  const { cap, washable, holesStay, open, pile } = find(catalogue, 'fabrics', fabric);
  const stays = stack.some(({ sheet }) => !find(catalogue, 'sheets', sheet).perforates);
  return [
    ...(cap ? (['cap-frame'] as const) : []),
    ...(holesStay ? (['holes-stay'] as const) : []),
    ...(!washable && (open || pile) ? (['heat'] as const) : []),
    ...(!washable && washes > 0 ? (['not-for-washing'] as const) : []),
    ...(stays ? (['skin'] as const) : []),
  ];
}

/** The same in English, a sentence each. */
export const cautionsFor = (conditions: Conditions, catalogue: Catalogue): string[] =>
  cautionCodes(conditions, catalogue).map((code) => risk.cautions[code]);
