/**
 * The stitch table: a design as comma-separated values (RFC 4180), one row a record, for spreadsheets and scripts.
 * Header row `x_mm,y_mm,kind`, with `thread` where there is one; absolute positions in mm to 0.01 mm.
 */

import { UNBOUNDED } from '../core/budget.js';
import { LieflatError } from '../core/errors.js';
import { type Design, KIND_NAMES, Kind } from './design.js';
import type { PlainOddity } from './diagnostic.js';
import { badLine, countLines, type Delimiter, delimiterOf, rowsOf, tableText } from './table-text.js';

/** No hoop is near it: a larger figure is a slip or another unit. */
const FURTHEST_MM = 10_000;
const HIGHEST_THREAD = 999_999_999;
/** Positions are to 0.01 mm. */
const STEPS_PER_MM = 100;

const KIND_CODES = new Map<string, number>(KIND_NAMES.map((name, code) => [name, code]));
// The American spelling comes naturally to half of those who write tables by hand.
KIND_CODES.set('color', Kind.colour);

const COLUMNS = ['x_mm', 'y_mm', 'kind', 'thread'] as const;
type StitchTableColumn = (typeof COLUMNS)[number];

/**
 * Design → stitch table. Lines end in CRLF, the last one too.
 * @throws LieflatError `bad-argument` for a position that is no number or further than 10 m from the origin, or an unknown kind
 */
export function encodeStitchTable(design: Design): Uint8Array {
  const { kind, thread } = design;
  let text = thread ? 'x_mm,y_mm,kind,thread\r\n' : 'x_mm,y_mm,kind\r\n';
  for (let i = 0; i < kind.length; i++) {
    if (kind[i] >= KIND_NAMES.length) throw badRecord(i, `its kind ${kind[i]} is not known`);
    text += `${hundredths(design.x, i)},${hundredths(design.y, i)},${KIND_NAMES[kind[i]]}`;
    text += thread ? `,${thread[i]}\r\n` : '\r\n';
  }
  return new TextEncoder().encode(text);
}

function hundredths(positions: Float64Array, record: number): string {
  const steps = Math.round(positions[record] * STEPS_PER_MM);
  if (!(Math.abs(steps) <= FURTHEST_MM * STEPS_PER_MM)) {
    throw badRecord(record, `its position ${positions[record]} is not within 10 m of the origin`);
  }
  const whole = Math.trunc(Math.abs(steps) / STEPS_PER_MM);
  const rest = Math.abs(steps) % STEPS_PER_MM;
  return `${steps < 0 ? '-' : ''}${whole}.${rest < 10 ? '0' : ''}${rest}`;
}

function badRecord(record: number, what: string): LieflatError {
  return new LieflatError({
    code: 'bad-argument',
    place: `record ${record + 1}`,
    what,
    todo: 'correct the design',
  });
}

/**
 * Stitch table → design.
 *
 * Taken as well: a byte order mark, UTF-16 with one, any line ends, columns in any order and further columns, blank lines,
 * semicolons or tabs for commas (with decimal points or commas), capitals. `thread` is a whole number; an empty cell
 * repeats the one above, 0 at the top. Positions are rounded to 0.01 mm. What was assumed is a diagnostic with its line.
 *
 * Asynchronous as the parser of quoted cells is loaded only for a table that has them.
 * @throws LieflatError `undecodable`, its place `line N` (from 1), at the first row that cannot be read
 */
export async function decodeStitchTable(bytes: Uint8Array, budget = UNBOUNDED): Promise<Design> {
  const text = budget.run(() => tableText(bytes));
  if (text.trim() === '') throw badLine(1, 'the table is empty', EXPECTED_HEADER);
  const delimiter = delimiterOf(text);
  const eachRow = await rowsOf(text, delimiter);
  return budget.run(() => {
    const reader = new TableReader(countLines(text), delimiter);
    eachRow((cells, line) => reader.row(cells, line));
    return reader.finish();
  });
}

/**
 * Whether a file begins as a table with columns of its own, none of them one that a stitch table needs: a log or a list, not a stitch
 * table with a fault. What begins with figures has lost its heading, and what holds characters that no text has is damaged.
 */
export function isOtherTable(firstBytes: Uint8Array): boolean {
  const text = tableText(firstBytes).trimStart();
  const names = text
    .split('\n', 1)[0]
    .toLowerCase()
    .split(delimiterOf(text))
    .map((name) => name.replace(/^[\s"]+|[\s"]+$/g, ''));
  const isDamaged =
    names.some((name) => DAMAGE.test(name)) || names.filter((name) => FIGURE.test(name)).length > 1;
  return names.length > 1 && !isDamaged && !COLUMNS.some((column) => names.includes(column));
}

const DAMAGE = /[^\P{Cc}\t]|\ufffd/u;
const FIGURE = /^[+-]?\d+([.,]\d*)?$/;

const EXPECTED_HEADER = 'begin with the line x_mm,y_mm,kind';

class TableReader {
  readonly #delimiter: Delimiter;
  readonly #x: Float64Array;
  readonly #y: Float64Array;
  readonly #kind: Uint8Array;
  readonly #thread: Int32Array;
  readonly #oddities = new Map<PlainOddity, { line: number; times: number }>();
  #columns: Record<StitchTableColumn, number> | null = null;
  #width = 0;
  #count = 0;
  #endLine = 0;

  constructor(capacity: number, delimiter: Delimiter) {
    this.#delimiter = delimiter;
    this.#x = new Float64Array(capacity);
    this.#y = new Float64Array(capacity);
    this.#kind = new Uint8Array(capacity);
    this.#thread = new Int32Array(capacity);
  }

  row(cells: readonly string[], line: number): void {
    if (cells.every((cell) => cell.trim() === '')) {
      this.#note('table-blank-lines', line);
      return;
    }
    if (!this.#columns) this.#readHeader(cells, line);
    else this.#readRecord(cells, line, this.#columns);
  }

  finish(): Design {
    const n = this.#count;
    const hasThread = this.#columns !== null && this.#columns.thread >= 0;
    return {
      x: this.#x.slice(0, n),
      y: this.#y.slice(0, n),
      kind: this.#kind.slice(0, n),
      thread: hasThread ? this.#thread.slice(0, n) : null,
      header: [],
      diagnostics: [...this.#oddities].map(([code, { line, times }]) => ({
        code,
        params: {},
        line,
        measured: times,
        expected: 0,
      })),
      format: 'csv',
    };
  }

  #readHeader(cells: readonly string[], line: number): void {
    const names = cells.map((cell) => cell.trim().toLowerCase());
    const columns: Record<StitchTableColumn, number> = { x_mm: -1, y_mm: -1, kind: -1, thread: -1 };
    for (const column of COLUMNS) {
      columns[column] = names.indexOf(column);
      if (columns[column] !== names.lastIndexOf(column)) {
        throw badLine(line, `the column ${column} is named twice`, 'keep one of them');
      }
      if (columns[column] < 0 && column !== 'thread') {
        throw badLine(line, `the column ${column} is missing`, EXPECTED_HEADER);
      }
    }
    const others = names.filter((name) => !(COLUMNS as readonly string[]).includes(name));
    if (others.length > 0) {
      this.#note('table-other-columns', line);
    }
    if (this.#delimiter !== ',') {
      this.#note('table-delimiter', line);
    }
    this.#columns = columns;
    this.#width = names.length;
  }

  #readRecord(cells: readonly string[], line: number, columns: Record<StitchTableColumn, number>): void {
    if (this.#endLine > 0) {
      throw badLine(
        line,
        `it comes after the end in line ${this.#endLine}`,
        'leave out what follows the end',
      );
    }
    if (cells.length > this.#width) {
      throw badLine(
        line,
        `it has ${cells.length} cells where the first line names ${this.#width}`,
        'write decimals with a point, or part the cells by semicolons',
      );
    }
    const n = this.#count++;
    this.#x[n] = this.#position(cells[columns.x_mm], 'x_mm', line);
    this.#y[n] = this.#position(cells[columns.y_mm], 'y_mm', line);
    const name = (cells[columns.kind] ?? '').trim();
    const code = KIND_CODES.get(name.toLowerCase());
    if (code === undefined) {
      throw badLine(line, `the kind ${quote(name)} is unknown`, `use one of ${KIND_NAMES.join(', ')}`);
    }
    this.#kind[n] = code;
    if (code === Kind.end) this.#endLine = line;
    if (columns.thread >= 0) {
      const cell = (cells[columns.thread] ?? '').trim();
      this.#thread[n] = cell === '' ? (n > 0 ? this.#thread[n - 1] : 0) : threadNumber(cell, line);
    }
  }

  #position(cell: string | undefined, column: StitchTableColumn, line: number): number {
    const written = (cell ?? '').trim();
    const value = numberOf(this.#delimiter === ',' ? written : written.replace(',', '.'));
    if (value === null) {
      throw badLine(
        line,
        `${column} is ${quote(written)}, which is no number`,
        'give millimetres, such as 12.34',
      );
    }
    if (!(Math.abs(value) <= FURTHEST_MM)) {
      throw badLine(
        line,
        `${column} is ${quote(written)}, further than 10 m from the origin`,
        'give millimetres',
      );
    }
    const steps = Math.round(value * STEPS_PER_MM);
    if (Math.abs(value * STEPS_PER_MM - steps) > 1e-6) {
      this.#note('table-positions-rounded', line);
    }
    // Adding 0 turns −0 into 0.
    return steps / STEPS_PER_MM + 0;
  }

  /** One diagnostic a code: the first line, and how many there are. */
  #note(code: PlainOddity, line: number): void {
    const known = this.#oddities.get(code);
    if (known) known.times++;
    else this.#oddities.set(code, { line, times: 1 });
  }
}

function numberOf(text: string): number | null {
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : null;
}

function threadNumber(cell: string, line: number): number {
  if (!/^\d{1,9}$/.test(cell)) {
    throw badLine(
      line,
      `thread is ${quote(cell)}, which is no whole number`,
      `give a number from 0 to ${HIGHEST_THREAD}, or leave the cell empty`,
    );
  }
  return Number(cell);
}

/** Text of a cell as it can stand in one line of an error: short, without line ends. */
const quote = (text: string): string =>
  text === '' ? 'empty' : `"${text.slice(0, 30).replace(/\s+/g, ' ')}"`;
