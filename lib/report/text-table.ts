import { displayWidth } from './wrap.js';

export interface TextColumn {
  head: string;
  align: 'left' | 'right';
  /** At most one: takes the room that the others leave, and breaks over lines. */
  flexible?: boolean;
}

/** The least room that a flexible column makes sense in. */
const LEAST_FLEXIBLE = 8;
const GAP = 2;

/**
 * A plain table: headings over columns, two spaces between, no rules. Returns lines without trailing blanks.
 * Cells are text of ours, already printable.
 *
 * @param width columns of the terminal that the whole table may take, `indent` included
 */
export async function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  width: number,
  indent = '',
): Promise<string[]> {
  const { default: Table } = await import('cli-table3');
  const natural = columns.map((column, i) =>
    Math.max(displayWidth(column.head), ...rows.map((row) => displayWidth(row[i]!))),
  );
  const flexible = columns.findIndex((column) => column.flexible);
  if (flexible >= 0) {
    const others = natural.reduce((sum, w, i) => (i === flexible ? sum : sum + w), 0);
    const room = width - indent.length - GAP * (columns.length - 1) - others;
    natural[flexible] = Math.min(natural[flexible]!, Math.max(room, LEAST_FLEXIBLE));
  }
  const table = new Table({
    head: columns.map((column) => column.head),
    colWidths: natural,
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
