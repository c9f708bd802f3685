import type { Finder } from '../context.js';
import { NOWHERE } from '../place-of.js';

/** A file without a single needle penetration. */
export const noStitches: Finder = ({ stitches }) =>
  stitches.count > 0
    ? []
    : [
        {
          code: 'no-stitches',
          severity: 'fail',
          ...NOWHERE,
          measured: 0,
          limit: 1,
          unit: 'stitches',
          params: {},
          fix: { do: 'ask-digitizer', objects: [], to: 'send-again' },
          basis: 'counted in the file',
        },
      ];
