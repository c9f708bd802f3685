/** The summary of a batch as a page. */
import { wordsFor } from '../phrases/words.js';
import type { Units } from '../quantities.js';
import { renderHtml } from '../render/html.js';
import { batchBlocks, batchDocument } from './document.js';
import type { BatchSummary } from './report.js';
import { countBlocks } from './triage.js';

/** The summary as a page that stands by itself: nothing fetched, whole without its script. */
export function batchSummaryPage(summary: BatchSummary, units: Units): string {
  const words = wordsFor({ units, detail: 'full' });
  const blocks = [...countBlocks(summary, words), ...batchBlocks(summary, words)];
  return renderHtml(batchDocument(summary, blocks, words));
}
