import { describe, expect, it } from 'vitest';
import { FINDER } from '../../lib/segment/parameters.js';
import { flip } from './probe.js';
import { COVER_PROBES } from './probes-of-cover.js';
import { PLACE_PROBES } from './probes-of-places.js';
import { THREAD_PROBES } from './probes-of-threads.js';
import { TOP_PROBES } from './probes-of-tops.js';
import { UNDERLAY_PROBES } from './probes-of-underlay.js';

/** What is read by whole swings or on rounded places flips no nearer to its figure than this share. */
const NEAR = 0.02;

describe.each([...THREAD_PROBES, ...TOP_PROBES, ...COVER_PROBES, ...PLACE_PROBES, ...UNDERLAY_PROBES])(
  '$figure',
  (probe) => {
    it('decides there, and nowhere else on the way', () => {
      expect(Object.keys(FINDER)).toContain(probe.figure);
      expect(probe.read(probe.from)).toEqual(probe.first);
      expect(probe.read(probe.to)).toEqual(probe.last);
      expect(Math.abs(flip(probe) - probe.at)).toBeLessThan(NEAR * probe.at);
      // right beside it on both sides as at both ends
      const beside = 1.5 * NEAR * probe.at * Math.sign(probe.to - probe.from);
      expect(probe.read(probe.at - beside)).toEqual(probe.first);
      expect(probe.read(probe.at + beside)).toEqual(probe.last);
    });
  },
);
