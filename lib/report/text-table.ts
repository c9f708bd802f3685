import { displayWidth, wrap } from './wrap.js';

export interface TextColumn {
  head: string;
  align: 'left' | 'right';
  /** At most one: takes the room that the others leave, and breaks over lines. */
  flexible?: boolean;
}

/** The least room for a flexible column: the longest word in one is `double-zigzag`. */
const LEAST_FLEXIBLE = 14;
const GAP = 2;

/**
 * A plain table: headings over columns, two spaces between, no rules. Where it would not fit, each row is set as
 * running text with its headings instead. Returns lines without trailing blanks. Cells are text of ours, already
 * printable.
 *
 * @param width columns of the terminal that the whole table may take, `indent` included
 */
export async function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  width: number,
  indent = '',
): Promise<string[]> {
  const widths = fittingWidths(columns, rows, width - indent.length);
  if (widths === null) return rows.flatMap((row) => runningRow(columns, row, width, indent));
  const { default: Table } = await import('cli-table3');
  const table = new Table({
    head: columns.map((column) => column.head),
    colWidths: widths,
    colAligns: columns.map((column) => column.align),
    wordWrap: true,
    style: { head: [], border: [], compact: true, 'padding-left': 0, 'padding-right': 0 },
    chars: {
      top: '',
      'top-mid': '',
      'top-left': '',
      'top-right': '',
      bottom: '',
      'bottom-mid': '',
      'bottom-left': '',
      'bottom-right': '',
      left: indent,
      'left-mid': '',
      mid: '',
      'mid-mid': '',
      right: '',
      'right-mid': '',
      middle: ' '.repeat(GAP),
    },
  });
  for (const row of rows) table.push([...row]);
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd());
}

/** The width of each column, or null where they do not fit side by side. */
function fittingWidths(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  width: number,
): number[] | null {
  const widths = columns.map(({ head }, i) =>
    rows.reduce((most, row) => Math.max(most, displayWidth(row[i])), displayWidth(head)),
  );
  const room = width - GAP * (columns.length - 1);
  const over = widths.reduce((sum, w) => sum + w, 0) - room;
  if (over <= 0) return widths;
  const flexible = columns.findIndex((column) => column.flexible);
  if (flexible < 0 || widths[flexible] - over < LEAST_FLEXIBLE) return null;
  widths[flexible] -= over;
  return widths;
}

/** `object 3: kind satin; width mm 4.20`. */
function runningRow(
  columns: readonly TextColumn[],
  row: readonly string[],
  width: number,
  indent: string,
): string[] {
  const [first, ...rest] = columns.map(({ head }, i) => `${head} ${row[i]}`);
  return wrap(`${first}: ${rest.join('; ')}`, width, indent, `${indent}  `);
}
