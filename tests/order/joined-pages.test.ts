import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import { namespaced, stackOfCards } from '../../lib/report/order/joined-pages.js';
import { html, tag } from '../../lib/report/render/markup.js';
import { htmlPage } from '../../lib/report/render/page.js';

const card = (name: string, points: number): string =>
  htmlPage({
    title: name,
    lang: 'en',
    css: `.card { font-size: ${points}pt; }\n.card.second, .card td { margin: 0; }`,
    body: tag(
      'main',
      { id: 'main', class: 'sheets' },
      tag('div', { class: 'card' }, tag('h1', {}, html(name)), '<svg><g id="s"/><use href="#s"/></svg>'),
    ),
  });

/** Every id of a page. */
const idsOf = (page: string): string[] => [...page.matchAll(/<[^>]* id="([^"]*)"/g)].map(([, id]) => id);

describe('cards one behind the other', () => {
  it('keep their own rules and ids, whatever they are called', () => {
    const odd = 'a" id="main" href="#s" .card { > url(#s)';
    const page = stackOfCards([card('one', 9), card(odd, 7)], '2 operator cards', 'en');
    const ids = idsOf(page);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toEqual(['main', 'c1-s', 'c2-s']);
    expect(page).toContain('.c1 .card { font-size: 9pt; }');
    expect(page).toContain('.c2 .card.second, .c2 .card td { margin: 0; }');
    expect(page).toContain('href="#c2-s"');
    expect(page).toContain(html(odd));
    const errors: string[] = [];
    parse(page, { onParseError: ({ code }) => errors.push(code) });
    expect(errors.filter((code) => code !== 'non-void-html-element-start-tag-with-trailing-solidus')).toEqual(
      [],
    );
  });

  it('refer to what is in them alone', () => {
    expect(namespaced('<a href="#x" aria-labelledby="a b">id="x"</a><b style="fill:url(#x)">', 'p-')).toBe(
      '<a href="#p-x" aria-labelledby="p-a p-b">id="x"</a><b style="fill:url(#p-x)">',
    );
  });
});
