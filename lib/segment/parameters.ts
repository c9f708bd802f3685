/**
 * Every figure by which the finder decides: one table, a part of it for each step. A step reads its figures once, when it is
 * loaded, into constants of its own.
 */
import { AREAS } from './parameters/areas.js';
import { COVER } from './parameters/cover.js';
import { LEGS } from './parameters/legs.js';
import { MEANING } from './parameters/meaning.js';
import { PATCHES } from './parameters/patches.js';
import { THREADS } from './parameters/threads.js';
import { TOPS } from './parameters/tops.js';
import { UNDERLAY } from './parameters/underlay.js';

export { cosineOf } from './parameters/figure.js';

export const FINDER = {
  ...THREADS,
  ...LEGS,
  ...PATCHES,
  ...TOPS,
  ...AREAS,
  ...COVER,
  ...UNDERLAY,
  ...MEANING,
} as const;
