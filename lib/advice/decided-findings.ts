/** The findings about underlay as a fabric settles them, so that the file check says of each column what is done about it. */
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { calledColumns, callsForUnderlay, HEAVY_UNDERLAY, NO_UNDERLAY } from '../vetting/columns-called.js';
import type { Finding, FindingCode } from '../vetting/finding.js';
import { withOneCure } from '../vetting/one-cure.js';
import { severestFirst } from '../vetting/severest-first.js';
import type { SearchResult } from './search.js';

/** What the advice decides about underlay. */
export interface DecidedUnderlay {
  readonly recommended: Pick<SearchResult['recommended'], 'underlay'>;
  readonly kept: SearchResult['kept'];
}

/** Where the findings call for no other underlay, whatever is advised. */
const NONE_CALLED: DecidedUnderlay = { recommended: { underlay: [] }, kept: null };

/** What is decided before anything is worked out; null where that takes the advice. */
export function decidedBeforehand(findings: readonly Finding[]): DecidedUnderlay | null {
  const { heavy, bare } = calledColumns(findings);
  return heavy.size + bare.size === 0 ? NONE_CALLED : null;
}

/**
 * The findings with those about underlay as the advice decides: a column that keeps its own is a note that says why, one that is relaid names what
 * is laid. All others are as they were.
 */
export function decidedFindings(
  findings: readonly Finding[],
  { recommended, kept }: DecidedUnderlay,
): Finding[] {
  const laid = new Map(recommended.underlay.map(({ object, to }) => [object, to]));
  const keeps = new Set(kept?.objects);
  const decided = findings.map((finding): Finding => {
    const { object } = finding;
    if (object === null) return finding;
    const to = laid.get(object);
    if (finding.code === HEAVY_UNDERLAY) {
      const params = { ...finding.params, decided: true };
      if (kept && keeps.has(object))
        return { ...finding, severity: 'note', params: { ...params, kept: kept.because }, fix: null };
      return to === undefined
        ? { ...finding, params }
        : { ...finding, params: { ...params, to }, fix: relaying(object, to) };
    }
    if (finding.code === NO_UNDERLAY && to !== undefined)
      return { ...finding, params: { ...finding.params, to }, fix: relaying(object, to) };
    return finding;
  });
  return withOneCure(decided).sort(severestFirst);
}

/** What is wrong with the file itself, whatever it is sewn on. */
export interface FileFaults {
  /** Codes of the findings for which the file should not be sewn as it is; each once, like the others. */
  readonly failures: readonly FindingCode[];
  /** Codes of the findings that are to be looked at before it is sewn. */
  readonly warnings: readonly FindingCode[];
  /** Those of the warnings that are gone once the file is relaid as the plan says. */
  readonly relaidAway: readonly FindingCode[];
}

/** What is wrong with a file, once the advice has settled what is done about its underlay. */
export function fileFaults(findings: readonly Finding[], search: DecidedUnderlay): FileFaults {
  const decided = decidedFindings(findings, search);
  const codes = (severity: Finding['severity']): FindingCode[] => [
    ...new Set(decided.flatMap((finding) => (finding.severity === severity ? [finding.code] : []))),
  ];
  const laid = new Set(search.recommended.underlay.map(({ object }) => object));
  const warnings = codes('warn');
  const relaidAway = warnings.filter((code) =>
    decided.every(
      (finding) =>
        finding.code !== code ||
        finding.severity !== 'warn' ||
        (callsForUnderlay(finding) && finding.object !== null && laid.has(finding.object)),
    ),
  );
  return { failures: codes('fail'), warnings, relaidAway };
}

const relaying = (object: number, to: LaidUnderlay) => ({ do: 'relay', objects: [object], to }) as const;
