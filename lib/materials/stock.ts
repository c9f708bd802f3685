import { COMMON_PRACTICE } from '../core/sourced.js';

/** The sheets that the rules of the trade call for; what a shop keeps where it says nothing. */
export const USUAL_STOCK = {
  ids: [
    'cutaway-2.5oz',
    'tearaway-1.8oz-firm',
    'tearaway-1.8oz-crisp',
    'cap-backing',
    'woven-polyester',
    'soluble-film',
  ],
  basis: COMMON_PRACTICE,
} as const;
