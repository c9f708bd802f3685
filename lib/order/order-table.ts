/** An order as a shop keeps it in a spreadsheet: a line a design, with the garment it goes on and how many are wanted. */
import { LieflatError } from '../core/errors.js';
import { badLine, filledRows } from '../format/table-text.js';
import type { Catalogue } from '../materials/catalogue.js';
import { fabricNamed, isFabricNamed } from '../materials/fabric-named.js';
import { answersIn, FABRIC_QUESTIONS, fabricFor } from '../materials/fabric-questions.js';
import { garmentsAkin } from '../materials/garments.js';
import type { Place } from '../materials/places.js';
import { parseStack, stackText } from '../mechanics/stack-notation.js';
import { ORDER_COLUMNS, type OrderColumn } from './order-columns.js';

/** What a column is called as well, small letters alone. */
const ALSO: Readonly<Record<string, OrderColumn>> = {
  design: 'file',
  filename: 'file',
  fabric: 'garment',
  qty: 'quantity',
  pieces: 'quantity',
  placement: 'place',
  colors: 'threads',
  threadcolors: 'threads',
  stack: 'backing',
  ordernumber: 'order',
  orderno: 'order',
  duedate: 'due',
  notes: 'remarks',
};

/** One line of an order, its names looked up. */
export interface OrderLine {
  /** Of the table, or the number of the file where there is none; from 1. */
  readonly line: number;
  /** As the order names it. */
  readonly file: string;
  /** The garment or fabric, as the order names it, and the fabric that this leads to. */
  readonly garment: string;
  readonly fabric: string;
  readonly quantity: number;
  readonly place: Place | null;
  /** The backing that was asked for, as `stackText` sets it; null leaves it free. */
  readonly stack: string | null;
  /** Colors in sewing order with commas; empty where nobody has said. */
  readonly threads: string;
  readonly garmentColor: string;
  readonly order: string;
  readonly customer: string;
  readonly due: string;
  readonly remarks: string;
}

/** A line that cannot be done. */
export interface OrderFault {
  readonly line: number;
  /** As the order names it; nobody has looked for it. Left out where no file is named, or it is what is wrong. */
  readonly file?: string;
  readonly what: string;
  readonly todo: string;
}

export interface OrderTable {
  readonly lines: readonly OrderLine[];
  readonly faults: readonly OrderFault[];
  /** Heads of columns that are not read. */
  readonly unread: readonly string[];
}

/** What lines are looked up in, and what counts where a line says nothing. */
export interface OrderLookup {
  readonly catalogue: Catalogue;
  readonly places: readonly Place[];
  /** Throws for a color that there is not. */
  readonly checkColors: (list: string) => void;
  readonly garment?: string;
  readonly quantity?: number;
  readonly place?: Place;
  readonly stack?: string;
}

const MOST_PIECES = 1_000_000;
const EXPECTED = `begin with a line of heads, as ${ORDER_COLUMNS.slice(0, 4).join(',')}`;

/**
 * Reads an order (RFC 4180). Taken as well: a byte order mark, UTF-16 with one, any line ends, semicolons or tabs for commas, columns in any order,
 * heads in capitals or with blanks, further columns, blank lines. Lines that are wrong are listed and left out.
 *
 * @throws LieflatError `undecodable`, its place `line N`, where there is no table or it names no files
 */
export async function readOrder(bytes: Uint8Array, lookup: OrderLookup): Promise<OrderTable> {
  const [head, ...records] = await filledRows(bytes);
  if (!head) throw badLine(1, 'the order is empty', EXPECTED);
  const { columns, unread } = columnsOf(head.cells, head.line);
  const lines: OrderLine[] = [];
  const faults: OrderFault[] = [];
  for (const { cells, line } of records) {
    const wide = cells.findLastIndex((cell) => cell.trim() !== '');
    const row =
      wide < head.cells.length
        ? lineOf((column) => textIn(cells, columns.get(column)), line, lookup)
        : {
            line,
            what: `the line has ${wide + 1} cells and the heads are ${head.cells.length}`,
            todo: 'put quotes around a cell that holds a comma, as "navy, white"',
          };
    if ('what' in row) faults.push(row);
    else lines.push(row);
  }
  if (records.length === 0) throw badLine(head.line, 'no line follows the heads', 'add a line for each file');
  return { lines, faults, unread };
}

/** Lines for files that are given without a table. */
export function linesOfFiles(files: readonly string[], lookup: OrderLookup): OrderTable {
  const lines: OrderLine[] = [];
  const faults: OrderFault[] = [];
  files.forEach((file, k) => {
    const row = lineOf((column) => (column === 'file' ? file : ''), k + 1, lookup);
    // The file is all that tells where the fault is.
    if ('what' in row) faults.push({ ...row, what: `${file}: ${row.what}` });
    else lines.push(row);
  });
  return { lines, faults, unread: [] };
}

/** Without capitals, blanks and marks: `Garment Color` is `garmentColor`. */
const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '');

function columnsOf(heads: readonly string[], line: number) {
  const known = new Map<string, OrderColumn>([
    ...Object.entries(ALSO),
    ...ORDER_COLUMNS.map((column) => [plain(column), column] as const),
  ]);
  const columns = new Map<OrderColumn, number>();
  const unread: string[] = [];
  heads.forEach((head, at) => {
    const column = known.get(plain(head));
    if (column === undefined) {
      if (head.trim() !== '') unread.push(head.trim());
      return;
    }
    if (columns.has(column)) throw badLine(line, `the column ${column} is there twice`, 'keep one of them');
    columns.set(column, at);
  });
  if (!columns.has('file')) throw badLine(line, 'no column is called file', EXPECTED);
  return { columns, unread };
}

/** A spreadsheet is kept from reading a name as a formula by an apostrophe before it. */
const textIn = (cells: readonly string[], at: number | undefined): string =>
  (at === undefined ? '' : (cells[at] ?? '')).trim().replace(/^'(?=[=+\-@])/, '');

function lineOf(
  cell: (column: OrderColumn) => string,
  line: number,
  lookup: OrderLookup,
): OrderLine | OrderFault {
  const faults: Pick<OrderFault, 'what' | 'todo'>[] = [];
  /** Every cell is looked at, so that all that is wrong with a line is told at once. */
  const read = <T>(what: () => T): T | undefined => {
    try {
      return what();
    } catch (error) {
      if (!(error instanceof LieflatError)) throw error;
      faults.push({ what: `${error.place}: ${error.what}`, todo: error.todo });
      return undefined;
    }
  };
  const file = cell('file');
  if (file === '') faults.push({ what: 'the file is missing', todo: 'name the stitch file' });
  const garment = read(() => garmentIn(cell('garment') || lookup.garment || '', lookup));
  const quantity = quantityIn(cell('quantity'), lookup);
  if (quantity === null)
    faults.push({
      what: `the quantity cannot be ${JSON.stringify(cell('quantity'))}`,
      todo: `give a whole number from 1 to ${MOST_PIECES}`,
    });
  const place = read(() => placeIn(cell('place'), lookup));
  const stack = read(() => stackIn(cell('backing') || lookup.stack || '', lookup));
  read(() => lookup.checkColors(cell('threads')));
  read(() => lookup.checkColors(cell('garmentColor')));
  if (faults.length > 0 || !garment || quantity === null || place === undefined || stack === undefined)
    return { line, ...(file !== '' && { file }), ...joinedFaults(faults) };
  return {
    line,
    file,
    ...garment,
    quantity,
    place,
    stack,
    threads: cell('threads'),
    garmentColor: cell('garmentColor'),
    order: cell('order'),
    customer: cell('customer'),
    due: cell('due'),
    remarks: cell('remarks'),
  };
}

/** Several faults as one: `what (todo); what (todo); what`, and what to do about the last. */
export function joinedFaults(
  faults: readonly Pick<OrderFault, 'what' | 'todo'>[],
): Pick<OrderFault, 'what' | 'todo'> {
  const last = faults[faults.length - 1];
  const before = faults.slice(0, -1).map(({ what, todo }) => `${what} (${todo})`);
  return { what: [...before, last.what].join('; '), todo: last.todo };
}

/** The backing as `stackText` sets it; null where none is named. */
const stackIn = (text: string, { catalogue }: OrderLookup): string | null =>
  text === '' ? null : stackText(parseStack(text.toLowerCase(), catalogue));

/** The garment as the order names it; where it answers the questions, the fabric that they lead to stands for it. */
function garmentIn(named: string, lookup: OrderLookup): Pick<OrderLine, 'garment' | 'fabric'> {
  const fabric = fabricIn(named, lookup);
  return { garment: ASKED.test(named) ? fabric : named, fabric };
}

function quantityIn(text: string, { quantity = 1 }: OrderLookup): number | null {
  if (text === '') return quantity;
  const number = /^\d{1,7}$/.test(text) ? Number(text) : Number.NaN;
  return number >= 1 && number <= MOST_PIECES ? number : null;
}

/** What is known of a garment without its name: `ask=some medium plain washable`. */
const ASKED = /^ask\s*[=:]/i;

const FOUR_WORDS = Object.values(FABRIC_QUESTIONS)
  .map((answers) => answers.join(' or '))
  .join('; ');

function fabricIn(garment: string, { catalogue }: OrderLookup): string {
  const refuse = (what: string, akin: readonly string[] = []) =>
    new LieflatError({
      code: 'unknown-id',
      place: garment === '' ? 'garment' : `garment ${JSON.stringify(garment)}`,
      what,
      todo: `write ${akin.length > 0 ? `which (${akin.join(', ')})` : 'an everyday word, as polo, hoodie, towel or cap,'} into the column garment; where none fits, ask= and four words, as ask=some medium plain washable (one each of: ${FOUR_WORDS})`,
    });
  if (garment === '') throw refuse('it is missing');
  if (ASKED.test(garment)) {
    const answers = answersIn(garment.replace(ASKED, ''));
    if (answers === null) throw refuse('the four words do not answer the four questions');
    return fabricFor(answers);
  }
  if (!isFabricNamed(catalogue, garment)) {
    const akin = garmentsAkin(garment, catalogue.garments);
    throw refuse(
      akin.length > 0 ? 'that may be several garments' : 'no fabric or garment is called that',
      akin,
    );
  }
  return fabricNamed(catalogue, garment).fabric.id;
}

function placeIn(text: string, { places, place: usual = undefined }: OrderLookup): Place | null {
  if (text === '') return usual ?? null;
  const found = places.find(({ id, name }) => plain(id) === plain(text) || plain(name) === plain(text));
  if (found) return found;
  throw new LieflatError({
    code: 'unknown-id',
    place: `place ${JSON.stringify(text)}`,
    what: 'there is no place of that name',
    todo: 'lieflat catalog places lists them',
  });
}
