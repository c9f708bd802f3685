/** Findings of a rewritten file. */
import type { ReportSection } from './document.js';
import type { Words } from './phrases/words.js';
import { findingEntries, groupFindings } from './vet/found.js';
import type { FindingReport } from './vet/report.js';

/** What is found in a new file and was not in the old one; nothing where there is nothing. */
export function newFindings(
  findings: readonly FindingReport[],
  title: (p: { findings: number }) => string,
  words: Words<'common' | 'findings'>,
): ReportSection[] {
  if (findings.length === 0) return [];
  const entries = findingEntries(groupFindings(findings, words), words);
  return [
    { is: 'section', title: title({ findings: findings.length }), blocks: [{ is: 'entries', entries }] },
  ];
}
