import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { lieflat, shopFolder } from '../cli/at-a-terminal.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { littleCrest } from '../report/little-design.js';
import { complaints, inChromium, sidewaysScroll } from './chromium.js';

onACoarseMesh();

const open = inChromium();

const SAMPLES = new URL('../../samples/', import.meta.url).pathname;
const sample = (name: string): string => join(SAMPLES, name);

/** Pages that several tests look at are worked out once. */
const pages = new Map<string, Promise<string>>();
function once(name: string, make: () => Promise<string>): Promise<string> {
  if (!pages.has(name)) pages.set(name, make());
  return pages.get(name)!;
}

/** The page as the command line prints it. */
const vetted = (...args: string[]): Promise<string> =>
  once(args.join(' '), async () => {
    const { out, err } = await lieflat(['vet', ...args, '--format', 'html', '--fail-on', 'never']);
    expect(err).toBe('');
    return out;
  });

/** A page of everything at once: several designs, one with a name that is markup and escape sequences. */
const manyDesigns = (): Promise<string> =>
  once('many designs', () => {
    const { folder, at } = shopFolder();
    rmSync(at('broken.dst'));
    const hostile =
      '"><img src=x onerror="document.title=1"><script>document.title=1<!-- \u001b[31m\u202e.dst';
    mkdirSync(at('hostile'));
    writeFileSync(join(at('hostile'), hostile), encodeDst(littleCrest()));
    return vetted(sample('incoming.dst'), sample('crest.dst'), folder);
  });

/** Words for a page about a fabric; the second is of many objects, and takes as long as all other pages together. */
const NAME_ON_FABRIC = [sample('name-drop.dst'), '--fabric', 'canvas-tote', '--units', 'in'];
const MANY_ON_FABRIC = [sample('incoming.dst'), '--fabric', 'pique-knit', '--units', 'in'];

/** What the cells of one column say, from the top. */
const columnOf = (page: Page, table: string, column: number): Promise<string[]> =>
  page.locator(`${table} tbody tr > :nth-child(${column})`).allInnerTexts();

describe.each([
  ['one design', () => vetted(sample('incoming.dst'))],
  ['one design on fabric, in inches', () => vetted(...NAME_ON_FABRIC)],
  ['many designs', manyDesigns],
])('the page of %s', (_, document) => {
  it('asks for nothing, breaks nothing and satisfies the accessibility checker', async () => {
    const { page, requests, errors } = await open(await document());
    expect(await complaints(page)).toEqual([]);
    expect(requests).toEqual([]);
    expect(errors).toEqual([]);
  });

  it('needs no scrolling sideways in a window 1280 wide, or 360', async () => {
    const { page } = await open(await document(), { width: 1280 });
    expect(await sidewaysScroll(page)).toBe(0);
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await sidewaysScroll(page)).toBe(0);
  });

  it('keeps every callout within its picture, and letters each place that the list names', async () => {
    const { page } = await open(await document());
    const sections = await page.locator('section[id^=design]').all();
    expect(sections.length).toBeGreaterThan(0);
    for (const section of sections) {
      const picture = section.locator('svg.design');
      const frame = (await picture.boundingBox())!;
      const callouts = await picture.locator('.callout').all();
      for (const callout of callouts) {
        const box = (await callout.boundingBox())!;
        expect(box.x).toBeGreaterThanOrEqual(frame.x);
        expect(box.y).toBeGreaterThanOrEqual(frame.y);
        expect(box.x + box.width).toBeLessThanOrEqual(frame.x + frame.width);
        expect(box.y + box.height).toBeLessThanOrEqual(frame.y + frame.height);
      }
      const listed = await section.locator('.entries svg').allTextContents();
      const drawn = await picture.locator('.callout').allTextContents();
      expect(new Set(drawn)).toEqual(new Set(listed));
      // Numbers are those of objects.
      expect(drawn.join('')).toMatch(/^[A-Z]*$/);
    }
  });
});

describe('a name that is markup', () => {
  it('is shown and does nothing', async () => {
    const { page } = await open(await manyDesigns());
    expect(await page.title()).toBe('File check: 6 designs');
    expect(await page.locator('img').count()).toBe(0);
    const names = await page.locator('h2').allInnerTexts();
    expect(names.filter((name) => name.includes('"><img src=x'))).toHaveLength(1);
    expect(names.join('')).toContain('\\x1b[31m\\u202e.dst');
  });
});

describe('sorting', () => {
  it('is done by the keyboard, says so, and turns round', async () => {
    const { page } = await open(await vetted(sample('incoming.dst')));
    const table = '#design-1-objects';
    const head = page.locator(`${table} th`, { hasText: 'width mm' });
    const before = await columnOf(page, table, 1);
    expect(await head.getAttribute('aria-sort')).toBe(null);
    await head.getByRole('button').focus();
    await page.keyboard.press('Enter');
    expect(await head.getAttribute('aria-sort')).toBe('ascending');
    const figures = (texts: string[]): number[] => texts.filter((text) => text !== '-').map(Number);
    const rising = await columnOf(page, table, 5);
    expect(figures(rising)).toEqual(figures(rising).toSorted((a, b) => a - b));
    // What has no figure goes last either way.
    const dashes = rising.filter((text) => text === '-').length;
    expect(dashes).toBeGreaterThan(0);
    expect(rising.slice(-dashes).every((text) => text === '-')).toBe(true);
    await page.keyboard.press('Space');
    expect(await head.getAttribute('aria-sort')).toBe('descending');
    const falling = await columnOf(page, table, 5);
    expect(figures(falling)).toEqual(figures(rising).toReversed());
    expect(falling.slice(-dashes).every((text) => text === '-')).toBe(true);
    await page.locator(`${table} th`, { hasText: 'object' }).getByRole('button').press('Enter');
    expect(await head.getAttribute('aria-sort')).toBe(null);
    expect(await columnOf(page, table, 1)).toEqual(before);
  });

  it('leaves a sorted page without complaints', async () => {
    const { page } = await open(await vetted(sample('incoming.dst')));
    await page.locator('#design-1-objects th', { hasText: 'kind' }).getByRole('button').press('Enter');
    expect(await complaints(page)).toEqual([]);
  });
});

describe('without JavaScript', () => {
  it('the page is whole and offers no buttons that do nothing', async () => {
    const document = await vetted(sample('incoming.dst'));
    const { page, requests, errors } = await open(document, { javaScript: false });
    expect(await page.locator('button').count()).toBe(0);
    expect(await page.locator('#design-1-objects tbody tr').count()).toBe(34);
    expect(await page.locator('.entries > li').count()).toBe(12);
    expect(await page.locator('main').textContent()).toContain('DO NOT SEW');
    expect([...requests, ...errors]).toEqual([]);
  });
});

describe('the keyboard', () => {
  it('first reaches a link past the head, and then what scrolls', async () => {
    const { page } = await open(await vetted(sample('incoming.dst')), { width: 360 });
    await page.keyboard.press('Tab');
    expect(await page.locator(':focus').textContent()).toBe('Skip to the content');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    expect(await page.locator(':focus').getAttribute('aria-label')).toContain('Picture of');
  });
});

describe('on paper', () => {
  const PAGES: [string, string[]][] = [
    ['several designs', [sample('incoming.dst'), sample('crest.dst')]],
    ['a design on fabric', NAME_ON_FABRIC],
  ];
  if (IN_FULL) PAGES.push(['a design of many objects on fabric', MANY_ON_FABRIC]);
  it.each(PAGES)('the page of %s fits A4 across, with each picture on one sheet', async (_, words) => {
    // 210 mm by 297 mm less margins of 12 mm, at 96 CSS pixels an inch.
    const [across, down] = [(186 / 25.4) * 96, (273 / 25.4) * 96];
    const { page } = await open(await vetted(...words), { width: Math.floor(across), media: 'print' });
    expect(await sidewaysScroll(page)).toBe(0);
    for (const picture of await page.locator('svg.design').all())
      expect((await picture.boundingBox())!.height).toBeLessThan(down);
    for (const table of await page.locator('table:visible').all()) {
      const { x, width } = (await table.boundingBox())!;
      expect(x + width).toBeLessThanOrEqual(across);
    }
    expect(await page.locator('.skip').isVisible()).toBe(false);
  });
});

describe('the accessibility checker', () => {
  it('has something to say about a page that is not sound', async () => {
    const { page, requests } = await open(
      '<p style="color:#ccc">too pale</p><img src="http://example.invalid/x.png">',
    );
    expect((await complaints(page)).map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(['color-contrast', 'document-title', 'html-has-lang', 'image-alt']),
    );
    expect(requests).toEqual(['http://example.invalid/x.png']);
  });
});

describe('the command line', () => {
  it('writes the same page to a file as to the terminal, and reads on past a file that is none', async () => {
    const { at } = shopFolder();
    const words = ['vet', at('crest.dst'), at('broken.dst'), at('plain.dst'), '--format', 'html'];
    const printed = await lieflat(words);
    expect(printed.code).toBe(2);
    expect(printed.out).toContain('1 file could not be read.');
    expect((await lieflat([...words, '-o', at('report.html')])).code).toBe(2);
    expect(readFileSync(at('report.html'), 'utf8')).toBe(printed.out);
  });
});
