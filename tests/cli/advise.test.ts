import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import type { AdviseReport } from '../../lib/report/advise/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { ADVISE_CONTRACT } from '../report/contract.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

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
    expect(text.out).toMatch(/^(GOOD TO SEW|CHECK FIRST) /);
    const unwrapped = text.out.replace(/\s+/g, ' ');
    expect(unwrapped).toContain(report.recommended!.stackName);
    expect(unwrapped).toContain(`$${report.recommended!.cost.total.toFixed(2)} a piece`);
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

  it('prices a run as the shop works and charges, in text, page and JSON; nothing without a quantity', async () => {
    const { at } = folderWithColumn();
    const profile = {
      work: { heads: 4, laborPerHour: 30, hoopingMinutes: 3, trimmingMinutes: 1 },
      pricing: {
        setupFee: 15,
        digitizing: 20,
        marginPercent: 50,
        spoilagePercent: 0,
        quantityBreaks: [{ from: 12, offPercent: 10 }],
      },
    };
    writeFileSync(at('shop.json'), JSON.stringify(profile));
    const asked = ['advise', at('i.dst'), '--fabric', 'canvas-tote', '--profile', at('shop.json')];
    const run = [...asked, '--quantity', '24'];
    const { plans } = JSON.parse((await lieflat([...run, '--format', 'json'])).out) as AdviseReport;
    for (const { cost, price } of plans) {
      // 4 minutes at 30 an hour are 2.00 of labor
      expect(price!.cost.each).toBeCloseTo(cost.total + 2, 2);
      expect(price!.each).toBeCloseTo((price!.cost.each / 0.5) * 0.9, 2);
      // What is charged once is price, not cost.
      expect(price!.cost.run).toBeCloseTo(24 * price!.cost.each, 6);
      expect(price!.run).toBeCloseTo(24 * price!.each + 35, 6);
      expect(price!.machineMinutes).toBeCloseTo(6 * cost.parts.machineMinutes, 1);
    }
    const [{ price }] = plans;
    const text = (await lieflat(run)).out.replace(/\s+/g, ' ');
    expect(text).toContain(`price of 24 $${price!.run.toFixed(2)}: ${price!.each.toFixed(2)} a piece`);
    expect(text).toContain('(margin 50 %, 10 % off for the quantity), setup fee 15.00, digitizing 20.00');
    expect(text).toContain('at the machine with 4 heads, 1 h 36 min to hoop and trim');
    await lieflat([...run, '--format', 'html', '-o', at('run.html')]);
    expect(readFileSync(at('run.html'), 'utf8')).toContain(`$${price!.run.toFixed(2)}`);
    const without = await lieflat([...asked, '--format', 'json']);
    expect((JSON.parse(without.out) as AdviseReport).recommended.price).toBeNull();
    for (const wrong of ['0', '1.5', 'many', ''])
      expect((await lieflat([...asked, '--quantity', wrong])).err).toMatch(/--quantity cannot be .*as 24\n$/);
  });

  it('says when the discount eats the margin', async () => {
    const { at } = folderWithColumn();
    const pricing = { marginPercent: 10, quantityBreaks: [{ from: 100, offPercent: 20 }] };
    writeFileSync(at('shop.json'), JSON.stringify({ pricing }));
    const asked = ['advise', at('i.dst'), '--fabric', 'canvas-tote', '--profile', at('shop.json')];
    expect((await lieflat([...asked, '--quantity', '99'])).out).not.toContain('BELOW COST');
    expect((await lieflat([...asked, '--quantity', '100'])).out).toContain('BELOW COST');
  });

  it('says one time at the machine: that of the file at the speed of the setup', async () => {
    const { at } = folderWithColumn();
    const on = ['--fabric', 'cap-structured', '--format', 'json'];
    const { recommended } = JSON.parse((await lieflat(['advise', at('i.dst'), ...on])).out) as AdviseReport;
    const { design } = JSON.parse((await lieflat(['vet', at('i.dst'), ...on])).out) as VetReport;
    expect(recommended.underlay).toEqual([]);
    expect(design.sewSpeedSpm).toBe(recommended.speedSpm);
    expect(design.sewSeconds / 60).toBeCloseTo(recommended.cost.parts.machineMinutes, 1);
    const alone = JSON.parse((await lieflat(['vet', at('i.dst'), '--format', 'json'])).out) as VetReport;
    expect(alone.design.sewSpeedSpm).toBe(800);
    expect(alone.design.sewSeconds).toBeLessThan(design.sewSeconds);
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
