import { wordsFor } from './phrases/words.js';
import { blocksAsText } from './render/text.js';
import type { TextOptions } from './text-options.js';
import { findingEntries, groupFindings } from './vet/found.js';
import type { FindingReport } from './vet/report.js';

/** Findings under a title, for reports that are no documents yet. No lines at all where there are none. */
export function findingSection(
  title: string,
  findings: readonly FindingReport[],
  options: TextOptions,
): string[] {
  const words = wordsFor({ units: options.units, detail: 'full' });
  const entries = findingEntries(groupFindings(findings, words), words);
  if (entries.length === 0) return [];
  const blocks = [{ is: 'section', title, blocks: [{ is: 'entries', entries }] }] as const;
  return blocksAsText(blocks, options).trimEnd().split('\n');
}
