/** The words of a profile. */
import type { Accepted } from '../advice/accepted.js';
import type { Shelf } from '../materials/catalogue.js';
import type { Prices } from '../materials/prices.js';
import type { MachineProfile } from '../measure/sew-time.js';
import type { ThreadUse } from '../measure/thread-length.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { LIMITS } from '../vetting/limits.js';

export const PROFILE_KEYS = [
  'limits',
  'machine',
  'thread',
  'places',
  'catalogue',
  'calibration',
  'prices',
  'accept',
] as const;
export const MACHINE_KEYS = [
  'speedSpm',
  'fullSpeedMm',
  'slowestSpm',
  'trimSeconds',
  'colourSeconds',
  'stopSeconds',
] as const satisfies readonly (keyof MachineProfile)[];
export const SHELVES = [
  'fabrics',
  'sheets',
  'toppings',
  'threads',
  'needles',
] as const satisfies readonly Shelf[];
export const CALIBRATION_KEYS = [
  'tension',
  'bedIn',
  'topShare',
  'pointSpring',
  'fabricGrip',
  'ownPoints',
  'hoopForce',
  'longestSpan',
  'sewnThread',
  'cutFibers',
  'perforation',
  'firstWash',
  'scoreHalf',
  'modelError',
  'setupError',
] as const satisfies readonly (keyof MechanicsParameters)[];
export const PRICE_KEYS = [
  'currency',
  'sheets',
  'toppings',
  'threadPer1000m',
  'bobbinPer1000m',
  'machinePerHour',
] as const satisfies readonly (keyof Prices)[];
export const ACCEPT_KEYS = ['grade', 'washedGrade', 'washes'] as const satisfies readonly (keyof Accepted)[];
export const THREAD_KEYS = ['thicknessMm', 'bobbinPerTop'] as const satisfies readonly (keyof ThreadUse)[];
const FIGURE_KEYS = ['value', 'low', 'high', 'basis'] as const;
const PLACE_KEYS = ['name', 'widthMm', 'heightMm', 'frame'] as const;

/** What may stand at a place of the profile, from its top. */
export function allowedKeys(at: readonly string[]): readonly string[] {
  if (at.length === 0) return PROFILE_KEYS;
  if (at[0] === 'limits') return at.length === 1 ? Object.keys(LIMITS) : ['note', 'warn', 'fail'];
  if (at[0] === 'machine') return MACHINE_KEYS;
  if (at[0] === 'thread') return THREAD_KEYS;
  if (at[0] === 'prices') return PRICE_KEYS;
  if (at[0] === 'accept') return ACCEPT_KEYS;
  if (at[0] === 'catalogue') return SHELVES;
  if (at[0] === 'calibration') return at.length === 1 ? CALIBRATION_KEYS : FIGURE_KEYS;
  return PLACE_KEYS;
}
