import type { LaidUnderlay } from '../segment/laid-underlay.js';
import type { UnderlayKind } from '../segment/objects.js';

/** Underlay as an embroiderer calls it, with its article. */
const UNDERLAY: Readonly<Record<LaidUnderlay, string>> = {
  'center-run': 'a centre run',
  'edge-run': 'an edge run',
  'edge-run+fill': 'an edge run and a light fill',
  fill: 'a light fill',
  zigzag: 'a zigzag',
  'double-zigzag': 'a double zigzag',
};

export const underlayWords = (to: LaidUnderlay): string => UNDERLAY[to];

/** The underlay that an object has. */
export const ownUnderlayWords = (kinds: readonly UnderlayKind[]): string =>
  kinds.length === 0 ? 'no underlay' : kinds.map((kind) => UNDERLAY[kind].replace(/^an? /, '')).join(' and ');

export const launderings = (washes: number): string => (washes === 1 ? 'one wash' : `${washes} washes`);
