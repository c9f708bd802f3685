import { count } from '../quantities.js';
import { html, tag } from '../render/markup.js';

export interface TableColumn<Row> {
  /** Any text. */
  head: string;
  /** Markup of the cell. */
  cell: (row: Row) => string;
  /** Figures: set to the right. */
  number?: boolean;
  /** This cell names its row. */
  namesRow?: boolean;
  /** What a sortable table orders this column by; `null` goes last. Without it the column cannot be sorted. */
  sortBy?: (row: Row) => number | string | null;
}

export interface Table<Row> {
  /** Unique on the page. */
  id: string;
  /** Any text. */
  caption: string;
  columns: readonly TableColumn<Row>[];
  rows: readonly Row[];
  /** Rows that are not among them, to be told of. */
  more?: number;
  /** Rows that are set; of the rest only the number. {@link MOST_ROWS} unless given. */
  mostRows?: number;
}

/** More rows than this are no table that a person reads, and a page of a million would open nowhere. */
export const MOST_ROWS = 2000;

/**
 * A table with a caption and scoped headers, in a frame that scrolls by itself where the screen is too narrow. It is
 * complete as it is; {@link SORT_SCRIPT} makes the heads of columns with `sortBy` into buttons.
 */
export function htmlTable<Row>({
  id,
  caption,
  columns,
  rows,
  more = 0,
  mostRows = MOST_ROWS,
}: Table<Row>): string {
  const left = more + Math.max(0, rows.length - mostRows);
  const head = columns.map(({ head, number, sortBy }) =>
    tag(
      'th',
      { scope: 'col', class: number ? 'number' : null, 'data-sortable': sortBy !== undefined },
      html(head),
    ),
  );
  const body = rows.slice(0, mostRows).map((row) =>
    tag(
      'tr',
      {},
      ...columns.map(({ cell, number, namesRow, sortBy }) =>
        tag(
          namesRow ? 'th' : 'td',
          {
            scope: namesRow ? 'row' : null,
            class: number ? 'number' : null,
            'data-by': sortBy ? (sortBy(row) ?? '') : null,
          },
          cell(row),
        ),
      ),
    ),
  );
  return tag(
    'div',
    // Reached by the keyboard, or what lies outside the frame could not be scrolled to.
    { class: 'table', role: 'group', tabindex: 0, 'aria-labelledby': `${id}-caption` },
    tag(
      'table',
      { id },
      tag('caption', { id: `${id}-caption` }, html(caption)),
      `\n${tag('thead', {}, tag('tr', {}, ...head))}\n`,
      tag('tbody', {}, '\n', body.join('\n'), '\n'),
    ),
    left > 0 ? tag('p', {}, `… and ${count(left)} more`) : '',
  );
}

/** Names with what they stand for, as a list of terms; the values are markup. */
export function factList(facts: readonly (readonly [name: string, value: string])[]): string {
  return tag(
    'dl',
    { class: 'facts' },
    ...facts.map(([name, value]) => tag('dt', {}, html(name)) + tag('dd', {}, value)),
  );
}
