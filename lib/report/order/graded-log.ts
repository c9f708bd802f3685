/** The shop's log of sew-outs with more rows. */
import { LOG_COLUMNS } from '../../calibrate/log-columns.js';
import { delimiterOf } from '../../format/table-text.js';
import { csvRecord } from '../csv.js';
import { wordsFor } from '../phrases/words.js';

/** What is said of an order where no document is made. */
export const { order: orderWords } = wordsFor({ units: 'mm', detail: 'full' });

/**
 * Rows behind those that are there; one that is there already is not added again. Its columns may stand in any order, and others beside them.
 *
 * @param before the log's text, empty for a new one
 * @param rows cells in the order of {@link LOG_COLUMNS}
 */
export function gradedCardsLog(
  before: string,
  rows: readonly (readonly string[])[],
): { text: string; added: number } {
  const head = before === '' ? [...LOG_COLUMNS] : headsOf(before);
  const start = before === '' ? csvRecord(head) : before.endsWith('\n') ? before : `${before}\r\n`;
  const there = new Set(before.split(/\r?\n/));
  const records = rows
    .map((row) =>
      csvRecord(
        head.map((column) => row[(LOG_COLUMNS as readonly string[]).indexOf(column)] ?? ''),
      ).trimEnd(),
    )
    .filter((record) => !there.has(record));
  const fresh = [...new Set(records)];
  return { text: start + fresh.map((record) => `${record}\r\n`).join(''), added: fresh.length };
}

function headsOf(text: string): string[] {
  const [first] = text
    .replace(/^\ufeff/, '')
    .trimStart()
    .split(/\r?\n/, 1);
  return first.split(delimiterOf(text)).map((name) => name.trim().toLowerCase());
}
