import type { Case } from '../pen.js';
import { AHEAD_FAMILIES } from './ahead.js';
import { APART_FAMILIES } from './apart.js';
import { APPLIQUE_FAMILIES } from './applique.js';
import { AREA_FAMILIES } from './areas.js';
import { BAND_FAMILIES } from './bands.js';
import { COLUMN_FAMILIES } from './columns.js';
import { GROUND_FAMILIES } from './grounds.js';
import { LINE_FAMILIES } from './lines.js';
import { LOGO_FAMILIES } from './logos.js';
import { PASS_FAMILIES } from './passes.js';
import { PATTERNED_FAMILIES } from './patterned.js';
import { SCRIPT_FAMILIES } from './scripts.js';

/** Designs sewn the way production files are, by family: each a pure function of the seed. */
export const PRODUCTION: Record<string, (seed: number) => Case> = {
  ...AHEAD_FAMILIES,
  ...GROUND_FAMILIES,
  ...PASS_FAMILIES,
  ...PATTERNED_FAMILIES,
  ...COLUMN_FAMILIES,
  ...LINE_FAMILIES,
  ...APPLIQUE_FAMILIES,
  ...AREA_FAMILIES,
  ...SCRIPT_FAMILIES,
  ...BAND_FAMILIES,
  ...LOGO_FAMILIES,
  ...APART_FAMILIES,
};

/** Seeds from here on are for the last measurement alone: nothing is tuned by them. */
export const HELD_OUT = 5000;
