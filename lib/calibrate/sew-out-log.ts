/** A shop's log of sew-outs, graded or measured: a table with a row a sew-out, as the record line of the operator's card begins it. */
import { LieflatError } from '../core/errors.js';
import { nearestName } from '../core/nearest-name.js';
import { badLine, filledRows } from '../format/table-text.js';
import type { Catalogue } from '../materials/catalogue.js';
import { USUAL_SHEET } from '../materials/usual-sheet.js';
import type { StackedSheet } from '../mechanics/layup.js';
import { parseStack, stackText } from '../mechanics/stack-notation.js';
import { LOG_COLUMNS, RULER_COLUMNS } from './log-columns.js';
import { isGrade } from './rater.js';
import type { Fault, RowFault } from './row-fault.js';
import { readUnderlay, type UnderlayAsSewn, underlayText } from './underlay-text.js';

const COLUMNS = [...LOG_COLUMNS, ...RULER_COLUMNS] as const;
type LogColumn = (typeof COLUMNS)[number];
const NEEDED = ['file', 'fabric', 'stack'] as const satisfies readonly LogColumn[];

/** The sewn width of one object by a ruler. */
export interface LoggedWidth {
  readonly object: number;
  readonly widthMm: number;
}

/** One row: what was sewn, on what, and what it came out like: a grade, a width, or both. */
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
  /** 5 (smooth) to 1 (severe) in half steps; null where nobody graded it. */
  readonly grade: number | null;
  /** Null where nobody measured it. */
  readonly width: LoggedWidth | null;
  readonly remarks: string;
}

export interface SewOutLog {
  readonly rows: readonly LoggedSewOut[];
  readonly faults: readonly RowFault[];
  /** Lines of sew-outs that nobody has graded or measured yet. */
  readonly ungraded: readonly number[];
}

const MOST_WASHES = 200;
/** No sewn object is wider, mm. */
const WIDEST_MM = 400;
const EXPECTED = `begin with the line ${LOG_COLUMNS.join(',')}`;

/**
 * Reads a log (RFC 4180). Taken as well: a byte order mark, UTF-16 with one, any line ends, columns in any order, capitals, further columns, blank
 * lines, semicolons or tabs for commas, decimal commas. `stack` reads as `parseStack` has it, `underlay` as {@link readUnderlay}; without
 * underlay it is that of the file, without `washes` none. Rows that are wrong are listed and left out.
 *
 * @throws LieflatError `undecodable`, its place `line N`, where there is no table or a column is missing
 */
export async function readSewOutLog(bytes: Uint8Array, catalogue: Catalogue): Promise<SewOutLog> {
  const [header, ...records] = await filledRows(bytes);
  if (!header) throw badLine(1, 'the log is empty', EXPECTED);
  const columns = columnsOf(header.cells, header.line);
  const rows: LoggedSewOut[] = [];
  const faults: RowFault[] = [];
  const ungraded: number[] = [];
  for (const { cells, line } of records) {
    const cell = (column: LogColumn): string =>
      columns[column] < 0 ? '' : (cells[columns[column]] ?? '').trim();
    if (cell('grade') === '' && cell('width_mm') === '' && cell('file') !== '') ungraded.push(line);
    else {
      const row = await readRow(cell, line, catalogue);
      if ('code' in row) faults.push({ ...row, line });
      else rows.push(row);
    }
  }
  return { rows, faults, ungraded };
}

function columnsOf(cells: readonly string[], line: number): Record<LogColumn, number> {
  const names = cells.map((cell) => cell.trim().toLowerCase());
  const columns = {} as Record<LogColumn, number>;
  for (const column of COLUMNS) {
    columns[column] = names.indexOf(column);
    if (columns[column] !== names.lastIndexOf(column))
      throw badLine(line, `the column ${column} is named twice`, 'keep one of them');
  }
  const missing = NEEDED.find((column) => columns[column] < 0) ?? lookedAt(columns);
  if (missing) throw badLine(line, `the column ${missing} is missing`, EXPECTED);
  return columns;
}

/** A log has grades, or widths with the objects that they are of; the column that lacks for that. */
function lookedAt({
  grade,
  object,
  width_mm: width,
}: Readonly<Record<LogColumn, number>>): LogColumn | undefined {
  if (width < 0) return grade < 0 ? 'grade' : undefined;
  return object < 0 ? 'object' : undefined;
}

async function readRow(
  cell: (column: LogColumn) => string,
  line: number,
  catalogue: Catalogue,
): Promise<LoggedSewOut | Fault> {
  // A spreadsheet is kept from reading a name as a formula by an apostrophe before it.
  const file = cell('file').replace(/^'(?=[=+\-@])/, '');
  if (file === '') return { code: 'file-missing', params: {} };
  const fabric = cell('fabric').toLowerCase();
  if (!Object.hasOwn(catalogue.fabrics, fabric)) {
    if (fabric === '') return { code: 'fabric-missing', params: {} };
    const near = (await nearestName(fabric, Object.keys(catalogue.fabrics))) ?? null;
    return { code: 'fabric-unknown', params: { fabric, near } };
  }
  const stack = readStack(cell('stack').toLowerCase(), catalogue);
  if ('code' in stack) return stack;
  const underlay = readUnderlay(cell('underlay'));
  if ('code' in underlay) return underlay;
  const washes = numberIn(cell('washes') || '0');
  if (!(Number.isInteger(washes) && washes >= 0 && washes <= MOST_WASHES))
    return { code: 'washes-unreadable', params: { washes: cell('washes') } };
  const grade = cell('grade') === '' ? null : numberIn(cell('grade'));
  if (grade !== null && !isGrade(grade))
    return { code: 'grade-unreadable', params: { grade: cell('grade') } };
  const width = readWidth(cell('object'), cell('width_mm'), washes);
  if (width && 'code' in width) return width;
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
    width,
    remarks: cell('remarks'),
  };
}

function readStack(stack: string, catalogue: Catalogue): StackedSheet[] | Fault {
  if (stack === '') return { code: 'stack-missing', params: { usual: USUAL_SHEET.id } };
  try {
    return parseStack(stack, catalogue);
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    return { code: 'stack-unreadable', params: { stack, what: error.what, todo: error.todo } };
  }
}

/** Null where no width was written down. */
function readWidth(object: string, width: string, washes: number): LoggedWidth | Fault | null {
  if (width === '') return null;
  const widthMm = numberIn(width);
  if (!(widthMm > 0 && widthMm <= WIDEST_MM)) return { code: 'width-unreadable', params: { width } };
  if (object === '') return { code: 'width-of-nothing', params: {} };
  if (!/^[1-9]\d{0,5}$/.test(object)) return { code: 'object-unreadable', params: { object } };
  if (washes > 0) return { code: 'width-after-washing', params: { washes } };
  return { object: Number(object), widthMm };
}

/** With a decimal point or comma; NaN for anything else. */
const numberIn = (text: string): number =>
  /^\d{1,4}([.,]\d{1,4})?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
