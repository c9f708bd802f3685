import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import type { AdviseReport } from '../../lib/report/advise/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { ADVISE_CONTRACT } from '../report/contract.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

/** A folder with one wide column over zigzag. */
function folderWithColumn() {
  const shop = shopFolder();
  const column = new Needle().column(0, 0, { width: 6, height: 9, underlay: 'zigzag' }).end();
  writeFileSync(shop.at('i.dst'), encodeDst(column));
  return shop;
}
const ON_KNIT = ['--fabric', 'performance-knit'];

describe('lieflat advise', () => {
  it('tells a person what to do within 80 columns, and a program the same as data', async () => {
    const { at } = folderWithColumn();
    const text = await lieflat(['advise', at('i.dst'), ...ON_KNIT]);
    expect([text.code, text.err]).toEqual([0, '']);
    for (const line of text.out.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    const json = await lieflat(['advise', at('i.dst'), ...ON_KNIT, '--format', 'json']);
    const report = JSON.parse(json.out) as AdviseReport;
    expect(ADVISE_CONTRACT.safeParse(report).error).toBeUndefined();
    expect(text.out).toMatch(/^DO THIS /);
    const unwrapped = text.out.replace(/\s+/g, ' ');
    expect(unwrapped).toContain(report.recommended!.stackName);
    expect(unwrapped).toContain(`${report.recommended!.cost.total.toFixed(2)} USD a piece`);
    for (const line of report.recommended!.hooping) expect(unwrapped).toContain(line);
  });

  it('sets them as a page', async () => {
    const { at } = folderWithColumn();
    const { code } = await lieflat([
      ...['advise', at('i.dst'), ...ON_KNIT, '--format', 'html', '-o', at('plans.html')],
    ]);
    expect(code).toBe(0);
    expect(readFileSync(at('plans.html'), 'utf8')).toMatch(/^<!doctype html>/);
  });

  it('takes the prices, the currency and the grade that the shop set', async () => {
    const { at } = folderWithColumn();
    const profile = {
      prices: {
        currency: 'EUR',
        sheets: { 'woven-polyester': 0.4, 'cutaway-2.5oz': 0.2 },
        threadPer1000m: 2,
        bobbinPer1000m: 1,
        machinePerHour: 0,
      },
      accept: { grade: 1, washedGrade: 1, washes: 2 },
    };
    writeFileSync(at('shop.json'), JSON.stringify(profile));
    const { out } = await lieflat([
      ...['advise', at('i.dst'), '--fabric', 'jersey-knit', '--format', 'json'],
      ...['--profile', at('shop.json')],
    ]);
    const { recommended, plans, accepted } = JSON.parse(out) as AdviseReport;
    expect(accepted).toEqual({ grade: 1, washedGrade: 1, washes: 2 });
    expect(recommended).toEqual(plans[0]);
    expect(recommended?.stackText).toBe('cutaway-2.5oz');
    expect(recommended?.cost).toMatchObject({ currency: 'EUR', machine: 0 });
    expect(recommended?.cost.parts.sheets).toBeCloseTo(0.2, 6);
    expect(recommended?.riskWashed.washes).toBe(2);
  });

  it('needs a fabric, and says so', async () => {
    const { at } = folderWithColumn();
    const { code, err } = await lieflat(['advise', at('i.dst')]);
    expect(code).toBe(2);
    expect(err).toMatch(/^.*advise needs a fabric.*\n$/);
  });

  it('says of a file without stitches that there is nothing to plan', async () => {
    const { at } = folderWithColumn();
    writeFileSync(at('empty.dst'), encodeDst(new Needle().end()));
    const { code, err } = await lieflat(['advise', at('empty.dst'), ...ON_KNIT]);
    expect(code).toBe(2);
    expect(err).toMatch(/^.*empty\.dst: the file holds no stitches.*\n$/);
    expect(existsSync(at('plans.html'))).toBe(false);
  });
});

describe('lieflat vet --fabric', () => {
  it('carries the advice for the design and for each object that needs something', async () => {
    const { at } = folderWithColumn();
    writeFileSync(at('shop.json'), JSON.stringify({ accept: { washedGrade: 4.5 } }));
    const asked = ['vet', at('i.dst'), '--fabric', 'fleece', '--profile', at('shop.json')];
    const { out } = await lieflat([...asked, '--format', 'json']);
    const { advice, objects } = JSON.parse(out) as VetReport;
    expect(['yes', 'may', 'no']).toContain(advice?.meets);
    expect(advice?.recommended.riskWashed.wrinkleBandMm).toHaveLength(3);
    expect(advice?.text[0]).toMatch(/^Sew it over /);
    // A wide column draws in by what can be drawn out against.
    expect(objects[0].advice?.pullCompensationMm).toBeGreaterThan(0);
    const text = await lieflat(asked);
    expect(text.out).toContain('What to do');
    for (const line of text.out.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
  });

  it('reports a file without stitches all the same', async () => {
    const { at } = folderWithColumn();
    writeFileSync(at('empty.dst'), encodeDst(new Needle().end()));
    const { out, err } = await lieflat(['vet', at('empty.dst'), ...ON_KNIT, '--format', 'json']);
    expect(err).toBe('');
    expect((JSON.parse(out) as VetReport).advice).toBeNull();
  });
});
