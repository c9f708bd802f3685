/** A shop's log of graded sew-outs: a table with a row a sew-out, as the record line of the operator's card begins it. */
import { LieflatError } from '../core/errors.js';
import { nearestName } from '../core/nearest-name.js';
import { badLine, delimiterOf, rowsOf, tableText } from '../format/table-text.js';
import type { Catalogue } from '../materials/catalogue.js';
import { USUAL_SHEET } from '../materials/usual-sheet.js';
import type { StackedSheet } from '../mechanics/goods.js';
import { parseStack, stackText } from '../mechanics/stack-notation.js';
import { LOG_COLUMNS } from './log-columns.js';
import { isGrade } from './rater.js';
import { readUnderlay, type UnderlayAsSewn, underlayText } from './underlay-text.js';

type Column = (typeof LOG_COLUMNS)[number];
const NEEDED = ['file', 'fabric', 'stack', 'grade'] as const satisfies readonly Column[];

/** One row: what was sewn, on what, and the grade that it got. */
export interface LoggedSewOut {
  /** Of the log, from 1. */
  readonly line: number;
  /** The design, as the log names it. */
  readonly file: string;
  /** Fabric id. */
  readonly fabric: string;
  readonly stack: readonly StackedSheet[];
  /** As `stackText` sets it, so that one stack is one text. */
  readonly stackText: string;
  readonly underlay: readonly UnderlayAsSewn[];
  readonly underlayText: string;
  readonly washes: number;
  /** 5 (smooth) to 1 (severe) in half steps. */
  readonly grade: number;
  readonly remarks: string;
}

/** A row that cannot be used. */
export interface RowFault {
  readonly line: number;
  readonly what: string;
  readonly todo: string;
}

export interface SewOutLog {
  readonly rows: readonly LoggedSewOut[];
  readonly faults: readonly RowFault[];
  /** Lines of sew-outs that nobody has graded yet. */
  readonly ungraded: readonly number[];
}

const MOST_WASHES = 200;
const EXPECTED = `begin with the line ${LOG_COLUMNS.join(',')}`;

/**
 * Reads a log (RFC 4180). Taken as well: a byte order mark, UTF-16 with one, any line ends, columns in any order, capitals, further columns, blank
 * lines, semicolons or tabs for commas, decimal commas. `stack` reads as `parseStack` has it, `underlay` as {@link readUnderlay}; without
 * underlay it is that of the file, without `washes` none. Rows that are wrong are listed and left out.
 *
 * @throws LieflatError `undecodable`, its place `line N`, where there is no table or a column is missing
 */
export async function readSewOutLog(bytes: Uint8Array, catalogue: Catalogue): Promise<SewOutLog> {
  const text = tableText(bytes);
  const raw: { cells: readonly string[]; line: number }[] = [];
  const keep = (cells: readonly string[], line: number) => {
    if (cells.some((cell) => cell.trim() !== '')) raw.push({ cells, line });
  };
  const eachRow = await rowsOf(text, delimiterOf(text), { strayQuotes: true });
  eachRow(keep);
  const [header, ...records] = raw;
  if (!header) throw badLine(1, 'the log is empty', EXPECTED);
  const columns = columnsOf(header.cells, header.line);
  const rows: LoggedSewOut[] = [];
  const faults: RowFault[] = [];
  const ungraded: number[] = [];
  for (const { cells, line } of records) {
    const cell = (column: Column): string =>
      columns[column] < 0 ? '' : (cells[columns[column]] ?? '').trim();
    if (cell('grade') === '' && cell('file') !== '') ungraded.push(line);
    else {
      const row = await readRow(cell, line, catalogue);
      if ('what' in row) faults.push(row);
      else rows.push(row);
    }
  }
  return { rows, faults, ungraded };
}

function columnsOf(cells: readonly string[], line: number): Record<Column, number> {
  const names = cells.map((cell) => cell.trim().toLowerCase());
  const columns = {} as Record<Column, number>;
  for (const column of LOG_COLUMNS) {
    columns[column] = names.indexOf(column);
    if (columns[column] !== names.lastIndexOf(column))
      throw badLine(line, `the column ${column} is named twice`, 'keep one of them');
  }
  const missing = NEEDED.find((column) => columns[column] < 0);
  if (missing) throw badLine(line, `the column ${missing} is missing`, EXPECTED);
  return columns;
}

async function readRow(
  cell: (column: Column) => string,
  line: number,
  catalogue: Catalogue,
): Promise<LoggedSewOut | RowFault> {
  const fault = (what: string, todo: string): RowFault => ({ line, what, todo });
  // A spreadsheet is kept from reading a name as a formula by an apostrophe before it.
  const file = cell('file').replace(/^'(?=[=+\-@])/, '');
  if (file === '') return fault('the file is missing', 'name the design that was sewn');
  const fabric = cell('fabric').toLowerCase();
  if (!Object.hasOwn(catalogue.fabrics, fabric)) {
    const near = await nearestName(fabric, Object.keys(catalogue.fabrics));
    return fault(
      fabric === '' ? 'the fabric is missing' : `the fabric ${JSON.stringify(fabric)} is not known`,
      near ? `did you mean ${near}?` : 'lieflat catalog fabrics lists ids',
    );
  }
  const given = cell('stack').toLowerCase();
  if (given === '')
    return fault('the stack is missing', `write what lay behind, as ${USUAL_SHEET.id}, or none`);
  let stack: StackedSheet[];
  try {
    stack = parseStack(given, catalogue);
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    return fault(`the stack ${JSON.stringify(given)}: ${error.what}`, error.todo);
  }
  const underlay = readUnderlay(cell('underlay'));
  if ('what' in underlay) return fault(underlay.what, underlay.todo);
  const washes = numberIn(cell('washes') || '0');
  if (!(Number.isInteger(washes) && washes >= 0 && washes <= MOST_WASHES))
    return fault(`washes cannot be ${JSON.stringify(cell('washes'))}`, 'give a whole number from 0');
  const grade = numberIn(cell('grade'));
  if (!isGrade(grade))
    return fault(
      `the grade cannot be ${JSON.stringify(cell('grade'))}`,
      'give 5 (smooth) to 1 (severe) in half steps',
    );
  return {
    line,
    file,
    fabric,
    stack,
    stackText: stackText(stack),
    underlay,
    underlayText: underlayText(underlay),
    washes,
    grade,
    remarks: cell('remarks'),
  };
}

/** With a decimal point or comma; NaN for anything else. */
const numberIn = (text: string): number =>
  /^\d{1,4}([.,]\d{1,4})?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
