import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blocksAsHtml } from '../../lib/report/render/html.js';
import { html, tag } from '../../lib/report/render/markup.js';
import { htmlPage } from '../../lib/report/render/page.js';
import { SORT_SCRIPT } from '../../lib/report/render/sort-script.js';
import { anyName } from './any-report.js';

describe('text from outside', () => {
  it('neither opens a tag, nor ends an attribute, nor keeps a control character', () => {
    fc.assert(
      fc.property(anyName, (name) => {
        // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
        expect(html(name)).not.toMatch(/[<>"'\u0000-\u001f\u007f-\u009f\u202e]/);
      }),
    );
  });

  it('stands in attributes and text as it was meant', () => {
    expect(tag('p', { title: '"a" & <b>' }, html('<script>'))).toBe(
      '<p title="&quot;a&quot; &amp; &lt;b&gt;">&lt;script&gt;</p>',
    );
    expect(tag('p', { hidden: true, id: null, lang: false })).toBe('<p hidden></p>');
    // HTML has no end tag for these: https://html.spec.whatwg.org/multipage/syntax.html#void-elements
    expect(tag('br')).toBe('<br>');
  });
});

describe('a page', () => {
  const page = htmlPage({
    title: '</title><script>',
    lang: 'en',
    body: '<main id="main"></main>',
    script: SORT_SCRIPT,
  });

  it('lets its own script run and no other: the digest in its policy is that of the script', () => {
    const digest = createHash('sha256').update(SORT_SCRIPT.code).digest('base64');
    expect(page).toContain(`script-src &#39;sha256-${digest}&#39;`);
    expect(page.match(/<script>/g)).toHaveLength(1);
    expect(page).toContain(`<script>${SORT_SCRIPT.code}</script>`);
  });

  it('allows no script where it has none', () => {
    const bare = htmlPage({ title: 'x', lang: 'en', body: '' });
    expect(bare).not.toContain('script');
    expect(bare).toContain('default-src &#39;none&#39;');
  });

  it('names its language and keeps its title a title', () => {
    expect(page).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(page).toContain('<title>&lt;/title&gt;&lt;script&gt;</title>');
  });
});

describe('a table', () => {
  it('has a caption, heads with a scope, a name for each row, and what to sort by', () => {
    const table = blocksAsHtml([
      {
        is: 'table',
        id: 't',
        caption: 'a < b',
        rows: [
          ['one', { text: '1.5', by: 1.5 }],
          ['none', { text: '-', by: null }],
        ],
        columns: [
          { head: 'name', namesRow: true },
          { head: 'amount', number: true, sorts: true },
        ],
      },
    ]);
    expect(table).toContain('<caption id="t-caption">a &lt; b</caption>');
    expect(table).toContain('<th scope="col">name</th>');
    expect(table).toContain('<th scope="col" class="number" data-sortable>amount</th>');
    expect(table).toContain('<tr><th scope="row">one</th><td class="number" data-by="1.5">1.5</td></tr>');
    expect(table).toContain('<tr><th scope="row">none</th><td class="number" data-by="">-</td></tr>');
  });
});
