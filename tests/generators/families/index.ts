import type { Case } from '../pen.js';
import { FILL_FAMILIES } from './fills.js';
import { LETTER_FAMILIES } from './letterings.js';
import { PLAIN_FAMILIES } from './plain.js';
import { RUN_FAMILIES } from './runs.js';
import { SATIN_FAMILIES, satinUnderlay } from './satins.js';
import { SEQUENCE_FAMILIES } from './sequences.js';

/** Every family of designs by name: a pure function of the seed. */
export const FAMILIES: Record<string, (seed: number) => Case> = {
  ...SATIN_FAMILIES,
  ...FILL_FAMILIES,
  ...RUN_FAMILIES,
  'underlay-satin': satinUnderlay,
  ...PLAIN_FAMILIES,
  ...LETTER_FAMILIES,
  ...SEQUENCE_FAMILIES,
};
