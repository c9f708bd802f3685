/** A document as a page that stands by itself, or as a part of one: every text is made safe here. */
import {
  type Block,
  type Cell,
  type Entry,
  type Fact,
  type Figure,
  isFor,
  orderOf,
  type ReportDocument,
  type Rich,
  type Span,
  spansOf,
  type Table,
  textOf,
} from '../document.js';
import { barChart } from './bar-chart.js';
import { DOCUMENT_CSS } from './document-css.js';
import { html, tag } from './markup.js';
import { htmlPage } from './page.js';
import { SORT_SCRIPT } from './sort-script.js';

/** More rows than this are no table that a person reads, and a page of a million would open nowhere. */
export const MOST_ROWS = 2000;

/** How a page is set beside what all share. */
export interface PageLook {
  /** Rules of its own. */
  readonly css?: string;
  /** What stands on top; the title without it. */
  readonly heading?: string;
}

/** Sets a document as a whole page: its title on top, tables that sort. */
export const renderHtml = ({ title, language, blocks }: ReportDocument, look: PageLook = {}): string =>
  framedHtml({ title, language }, blocksAsHtml(blocks), look);

/** A whole page about markup of this renderer, for a document whose parts were set one by one. */
export const framedHtml = (
  { title, language }: Pick<ReportDocument, 'title' | 'language'>,
  markup: string,
  { css = '', heading = title }: PageLook = {},
): string =>
  htmlPage({
    title,
    lang: language,
    css: DOCUMENT_CSS + css,
    script: SORT_SCRIPT,
    body: [
      tag('header', {}, tag('h1', {}, html(heading))),
      tag('main', { id: 'main', tabindex: -1 }, '\n', markup, '\n'),
    ].join('\n'),
  });

/** Sets some blocks; a section at the outermost has a heading of that level. */
export const blocksAsHtml = (blocks: readonly Block[], level = 2): string =>
  blocks
    .filter((block) => isFor('page', block))
    .map((block) => {
      const markup = blockAsHtml(block, level);
      return block.for === 'screen' || block.for === 'paper'
        ? tag('div', { class: `on-${block.for}` }, markup)
        : markup;
    })
    .join('\n');

function blockAsHtml(block: Block, level: number): string {
  switch (block.is) {
    case 'verdict':
      return tag('p', { class: 'verdict' }, mark(block.level, block.word), ' ', rich(block.line));
    case 'section':
      return tag(
        'section',
        { id: block.id ?? null },
        tag(`h${Math.min(level, 6)}`, {}, rich(block.title)),
        '\n',
        blocksAsHtml(block.blocks, level + 1),
      );
    case 'facts':
      return factList(block.facts);
    case 'paragraph':
      return tag('p', {}, rich(block.text));
    case 'caution':
      return tag('p', { class: 'caution' }, rich(block.text));
    case 'list':
      return tag(block.ordered ? 'ol' : 'ul', {}, ...block.items.map((item) => tag('li', {}, rich(item))));
    case 'entries':
      return tag('ul', { class: 'entries' }, ...block.entries.map(entryAsHtml));
    case 'table':
      return tableAsHtml(block);
    case 'bars':
      return tag('figure', {}, barChart(block), tag('figcaption', {}, html(block.title)));
    case 'figure':
      return figureAsHtml(block);
  }
}

/** A fact without a label goes on with the one before. */
function factList(facts: readonly Fact[]): string {
  const parts = facts.map(
    ({ label, text }) => (label === '' ? '' : tag('dt', {}, html(label))) + tag('dd', {}, rich(text)),
  );
  return tag('dl', { class: 'facts' }, ...parts);
}

const entryAsHtml = ({ level, word, head, lines, sign = '' }: Entry): string =>
  tag(
    'li',
    {},
    tag('div', { class: 'entry-mark' }, mark(level, word), sign),
    tag('div', {}, tag('strong', {}, rich(head)), ...lines.map((line) => tag('p', {}, rich(line)))),
  );

/** The word of a level in its frame: filled, solid or dashed, so that a black and white print tells them apart. */
const mark = (level: string, word: string): string =>
  tag('strong', { class: `severity ${level}` }, html(word));

function figureAsHtml({ svg, caption, key = [], label }: Figure): string {
  const picture = label
    ? // Reached by the keyboard, or what lies outside the frame could not be scrolled to.
      tag('div', { class: 'picture', role: 'group', tabindex: 0, 'aria-label': label }, svg)
    : tag('div', { class: 'picture' }, svg);
  const signs = key.map(({ svg: sign, text }) => tag('li', {}, sign, ` ${html(text)}`));
  return tag(
    'figure',
    {},
    picture,
    tag('figcaption', {}, rich(caption), signs.length > 0 ? tag('ul', { class: 'keys' }, ...signs) : ''),
  );
}

/**
 * A table with a caption and scoped headers, in a frame that scrolls by itself where the screen is too narrow. It is
 * complete as it is; {@link SORT_SCRIPT} makes the heads of columns that sort into buttons.
 */
function tableAsHtml({
  id,
  caption,
  columns,
  rows,
  more = 0,
  mostRows = MOST_ROWS,
  tail,
  note,
}: Table): string {
  const shown = columns.flatMap((column, i) => (isFor('page', column) ? [{ ...column, i }] : []));
  const kept = rows.slice(0, mostRows);
  const left = more + rows.length - kept.length;
  const head = shown.map((column) =>
    tag(
      'th',
      { scope: 'col', class: column.number ? 'number' : null, 'data-sortable': column.sorts ?? false },
      html(column.head),
    ),
  );
  const cell = (row: readonly Cell[], { i, number, namesRow, sorts }: (typeof shown)[number]) =>
    tag(
      namesRow ? 'th' : 'td',
      {
        scope: namesRow ? 'row' : null,
        class: number ? 'number' : null,
        'data-by': sorts ? (orderOf(row[i]) ?? '') : null,
      },
      rich(textOf(row[i])),
    );
  const body = kept.map((row) => tag('tr', {}, ...shown.map((column) => cell(row, column))));
  return tag(
    'div',
    caption === undefined
      ? { class: 'table' }
      : { class: 'table', role: 'group', tabindex: 0, 'aria-labelledby': `${id}-caption` },
    tag(
      'table',
      { id },
      caption === undefined ? '' : tag('caption', { id: `${id}-caption` }, html(caption)),
      `\n${tag('thead', {}, tag('tr', {}, ...head))}\n`,
      tag('tbody', {}, '\n', body.join('\n'), '\n'),
    ),
    left > 0 && tail ? tag('p', {}, html(tail(left))) : '',
    note ? tag('p', { class: 'quiet small' }, html(note)) : '',
  );
}

const rich = (text: Rich): string => spansOf(text).map(spanAsHtml).join('');

function spanAsHtml({ text, strong, quiet, level, href }: Span): string {
  const classes = [...(quiet ? ['quiet', 'small'] : []), ...(level ? [`level-${level}`] : [])].join(' ');
  const name = href === undefined ? (strong || level ? 'strong' : 'span') : 'a';
  if (name === 'span' && classes === '') return html(text);
  return tag(name, { href: href ?? null, class: classes || null }, html(text));
}
