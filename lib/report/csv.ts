import { printable } from './render/printable.js';

/** Null and undefined are an empty cell. */
export type CsvCell = string | number | boolean | null | undefined;

/**
 * One record of RFC 4180: fields quoted where they hold a comma, a quote or a line end; CRLF at the end.
 *
 * A text that a spreadsheet would take for a formula (`=`, `+`, `-`, `@`, or a tab or line end first) gets an
 * apostrophe in front; control characters are written out. Numbers stay numbers.
 */
export function csvRecord(cells: readonly CsvCell[]): string {
  return `${cells.map(csvField).join(',')}\r\n`;
}

function csvField(cell: CsvCell): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (typeof cell === 'number') return String(cell);
  const text = printable(cell);
  // Full-width forms of the same signs start a formula too in some spreadsheets.
  const safe = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) || /^\s|\s$/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}
