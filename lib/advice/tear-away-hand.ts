import type { Sheet } from '../materials/sheets.js';

/** How a tear-away feels, which is what the trade chooses it by. */
export type TearAwayHand = 'firm' | 'crisp' | 'card';

const HANDS: Readonly<Record<string, TearAwayHand>> = {
  'tearaway-1.8oz-firm': 'firm',
  'tearaway-1.8oz-crisp': 'crisp',
  'cap-backing': 'card',
};

/** The hand of a tear-away; one that a shop added counts as firm. Null for other sheets. */
export const tearAwayHand = ({ id, kind }: Sheet): TearAwayHand | null =>
  kind === 'tear-away' ? (HANDS[id] ?? 'firm') : null;
