import { COMMON_PRACTICE } from '../core/sourced.js';

/** Backing to reckon with where nobody says which: for about nine jobs in ten, and when in doubt. */
export const USUAL_SHEET = { id: 'cutaway-2.5oz', basis: COMMON_PRACTICE } as const;
