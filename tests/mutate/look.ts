/** A quick look at what the finder reads and the synthesiser sews; bundled by itself, so that it can be loaded again with one decision changed. */
import type { Design } from '../../lib/format/design.js';
import type { Case } from '../generators/pen.js';
import { flip, type Probe } from '../segment/probe.js';
import { COVER_PROBES } from '../segment/probes-of-cover.js';
import { PLACE_PROBES } from '../segment/probes-of-places.js';
import { THREAD_PROBES } from '../segment/probes-of-threads.js';
import { TOP_PROBES } from '../segment/probes-of-tops.js';
import { UNDERLAY_PROBES } from '../segment/probes-of-underlay.js';
import { digestOf } from '../segment/readings.js';
import { digestOf as digestOfSewn } from '../stitch/sewings.js';

/** As near as `decisions.test.ts` asks for. */
const NEAR = 0.02;

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

const holds = (probe: Probe): boolean =>
  same(probe.read(probe.from), probe.first) &&
  same(probe.read(probe.to), probe.last) &&
  Math.abs(flip(probe) - probe.at) < NEAR * probe.at;

/** Whether designs are read as they were, and decisions still fall where they did. */
export const readsAsBefore = (
  cases: Readonly<Record<string, readonly Case[]>>,
  digests: Readonly<Record<string, string>>,
): boolean =>
  Object.entries(cases).every(([family, c]) => digestOf(c) === digests[family]) &&
  [...THREAD_PROBES, ...TOP_PROBES, ...COVER_PROBES, ...PLACE_PROBES, ...UNDERLAY_PROBES].every(holds);

/** Whether designs are sewn as they were. */
export const sewsAsBefore = (
  designs: Readonly<Record<string, Design>>,
  sewings: Readonly<Record<string, string>>,
): boolean => Object.entries(designs).every(([name, design]) => digestOfSewn(design) === sewings[name]);
