/** Plans are made of what the shop keeps, and one plan has one range wherever it is shown. */
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { USUAL_STOCK } from '../../lib/materials/stock.js';
import type { AdviseReport } from '../../lib/report/advise/report.js';
import { LOWEST_MM } from '../../lib/report/height-bands.js';
import { wordsFor } from '../../lib/report/phrases/words.js';
import type { PuckerReport } from '../../lib/report/pucker/report.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { everyNth, itInFull } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const words = wordsFor({ units: 'mm', detail: 'full' });

function folderWithColumn() {
  const shop = shopFolder();
  const column = new Needle().column(0, 0, { width: 6, height: 9, underlay: 'zigzag' }).end();
  writeFileSync(shop.at('i.dst'), encodeDst(column));
  const json = async <T>(...words: string[]): Promise<T> => {
    const { out, err } = await lieflat([words[0], shop.at('i.dst'), ...words.slice(1), '--format', 'json']);
    expect(err).toBe('');
    return JSON.parse(out) as T;
  };
  return { ...shop, json };
}

const sheetsOf = ({ plans }: AdviseReport): Set<string> =>
  new Set(plans.flatMap(({ stack }) => stack.map(({ sheet }) => sheet)));

describe('the sheets of a plan', () => {
  it('are those that the rules of the trade call for, where the shop says nothing', async () => {
    const { json } = folderWithColumn();
    const fabrics = ['denim', 'pique-knit', 'cap-unstructured', 'sheer-linen', 'performance-knit-thin'];
    for (const fabric of everyNth(2, fabrics)) {
      const report = await json<AdviseReport>('advise', '--fabric', fabric);
      for (const sheet of sheetsOf(report)) expect(USUAL_STOCK.ids).toContain(sheet);
      for (const { stack } of report.plans) {
        expect(stack.length).toBeLessThanOrEqual(3);
        // One weight of a kind.
        const kinds = stack.map(({ sheet }) => CATALOGUE.sheets[sheet].kind);
        const weights = new Set(stack.map(({ sheet }) => sheet));
        expect(weights.size).toBe(new Set(kinds).size);
      }
    }
  });

  it('are those of the profile, and those that it prices or adds; --stack may name any', async () => {
    const { at, json } = folderWithColumn();
    const on = ['--fabric', 'pique-knit', '--profile', at('shop.json')];
    const withProfile = (profile: object) => writeFileSync(at('shop.json'), JSON.stringify(profile));
    withProfile({ stock: ['cutaway-3oz'] });
    expect([...sheetsOf(await json<AdviseReport>('advise', ...on))]).toEqual(['cutaway-3oz']);
    const named = await json<AdviseReport>('advise', ...on, '--stack', 'cutaway-3.5oz');
    expect([...sheetsOf(named)]).toEqual(['cutaway-3.5oz']);
    // Cheaper than the usual sheet, and so the first to be looked at.
    withProfile({ prices: { sheets: { 'cutaway-3oz': 0.01 } } });
    expect(sheetsOf(await json<AdviseReport>('advise', ...on))).toContain('cutaway-3oz');
  });

  it('an empty shelf is said, with what would do', async () => {
    const { at } = folderWithColumn();
    writeFileSync(at('shop.json'), JSON.stringify({ stock: ['cutaway-2.5oz'] }));
    const on = ['--fabric', 'canvas-tote', '--profile', at('shop.json')];
    const { code, err } = await lieflat(['advise', at('i.dst'), ...on]);
    expect(code).toBe(2);
    expect(err).toMatch(/^lieflat: stock: holds nothing .*add tearaway-1\.8oz-firm.*--stack\n$/);
    for (const [stock, message] of [
      [['cutaway-9oz'], /stock\.0 is wrong: there is no backing sheet/],
      [[], /stock is wrong/],
      ['cutaway-3oz', /stock is wrong/],
    ] as const) {
      writeFileSync(at('shop.json'), JSON.stringify({ stock }));
      expect((await lieflat(['advise', at('i.dst'), ...on])).err).toMatch(message);
    }
  });
});

// A cap sits on a frame, a shirt in a round hoop: each in the smallest that holds the design.
itInFull.each(['terry-towel', 'cap-unstructured', 'pique-knit'])(
  'one plan on %s has one range wherever it is shown, as sewn and washed',
  async (fabric) => {
    const { at, json } = folderWithColumn();
    const written = async (out: string, ...line: string[]): Promise<string> => {
      const { code, err } = await lieflat([line[0], at('i.dst'), ...line.slice(1), '-o', at(out), '--force']);
      expect(code, err).toBe(0);
      return readFileSync(at(out), 'utf8');
    };
    const { recommended, plans } = await json<AdviseReport>('advise', '--fabric', fabric);
    const plan = plans.find(({ underlay }) => underlay.length === 0) ?? recommended;
    expect(plan.underlay).toEqual([]);
    const over = ['--fabric', fabric, '--stack', plan.stackText];
    const alone = await json<AdviseReport>('advise', ...over);
    const same = alone.plans.find(({ underlay }) => underlay.length === 0)!;
    const { washes } = plan.riskWashed;
    for (const [count, risk, other] of [
      [0, plan.riskNow, same.riskNow],
      [washes, plan.riskWashed, same.riskWashed],
    ] as const) {
      expect(other).toEqual(risk);
      const after = ['--after-wash', String(count)];
      const { risk: puckered } = await json<PuckerReport>('pucker', ...over, ...after);
      const { risk: vetted } = await json<VetReport>('vet', ...over, ...after);
      // Of the file as it is; what is advised stands behind it.
      const [, said] = /<desc>(.*?)<\/desc>/.exec(await written('proof.svg', 'proof', ...over, ...after))!;
      const { wrinkleMm, grade } = risk;
      expect(said.split('With our setup')[0]).toContain(
        words.proof.wrinkles({ wrinkleMm, grade, washes: count }),
      );
      for (const shown of [puckered, vetted!]) {
        expect(shown.wrinkleBandMm).toEqual(risk.wrinkleBandMm);
        expect(shown.range.wrinkleMm).toEqual(risk.range.wrinkleMm);
        expect([shown.grade, shown.wrinkleMm, shown.pullInMm]).toEqual([
          risk.grade,
          risk.wrinkleMm,
          risk.pullInMm,
        ]);
      }
    }
    // The card is of what is advised over this backing.
    const { risk: looks } = words.card;
    const card = await written('card.html', 'card', ...over);
    const { riskNow, riskWashed } = alone.recommended;
    expect(card).toContain(looks.looks({ when: looks.asSewn, ...riskNow, lowestMm: LOWEST_MM }));
    if (washes > 0)
      expect(card).toContain(
        looks.looks({ when: looks.washed({ washes }), ...riskWashed, lowestMm: LOWEST_MM }),
      );
  },
);
