/**
 * How well objects are found in designs whose objects are known, because the test laid every stitch itself. The limits are
 * the project's own; the truth is the generators' and shares no code with the finder.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../generators/families/index.js';
import { findAndMeasure } from '../generators/find-and-measure.js';
import { type Mark, score, Tally } from '../generators/score.js';

/** Designs a family; the whole file stays under half a minute. */
const DESIGNS = 12;
const SEEDS = fc.sample(fc.integer({ min: 0, max: 1_000_000 }), { seed: 20, numRuns: DESIGNS });

const STATIONS: Record<string, (family: string) => boolean> = {
  columns: (f) => f.startsWith('satin') || f === 'underlay-satin' || f === 'plain-columns',
  areas: (f) => f.startsWith('fill') || f === 'underlay-fill' || f === 'plain-areas',
  lines: (f) => f.startsWith('run') || f === 'plain-lines',
  lettering: (f) => f.startsWith('letters'),
  'whole designs': (f) => f.startsWith('sequence') || f === 'crest',
};

const LEAST = {
  recall: 0.98,
  precision: 0.97,
  kind: 0.98,
  width: 0.95,
  spacing: 0.95,
  angle: 0.95,
  underlay: 0.95,
  underRange: 0.9,
  split: 0.97,
  locks: 0.97,
  group: 0.95,
  block: 1,
  totals: 1,
} satisfies Partial<Record<Mark | 'recall' | 'precision' | 'totals', number>>;

function judge(member: (family: string) => boolean): { tally: Tally; failures: string[] } {
  const tally = new Tally();
  const failures: string[] = [];
  for (const family of Object.keys(FAMILIES).filter(member))
    for (const seed of SEEDS) {
      const made = FAMILIES[family](seed);
      const scored = score(made, findAndMeasure(made.design));
      tally.add(scored.tally);
      failures.push(...scored.failures);
    }
  return { tally, failures };
}

describe.each(Object.keys(STATIONS))('objects of %s', (name) => {
  const { tally, failures } = judge(STATIONS[name]);
  const shares: Record<keyof typeof LEAST, number> = {
    recall: tally.recall,
    precision: tally.precision,
    totals: tally.totals / tally.designs,
    kind: tally.share('kind'),
    block: tally.share('block'),
    width: tally.share('width'),
    spacing: tally.share('spacing'),
    angle: tally.share('angle'),
    underlay: tally.share('underlay'),
    underRange: tally.share('underRange'),
    split: tally.share('split'),
    locks: tally.share('locks'),
    group: tally.share('group'),
  };

  it('come from enough designs to judge', () => {
    expect(tally.truth).toBeGreaterThan(DESIGNS * 2);
  });

  it.each(Object.keys(LEAST) as (keyof typeof LEAST)[])('%s', (mark) => {
    expect(shares[mark], failures.join('\n')).toBeGreaterThanOrEqual(LEAST[mark]);
  });
});
