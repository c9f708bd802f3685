import { COMMON_PRACTICE, FROM_MEMORY } from '../core/sourced.js';
import type { ThreadUse } from '../measure/thread-length.js';

/** A shirt over one sheet of backing, sewn with the bobbin showing in the middle third of the reverse. */
export const USUAL_THREAD_USE: ThreadUse = {
  thicknessMm: { value: 0.5, low: 0.3, high: 1.2, unit: 'mm', basis: FROM_MEMORY },
  bobbinPerTop: { value: 1 / 3, low: 0.25, high: 0.4, unit: '', basis: COMMON_PRACTICE },
};
