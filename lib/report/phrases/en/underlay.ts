/** How underlay is said that is laid, and that stays. */
import type { LaidUnderlay } from '../../../stitch/laid-underlay.js';
import type { UnderlayKept } from '../../../vetting/finding.js';

/** Underlay to be laid, with its article. */
export const laid: Readonly<Record<LaidUnderlay, string>> = {
  'center-run': 'a center run',
  'edge-run': 'an edge run',
  'edge-run+fill': 'an edge run and a light fill',
  fill: 'a light fill',
  zigzag: 'a zigzag',
  'double-zigzag': 'a double zigzag',
};

/** Why a column keeps an underlay that is heavier than the rule of the trade has it: over the backing that the advice takes. */
export const keptUnderlay: Readonly<Record<UnderlayKept, string>> = {
  'lies-flat': 'on this fabric, over the backing of the setup, the design lies flat as it is',
  'meets-standard': 'on this fabric, over the backing of the setup, the design meets your standard as it is',
  'no-gain': 'on this fabric another underlay would hardly make it flatter',
};

/** What puts it right, in the sentence of a finding. */
export const relayLays = (onlyIfNamed: boolean): string =>
  onlyIfNamed ? 'lieflat relay does that if you name it with --objects' : 'lieflat relay does that';
