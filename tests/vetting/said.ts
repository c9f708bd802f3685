import { wordsOf } from '../../lib/report/phrases/words-of.js';
import type { Finding } from '../../lib/vetting/finding.js';

/** A finding in its English, metric sentence. */
export const said = (finding: Finding | undefined): string =>
  finding ? wordsOf(finding, { units: 'mm', detail: 'full' }) : '';
