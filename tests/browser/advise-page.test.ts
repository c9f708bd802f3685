import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { lieflat } from '../cli/at-a-terminal.js';
import { Needle } from '../report/little-design.js';
import { complaints, inChromium, sidewaysScroll } from './chromium.js';

const open = inChromium();

const HOSTILE = '<img src=x onerror="document.title=1">.dst';
const folder = mkdtempSync(join(tmpdir(), 'plans-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The page as the command line prints it. */
async function advised(path: string, ...options: string[]): Promise<string> {
  const { out, err } = await lieflat(['advise', path, '--format', 'html', ...options]);
  expect(err).toBe('');
  return out;
}

/** A page on which the plan asked about is not good enough: wide columns on a thin knit without backing, of a file whose name is markup. */
async function nothingGoodEnough(): Promise<string> {
  const wide = new Needle().column(0, 0, { width: 9, height: 24, underlay: 'zigzag' });
  writeFileSync(join(folder, HOSTILE), encodeDst(wide.column(12, 0, { width: 9, height: 24 }).end()));
  const profile = join(folder, 'strict.json');
  writeFileSync(profile, JSON.stringify({ accept: { grade: 5, washedGrade: 5 } }));
  const on = ['--fabric', 'performance-knit-thin', '--stack', 'none', '--profile', profile];
  return advised(join(folder, HOSTILE), ...on);
}

const NAME_DROP = new URL('../../samples/name-drop.dst', import.meta.url).pathname;

/** Planned once: that takes longer than all that is looked at. */
const pages = { name: '', inches: '', none: '' };
beforeAll(async () => {
  // Two plans, so that there is a table of them.
  pages.name = await advised(NAME_DROP, '--fabric', 'performance-knit-thin');
  const strokes = join(folder, 'strokes.dst');
  const stroke = { width: 5, height: 12, underlay: 'zigzag' } as const;
  writeFileSync(strokes, encodeDst(new Needle().column(0, 0, stroke).column(8, 0, stroke).end()));
  const polo = ['--fabric', 'pique-knit', '--stack', 'cutaway-2.5oz'];
  pages.inches = await advised(strokes, ...polo, '--units', 'in', '--after-wash', '0');
  pages.none = await nothingGoodEnough();
}, 300_000);

describe.each([
  ['a name on a summer shirt', 'name'],
  ['strokes, in inches, not washed', 'inches'],
  ['what nothing is good enough for', 'none'],
] as const)('the page of plans for %s', (_, key) => {
  it('asks for nothing, breaks nothing and satisfies the accessibility checker', async () => {
    const { page, requests, errors } = await open(pages[key]);
    expect(await complaints(page)).toEqual([]);
    expect([...requests, ...errors]).toEqual([]);
  });

  it('needs no scrolling sideways in a window 1280 wide, or 360', async () => {
    const { page } = await open(pages[key], { width: 1280 });
    expect(await sidewaysScroll(page)).toBe(0);
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await sidewaysScroll(page)).toBe(0);
  });

  it('fits A4 across on paper, each table within it', async () => {
    // 210 mm less margins of 12 mm, at 96 CSS pixels an inch.
    const across = (186 / 25.4) * 96;
    const { page } = await open(pages[key], { width: Math.floor(across), media: 'print' });
    expect(await sidewaysScroll(page)).toBe(0);
    for (const table of await page.locator('table').all()) {
      const { x, width } = (await table.boundingBox())!;
      expect(x + width).toBeLessThanOrEqual(across);
    }
    expect(await page.locator('.skip').isVisible()).toBe(false);
  });

  it('is whole without JavaScript, and offers no buttons that do nothing', async () => {
    const scripted = await open(pages[key]);
    const plain = await open(pages[key], { javaScript: false });
    const rows = (page: Page) => page.locator('#plans tbody tr').count();
    expect(await rows(plain.page)).toBe(await rows(scripted.page));
    if (key === 'name') expect(await rows(plain.page)).toBeGreaterThan(1);
    expect(await plain.page.locator('button').count()).toBe(0);
    expect((await scripted.page.locator('#plans button').count()) > 0).toBe((await rows(plain.page)) > 0);
    expect(await plain.page.locator('main h2').allInnerTexts()).toEqual(
      await scripted.page.locator('main h2').allInnerTexts(),
    );
    expect([...plain.requests, ...plain.errors]).toEqual([]);
  });
});

describe('the page of plans', () => {
  it('says first what to do, and marks that plan among all', async () => {
    const { page } = await open(pages.name);
    expect(await page.locator('main > :first-child').textContent()).toMatch(/^CHECK FIRST/);
    const marked = page.locator('#plans tbody tr', { hasText: '(this one)' });
    expect(await marked.count()).toBe(1);
    const backing = await page.locator('main dd').first().textContent();
    expect(await marked.locator('th').textContent()).toContain(
      backing!.replace(' (from the garment outward)', ''),
    );
  });

  it('says where no plan is good enough, and what would have to change', async () => {
    const { page } = await open(pages.none);
    expect(await page.locator('main > :first-child').textContent()).toMatch(
      /^CHECK FIRST.*wrinkles more than your standard allows$/,
    );
    expect(await page.locator('main h2').allInnerTexts()).toContain('What would have to change');
  });

  it('shows a name that is markup as a name', async () => {
    const { page, requests } = await open(pages.none);
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.locator('h1').textContent()).toContain(HOSTILE);
    expect(await page.title()).toContain(HOSTILE);
    expect(requests).toEqual([]);
  });

  it('is sorted by the keyboard', async () => {
    const { page } = await open(pages.name);
    const costs = async () =>
      (await page.locator('#plans tbody tr > :nth-child(1)').allInnerTexts()).map(Number);
    const rising = (await costs()).toSorted((a, b) => a - b);
    const head = page.locator('#plans th', { hasText: 'cost' });
    await head.getByRole('button').press('Enter');
    expect(await costs()).toEqual(rising);
    await head.getByRole('button').press('Enter');
    expect(await head.getAttribute('aria-sort')).toBe('descending');
    expect(await costs()).toEqual(rising.toReversed());
    expect(await complaints(page)).toEqual([]);
  });
});
