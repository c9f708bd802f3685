/** Cards that come back from the machine with a grade, as rows of the shop's log of sew-outs: `calibrate` reads it. */
import { LOG_COLUMNS } from '../calibrate/log-columns.js';
import { isGrade } from '../calibrate/rater.js';
import { LieflatError } from '../core/errors.js';
import { badLine, filledRows } from '../format/table-text.js';
import type { OrderFault } from './order-table.js';

/** A line that was sewn, as the order's own report has it. */
export interface SewnOrderLine {
  readonly line: number;
  readonly order: string;
  /** The file that was sewn, as the log is to name it. */
  readonly sewn: string;
  readonly fabric: string;
  /** As `stackText` sets it. */
  readonly stackText: string;
}

export interface GradedCards {
  /** Cells of rows for the log, in the order of its columns. */
  readonly rows: readonly (readonly string[])[];
  readonly faults: readonly OrderFault[];
}

const COLUMNS = ['order', 'line', 'grade', 'washes', 'remarks'] as const;
type GradeColumn = (typeof COLUMNS)[number];
const EXPECTED = 'begin with the heads order,grade or line,grade';
const MOST_WASHES = 200;

/**
 * Reads graded cards: a row a card, found by its order number, its line, or both where an order number has several lines. Without washes it is
 * graded as sewn. Rows that are wrong are listed and left out.
 *
 * @throws LieflatError `undecodable`, its place `line N`, where there is no table or a column is missing
 */
export async function readGradedCards(
  bytes: Uint8Array,
  sewn: readonly SewnOrderLine[],
): Promise<GradedCards> {
  const [head, ...records] = await filledRows(bytes);
  if (!head) throw badLine(1, 'there are no grades', EXPECTED);
  const names = head.cells.map((cell) => cell.toLowerCase().replace(/[^a-z]/g, ''));
  const at = (column: GradeColumn): number =>
    names.findIndex((name) => name === column || (column === 'order' && name === 'ordernumber'));
  if (at('grade') < 0) throw badLine(head.line, 'the column grade is missing', EXPECTED);
  if (at('order') < 0 && at('line') < 0)
    throw badLine(head.line, 'no column says which card it is', EXPECTED);
  const rows: string[][] = [];
  const faults: OrderFault[] = [];
  for (const { cells, line } of records) {
    const row = rowOf((column) => (at(column) < 0 ? '' : (cells[at(column)] ?? '').trim()), sewn);
    if (row instanceof LieflatError) faults.push({ line, what: row.what, todo: row.todo });
    else rows.push(row);
  }
  return { rows, faults };
}

function rowOf(
  cell: (column: GradeColumn) => string,
  sewn: readonly SewnOrderLine[],
): string[] | LieflatError {
  const fault = (what: string, todo: string) =>
    new LieflatError({ code: 'undecodable', place: 'grades', what, todo });
  const [order, line] = [cell('order'), cell('line')];
  if (order === '' && line === '') return fault('it names no card', 'give the order number or the line');
  const meant = sewn.filter(
    (one) => (order === '' || one.order === order) && (line === '' || String(one.line) === line),
  );
  const named = [order && `order ${order}`, line && `line ${line}`].filter(Boolean).join(', ');
  if (meant.length === 0)
    return fault(`${named} is not in this order`, 'give an order number or line of order.json');
  if (meant.length > 1)
    return fault(
      `${named} has ${meant.length} lines`,
      `give the line as well: ${meant.map((one) => one.line).join(', ')}`,
    );
  const grade = cell('grade').replace(',', '.');
  if (!(grade !== '' && isGrade(Number(grade))))
    return fault(
      `the grade cannot be ${JSON.stringify(cell('grade'))}`,
      'give 5 (smooth) to 1 (severe) in half steps',
    );
  const washes = cell('washes') || '0';
  if (!(/^\d{1,3}$/.test(washes) && Number(washes) <= MOST_WASHES))
    return fault(`washes cannot be ${JSON.stringify(cell('washes'))}`, 'give a whole number from 0');
  const [card] = meant;
  const remarks = [named, cell('remarks')].filter(Boolean).join('; ');
  // Relaid files hold their new underlay already: each is sewn as it is.
  const cells: Readonly<Record<(typeof LOG_COLUMNS)[number], string>> = {
    file: card.sewn,
    fabric: card.fabric,
    stack: card.stackText,
    underlay: '',
    washes,
    grade,
    remarks,
  };
  return LOG_COLUMNS.map((column) => cells[column]);
}
