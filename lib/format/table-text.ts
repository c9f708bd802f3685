/** Tables of separated values (RFC 4180) as people and spreadsheets write them: what parts their cells, and their rows. */
import { LieflatError } from '../core/errors.js';

export type Delimiter = ',' | ';' | '\t';
export type TakeRow = (cells: readonly string[], line: number) => void;

/** Text of a table's file: UTF-8, or UTF-16 where a byte order mark says so; every line end is a line feed. */
export function tableText(bytes: Uint8Array): string {
  const isUtf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  const encoding = isUtf16 ? (bytes[0] === 0xff ? 'utf-16le' : 'utf-16be') : 'utf-8';
  return new TextDecoder(encoding).decode(bytes).replace(/\r\n?/g, '\n');
}

export function countLines(text: string): number {
  let lines = 1;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}

/** What parts the column names of the first line that is not blank. */
export function delimiterOf(text: string): Delimiter {
  const header = text.trimStart().split('\n', 1)[0];
  if (header.includes(',')) return ',';
  if (header.includes(';')) return ';';
  return header.includes('\t') ? '\t' : ',';
}

/**
 * What hands over every row with the line that it begins in, from 1. Asynchronous as the parser of quoted cells is loaded only for a table that has
 * them: without a quote every line is a row and every delimiter parts two cells (RFC 4180, section 2).
 * @param strayQuotes whether a quote inside a cell that none opened belongs to its text, as in `4" wide`
 * @returns a function that throws LieflatError `undecodable`, its place `line N`, for quotes that do not close or stand where none may
 */
export async function rowsOf(
  text: string,
  delimiter: Delimiter,
  { strayQuotes = false } = {},
): Promise<(take: TakeRow) => void> {
  if (!text.includes('"')) return (take) => eachPlainRow(text, delimiter, take);
  const parser = await import('csv-parse/sync');
  return (take) => eachQuotedRow(parser, text, delimiter, take, strayQuotes);
}

/** A row that says something, with the line that it begins in, from 1. */
export interface FilledRow {
  readonly cells: readonly string[];
  readonly line: number;
}

/**
 * The rows of a table that people keep, blank ones left out: stray quotes are text, as in `4" wide`.
 * @throws LieflatError `undecodable`, its place `line N`, as {@link rowsOf} does
 */
export async function filledRows(bytes: Uint8Array): Promise<FilledRow[]> {
  const text = tableText(bytes);
  const rows: FilledRow[] = [];
  const eachRow = await rowsOf(text, delimiterOf(text), { strayQuotes: true });
  eachRow((cells, line) => {
    if (cells.some((cell) => cell.trim() !== '')) rows.push({ cells, line });
  });
  return rows;
}

function eachPlainRow(text: string, delimiter: Delimiter, take: TakeRow): void {
  let line = 1;
  for (let from = 0; from < text.length; line++) {
    const newline = text.indexOf('\n', from);
    const to = newline < 0 ? text.length : newline;
    take(text.slice(from, to).split(delimiter), line);
    from = to + 1;
  }
}

function eachQuotedRow(
  { parse, CsvError }: typeof import('csv-parse/sync'),
  text: string,
  delimiter: Delimiter,
  take: TakeRow,
  strayQuotes: boolean,
): void {
  try {
    parse(text, {
      delimiter,
      record_delimiter: '\n',
      relax_column_count: true,
      relax_quotes: strayQuotes,
      on_record: (cells: string[], { lines }) => {
        // `lines` counts up to the end of the row; a quoted cell may hold line ends of its own.
        take(cells, lines - cells.reduce((n, cell) => n + countLines(cell) - 1, 0));
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error.lines === 'number' ? error.lines : 1;
    throw badLine(
      line,
      error.code === 'CSV_QUOTE_NOT_CLOSED'
        ? 'a quote that was opened here or above is not closed'
        : 'a quote stands where none may be',
      'put quotes around the whole cell, and double those inside it, or leave them out',
    );
  }
}

export function badLine(line: number, what: string, todo: string): LieflatError {
  return new LieflatError({ code: 'undecodable', place: `line ${line}`, what, todo });
}
