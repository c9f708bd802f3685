/** Cards that were set one by one, as one page to print; pictures of several pages in one. */
import { BASE_CSS } from '../render/base-css.js';
import { tag } from '../render/markup.js';
import { htmlPage } from '../render/page.js';
import { PRINT_CSS } from '../render/print-css.js';

/** Elements that are in a page once; in markup of ours `"` and `>` stand nowhere but in tags. */
const TAG = /<[^>]*>/g;
const NAMED = / (id|for|aria-labelledby|aria-describedby)="([^"]*)"/g;
const REFERRED = / (href|xlink:href)="#([^"]*)"/g;

/** Markup whose ids and references begin with a prefix, so that several pictures can stand on one page. */
export const namespaced = (markup: string, prefix: string): string =>
  markup.replace(TAG, (element) =>
    element
      .replace(
        NAMED,
        (_, name, ids: string) =>
          ` ${name}="${ids
            .split(' ')
            .map((id) => prefix + id)
            .join(' ')}"`,
      )
      .replace(REFERRED, (_, name, id) => ` ${name}="#${prefix}${id}"`)
      .replace(/url\(#([^)]*)\)/g, (_, id) => `url(#${prefix}${id})`),
  );

/** Between two marks of a page that our own renderer made. */
function between(page: string, start: string, end: string): string {
  const from = page.indexOf(start) + start.length;
  return page.slice(from, page.indexOf(end, from));
}

/** Between sheets of paper; on a screen a gap. */
const STACK_CSS = `
.sheets > article + article { break-before: page; margin-top: 12mm; }
@media print { .sheets > article + article { margin-top: 0; } }
`;

/**
 * Pages of cards, as `operatorCard` sets them, one behind the other on one page.
 * @param title of the page; any text
 */
export function stackOfCards(cards: readonly string[], title: string, lang: string): string {
  const parts = cards.map((page, k) => {
    const name = `c${k + 1}`;
    const css = between(page, '<style>\n', '</style>').slice(BASE_CSS.length + PRINT_CSS.length);
    const main = page.slice(page.indexOf('<main'), page.lastIndexOf('</main>'));
    return {
      // Each card has its own size of type: its rules are for it alone.
      css: css.replaceAll(/\.card(?=[\s,.{])/g, `.${name} .card`),
      markup: tag('article', { class: name }, namespaced(main.slice(main.indexOf('>') + 1), `${name}-`)),
    };
  });
  return htmlPage({
    title,
    lang,
    css: STACK_CSS + parts.map(({ css }) => css).join('\n'),
    body: tag('main', { id: 'main', class: 'sheets' }, ...parts.map(({ markup }) => `\n${markup}`)),
  });
}
