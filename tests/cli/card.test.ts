import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const ON_TWILL = ['--fabric', 'twill'];

/** A folder with one wide column over zigzag, and how to ask for its card. */
function shop() {
  const { folder, at } = shopFolder();
  const column = new Needle().column(0, 0, { width: 6, height: 18, underlay: 'zigzag' }).end();
  writeFileSync(at('i.dst'), encodeDst(column));
  const card = (...options: string[]) =>
    lieflat(['card', 'i.dst', ...ON_TWILL, '-o', 'card.html', ...options], { cwd: folder });
  return { folder, at, card, page: () => readFileSync(at('card.html'), 'utf8') };
}

/** What a page says, without its markup. */
const said = (page: string): string =>
  page
    .slice(page.indexOf('<body>'))
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

describe('lieflat card', () => {
  it('writes a page that stands by itself, and says so', async () => {
    const { card, page } = shop();
    const { code, out, err } = await card();
    expect([code, out]).toEqual([0, '']);
    expect(err).toMatch(/^wrote card\.html \(\d+\.\d kB\)\n$/);
    const document = page();
    expect(document).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/);
    // Neither fetches nor runs anything: its one address is the name of the SVG language, if that stands there at all.
    expect(document.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(
      /https?:|<script|<link|<img|<iframe|@import|url\(| src=/i,
    );
    expect(document).toContain('size: letter');
    expect(said(document)).toContain('i.dst on twill');
    expect(said(document)).toContain('Heights in mm');
    expect(said(document)).toContain('True size, if printed at 100 %');
  });

  it('is printed on the paper of the shop, and says whose job it is', async () => {
    const { at, card, page } = shop();
    writeFileSync(at('lieflat.config.json'), '{ "paper": "a4" }');
    const job = ['--order', '4711', '--customer', 'the ball club', '--quantity', '24', '--due', 'May 3'];
    expect((await card(...job, '--garment-color', 'heather', '--threads', 'navy')).code).toBe(0);
    expect(page()).toContain('size: A4');
    expect(said(page())).toContain(
      'Order 4711 · for the ball club · 24 pieces · garment heather · due May 3',
    );
    expect(said(page())).toMatch(/thread color 1 1 119 100 % navy/);
  });

  it('is set in Spanish where that is asked for, and refuses a language that it has not', async () => {
    const { card, page } = shop();
    expect((await card('--language', 'es', '--stack', 'cutaway-2.5oz')).code).toBe(0);
    expect(page()).toContain('<html lang="es">');
    expect(said(page())).toContain('i.dst en gabardina');
    const { code, err } = await card('--language', 'fr', '--force');
    expect(code).toBe(2);
    expect(err).toContain('es');
  });

  it('puts nothing in the place of a page that is there, unless it is told to', async () => {
    const { at, card, page } = shop();
    writeFileSync(at('card.html'), 'mine');
    const refused = await card();
    expect([refused.code, refused.out]).toEqual([2, '']);
    expect(refused.err).toMatch(/^lieflat: .*card\.html: there is a file of that name already; .*--force\n$/);
    expect(page()).toBe('mine');
    expect((await card('--force', '--stack', 'cutaway-2.5oz')).code).toBe(0);
    expect(page()).toMatch(/^<!doctype html>/);
  });

  it.each([
    [['--fabric', 'twil', '-o', 'card.html'], 'twil"'],
    [[...ON_TWILL, '-o', 'card.html', '--stack', 'tearaway'], 'the nearest are'],
    [[...ON_TWILL, '-o', 'card.html', '--hoop', 'rond-90'], 'did you mean round-90?'],
    [[...ON_TWILL, '-o', 'card.html', '--paper', 'a5'], 'a4'],
    [[...ON_TWILL, '-o', 'card.pdf'], '.html'],
    [['-o', 'card.html'], 'card needs a fabric'],
    [ON_TWILL, 'card needs a page to write'],
  ])('refuses %j in one line and writes nothing', async (options, words) => {
    const { folder } = shop();
    const before = readdirSync(folder);
    const { code, out, err } = await lieflat(['card', 'i.dst', ...options], { cwd: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(readdirSync(folder)).toEqual(before);
  });

  it('says of a file without stitches that there is nothing to sew', async () => {
    const { folder, at } = shop();
    writeFileSync(at('empty.dst'), encodeDst(new Needle().end()));
    const { code, err } = await lieflat(['card', 'empty.dst', ...ON_TWILL, '-o', 'card.html'], {
      cwd: folder,
    });
    expect(code).toBe(2);
    expect(err).toMatch(/^.*empty\.dst: the file holds no stitches.*\n$/);
    expect(existsSync(at('card.html'))).toBe(false);
  });

  it('is in inches and on A4 paper where that is asked for', async () => {
    const { card, page } = shop();
    await card('--units', 'in', '--paper', 'a4', '--stack', 'cutaway-2.5oz');
    const document = page();
    expect(document).toContain('size: A4');
    // 6 mm and 18 mm, over 25.4
    expect(said(document)).toMatch(/0\.2\d x 0\.7\d in \(/);
    expect(said(document)).toContain('Heights in inches');
  });

  it("prints what a piece costs only if asked, in the shop's own currency and at its prices", async () => {
    const { at, card, page } = shop();
    const prices = {
      currency: 'EUR',
      sheets: { 'cutaway-2.5oz': 40 },
      threadPer1000m: 0,
      bobbinPer1000m: 0,
      machinePerHour: 0,
    };
    writeFileSync(at('shop.json'), JSON.stringify({ prices }));
    const asked = ['--profile', at('shop.json'), '--stack', 'cutaway-2.5oz'];
    await card(...asked);
    expect(said(page())).not.toContain('EUR');
    await card(...asked, '--cost', '--force');
    expect(said(page())).toContain('cost a piece before labor 40.00 EUR');
  });
});
