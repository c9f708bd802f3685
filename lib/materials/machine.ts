import { COMMON_PRACTICE, FROM_MEMORY } from '../core/sourced.js';
import type { MachineProfile } from '../measure/sew-time.js';

/** One head of a commercial machine; a shop puts its own figures in its profile. */
export const COMMERCIAL_HEAD: MachineProfile = {
  id: 'commercial-head',
  name: 'commercial head, usual settings',
  speedSpm: { value: 800, low: 600, high: 1000, unit: 'stitches/min', basis: COMMON_PRACTICE },
  fullSpeedMm: { value: 4, low: 3, high: 5, unit: 'mm', basis: FROM_MEMORY },
  longestMm: { value: 12.1, low: 12.1, high: 12.7, unit: 'mm', basis: 'longest move of a three-byte record' },
  slowestSpm: { value: 450, low: 350, high: 550, unit: 'stitches/min', basis: FROM_MEMORY },
  trimSeconds: { value: 7, low: 6, high: 8, unit: 's', basis: COMMON_PRACTICE },
  colourSeconds: { value: 8, low: 6, high: 10, unit: 's', basis: COMMON_PRACTICE },
  stopSeconds: { value: 20, low: 10, high: 60, unit: 's', basis: FROM_MEMORY },
};
