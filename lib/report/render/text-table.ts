import { displayWidth, wrap } from './wrap.js';

export interface TextColumn {
  head: string;
  align: 'left' | 'right';
  /** At most one: takes the room that the others leave, and breaks over lines. */
  flexible?: boolean;
  /** With `flexible`: words are broken where they must be. */
  breaks?: boolean;
}

/** The least room for a flexible column; more where a word in it is longer. */
const LEAST_FLEXIBLE = 10;
const GAP = 2;

/**
 * A plain table: headings over columns, two spaces between, no rules. Where it would not fit, each row is set as
 * running text with its headings instead. Returns lines without trailing blanks. Cells are text of ours, already
 * printable. (From a cold start cli-table3 sets such a table in 20 ms, this in 4, and a whole run of a design is to
 * take no more than two starts of Node and 60 ms; nor has it a flexible column, or running text where none fits.)
 *
 * @param width columns of the terminal that the whole table may take, `indent` included
 */
export function textTable(
  columns: readonly TextColumn[],
  rows: readonly (readonly string[])[],
  width: number,
  indent = '',
): string[] {
  const widths = fittingWidths(columns, rows, width - indent.length);
  if (widths === null) return rows.flatMap((row) => runningRow(columns, row, width, indent));
  const heads = columns.map((column) => column.head);
  return [heads, ...rows].flatMap((row) => {
    const cells = row.map((cell, i) => (displayWidth(cell) > widths[i] ? wrap(cell, widths[i]) : [cell]));
    const height = Math.max(...cells.map((lines) => lines.length));
    return Array.from({ length: height }, (_, line) => {
      const set = cells.map((lines, i) => padded(lines[line] ?? '', widths[i], columns[i].align));
      return (indent + set.join(' '.repeat(GAP))).trimEnd();
    });
  });
}

function padded(text: string, width: number, align: 'left' | 'right'): string {
  const blanks = ' '.repeat(width - displayWidth(text));
  return align === 'left' ? text + blanks : blanks + text;
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
  if (flexible < 0) return null;
  const words = columns[flexible].breaks ? [] : rows.flatMap((row) => row[flexible].split(' '));
  const least = words.reduce((most, word) => Math.max(most, displayWidth(word)), LEAST_FLEXIBLE);
  if (widths[flexible] - over < least) return null;
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
