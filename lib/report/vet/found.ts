/** Findings as people get them: those of one kind are one. */
import type { Severity } from '../../vetting/finding.js';
import type { Entry } from '../document.js';
import type { Words } from '../phrases/words.js';
import { curedElsewhere, nameOf, sayFinding } from '../phrases/words-of.js';
import { capital } from '../quantities.js';
import type { FindingReport } from './report.js';
import { SEVERITIES } from './verdict.js';

/** Findings of one code and severity, which one cure mends. */
export interface FindingGroup {
  readonly severity: Severity;
  readonly name: string;
  /** Furthest past its limit: it speaks for its kind, and is the place to look at first. */
  readonly worst: FindingReport;
  readonly all: readonly FindingReport[];
  /** Ids of the objects it holds for, each once. */
  readonly objects: readonly number[];
}

/** What is said alike of findings: those of one code whose cures differ are told apart. */
function kindOf(finding: FindingReport): string {
  const { code, params } = finding;
  const over = 'over' in params ? params.over : null;
  const ofShort = 'ofShort' in params && params.ofShort;
  return [code, curedElsewhere(finding) ?? '', over ?? '', ofShort].join(' ');
}

/** Groups findings, the severest first, then in the order that they come in. */
export function groupFindings(findings: readonly FindingReport[], words: Words<'findings'>): FindingGroup[] {
  return SEVERITIES.flatMap((severity) => {
    const byKind = new Map<string, FindingReport[]>();
    for (const finding of findings) {
      if (finding.severity !== severity) continue;
      const kind = kindOf(finding);
      const same = byKind.get(kind);
      if (same) same.push(finding);
      else byKind.set(kind, [finding]);
    }
    return [...byKind.values()].map((all) => ({
      severity,
      name: nameOf(all[0].code, words),
      worst: all.reduce((most, one) => (excess(one) > excess(most) ? one : most)),
      all,
      objects: [...new Set(all.flatMap(({ object }) => object ?? []))],
    }));
  });
}

/** An entry for each kind: its name and where it is, then what is said of the worst. */
export function findingEntries(
  groups: readonly FindingGroup[],
  words: Words<'findings' | 'common'>,
): Entry[] {
  return groups.map(({ severity, name, worst, objects }) => {
    const place = worst.at && words.say.placeWithUnit(worst.at);
    const where = words.findings.where({ objects, first: worst.object, place });
    return {
      level: severity,
      word: words.common.severity[severity],
      head: where === '' ? capital(name) : `${capital(name)}: ${where}`,
      lines: [sayFinding(worst, words)],
    };
  });
}

const excess = ({ measured, limit }: FindingReport): number =>
  typeof measured === 'number' && typeof limit === 'number' ? Math.abs(measured - limit) : 0;
