/** The findings about underlay as a fabric settles them, so that the file check says of each column what is done about it. */
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { HEAVY_UNDERLAY, NO_UNDERLAY } from '../vetting/columns-called.js';
import { severestFirst } from '../vetting/find-findings.js';
import type { Finding } from '../vetting/finding.js';
import type { SearchResult } from './search.js';

/**
 * The findings with those about underlay as the advice decides: a column that keeps its own is a note that says why, one that is relaid names what
 * is laid. All others are as they were.
 */
export function decidedFindings(
  findings: readonly Finding[],
  { recommended, kept }: Pick<SearchResult, 'recommended' | 'kept'>,
): Finding[] {
  const laid = new Map(recommended.underlay.map(({ object, to }) => [object, to]));
  const keeps = new Set(kept?.objects);
  return findings
    .map((finding): Finding => {
      const { object } = finding;
      if (object === null) return finding;
      const to = laid.get(object);
      if (finding.code === HEAVY_UNDERLAY && kept && keeps.has(object))
        return {
          ...finding,
          severity: 'note',
          params: { ...finding.params, kept: kept.because },
          fix: null,
        };
      if (to === undefined) return finding;
      if (finding.code === HEAVY_UNDERLAY)
        return { ...finding, params: { ...finding.params, to }, fix: relaying(object, to) };
      if (finding.code === NO_UNDERLAY)
        return { ...finding, params: { ...finding.params, to }, fix: relaying(object, to) };
      return finding;
    })
    .sort(severestFirst);
}

const relaying = (object: number, to: LaidUnderlay) => ({ do: 'relay', objects: [object], to }) as const;
