/** A shop's log of sew-outs, graded or measured: a table with a row a sew-out, as the record line of the operator's card begins it. */
import { LieflatError } from '../core/errors.js';
import { nearestName } from '../core/nearest-name.js';
import { badLine, delimiterOf, rowsOf, tableText } from '../format/table-text.js';
import type { Catalogue } from '../materials/catalogue.js';
import { USUAL_SHEET } from '../materials/usual-sheet.js';
import type { StackedSheet } from '../mechanics/goods.js';
import { parseStack, stackText } from '../mechanics/stack-notation.js';
import { LOG_COLUMNS, RULER_COLUMNS } from './log-columns.js';
import { isGrade } from './rater.js';
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

/** A row that cannot be used. */
export interface RowFault {
  readonly line: number;
  readonly what: string;
  readonly todo: string;
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
    const cell = (column: LogColumn): string =>
      columns[column] < 0 ? '' : (cells[columns[column]] ?? '').trim();
    if (cell('grade') === '' && cell('width_mm') === '' && cell('file') !== '') ungraded.push(line);
    else {
      const row = await readRow(cell, line, catalogue);
      if ('what' in row) faults.push(row);
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
  const grade = cell('grade') === '' ? null : numberIn(cell('grade'));
  if (grade !== null && !isGrade(grade))
    return fault(
      `the grade cannot be ${JSON.stringify(cell('grade'))}`,
      'give 5 (smooth) to 1 (severe) in half steps',
    );
  const width = readWidth(cell('object'), cell('width_mm'), washes);
  if (width && 'what' in width) return fault(width.what, width.todo);
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

/** Null where no width was written down. */
function readWidth(
  object: string,
  width: string,
  washes: number,
): LoggedWidth | { what: string; todo: string } | null {
  if (width === '') return null;
  const widthMm = numberIn(width);
  if (!(widthMm > 0 && widthMm <= WIDEST_MM))
    return {
      what: `width_mm cannot be ${JSON.stringify(width)}`,
      todo: 'give the sewn width in millimeters, a number and nothing else',
    };
  if (!/^[1-9]\d{0,5}$/.test(object))
    return {
      what:
        object === '' ? 'width_mm has no object beside it' : `the object cannot be ${JSON.stringify(object)}`,
      todo: 'give the number of the object that was measured, as lieflat vet --objects lists it',
    };
  if (washes > 0)
    return {
      what: `width_mm was written down after ${washes} ${washes === 1 ? 'wash' : 'washes'}`,
      todo: 'measure before washing, in a row with washes 0, and leave width_mm empty here',
    };
  return { object: Number(object), widthMm };
}

/** With a decimal point or comma; NaN for anything else. */
const numberIn = (text: string): number =>
  /^\d{1,4}([.,]\d{1,4})?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
