import type { UnderlayKind } from '../segment/objects.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { UNDERLAY_NAMES } from '../vetting/words.js';

/** Underlay to be laid, with its article. */
const UNDERLAY: Readonly<Record<LaidUnderlay, string>> = {
  'center-run': `a ${UNDERLAY_NAMES['center-run']}`,
  'edge-run': `an ${UNDERLAY_NAMES['edge-run']}`,
  'edge-run+fill': `an ${UNDERLAY_NAMES['edge-run']} and a ${UNDERLAY_NAMES.fill}`,
  fill: `a ${UNDERLAY_NAMES.fill}`,
  zigzag: `a ${UNDERLAY_NAMES.zigzag}`,
  'double-zigzag': `a ${UNDERLAY_NAMES['double-zigzag']}`,
};

export const underlayWords = (to: LaidUnderlay): string => UNDERLAY[to];

/** The underlay that an object has. */
export function ownUnderlayWords(kinds: readonly UnderlayKind[]): string {
  const names = kinds.map((kind) => UNDERLAY_NAMES[kind]);
  if (names.length < 2) return names[0] ?? 'no underlay';
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** Lower than this prints as no wrinkle at all, mm. */
export const NO_WRINKLE_MM = 0.005;

export const launderings = (washes: number): string => (washes === 1 ? 'one wash' : `${washes} washes`);
