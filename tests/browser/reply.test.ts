import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { PAPER_NAMES, type PaperName } from '../../lib/report/card/paper.js';
import { replyPage } from '../../lib/report/reply/document.js';
import { replyReport } from '../../lib/report/reply/report.js';
import { SHOP } from '../built-in-shop.js';
import { FILE } from '../report/on-fabric.js';
import { complaints, inChromium } from './chromium.js';

const open = inChromium();

const DESIGNS = ['name-drop', 'incoming', 'crest', 'cap-front', 'towel-monogram', 'jacket-back'];

const pageOf = (name: string, paper: PaperName): string => {
  const bytes = readFileSync(new URL(`../../samples/${name}.dst`, import.meta.url));
  const vetting = SHOP.vet(decodeDst(bytes), { file: FILE });
  const reply = replyReport({ report: vetting.report, relaid: null });
  return replyPage(reply, vetting, { units: 'mm', paper });
};

describe.each(PAPER_NAMES)('a reply on %s', (paper) => {
  it.each(DESIGNS)('of %s takes one sheet and asks for nothing', async (name) => {
    const { page, requests, errors } = await open(pageOf(name, paper), { media: 'print' });
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    expect([...requests, ...errors]).toEqual([]);
  });
});

describe('a reply on a screen', () => {
  it('satisfies the accessibility checker', async () => {
    const { page } = await open(pageOf('incoming', 'letter'));
    expect(await complaints(page)).toEqual([]);
  });
});
