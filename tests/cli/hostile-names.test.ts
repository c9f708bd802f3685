import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { columnsReport, columnsToCsvRecords } from '../../lib/report/columns/report.js';
import { printable } from '../../lib/report/render/printable.js';
import { toCsvRecords } from '../../lib/report/vet/csv.js';
import { inChromium } from '../browser/chromium.js';
import { SHOP } from '../built-in-shop.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { littleCrest } from '../report/little-design.js';
import { FILE } from '../report/on-fabric.js';
import { everythingSaid, HARM, type Spoken } from './hostile-shop.js';

onACoarseMesh();

/** Whether a person's terminal shows the text as it is: nothing in it steers the terminal or turns letters round. */
const isPlain = (text: string): boolean => text.split('\n').every((line) => printable(line) === line);

const FORMULA = /^\s*[=+\-@\t\r]/;

function holdSpoken({ args, kind, code, out, err, written }: Spoken): void {
  const said = args.join(' ');
  expect([0, 1, 2], said).toContain(code);
  expect(out + err, said).not.toBe('');
  expect(err, said).not.toContain('went wrong inside');
  expect(isPlain(err), `${said} tells on standard error`).toBe(true);
  // A name with line ends does not make a second line of an error.
  if (code === 2) expect(err.trimEnd().split('\n'), said).toHaveLength(1);
  expect(isPlain(kind === 'csv' ? out.replaceAll('\r\n', '\n') : out), `${said} prints`).toBe(true);
  if (kind === 'csv') {
    const cells = (parse(out) as string[][]).flat().filter((cell) => !/^-?[\d.]+$/.test(cell));
    for (const cell of cells) expect(cell, said).not.toMatch(FORMULA);
  }
  if (kind === 'html' || kind === 'svg') {
    expect(written, said).not.toBeNull();
    expect(isPlain(written!), said).toBe(true);
    expect(written, said).not.toMatch(/<script>alert|<img|<svg onload|onerror=alert\(1\)>/);
    expect(written, said).toContain('&lt;script&gt;alert(');
  }
}

/** Every command once, for what is read of it here and for what a browser makes of it. */
let said: Promise<Spoken[]> | undefined;
const everything = (): Promise<Spoken[]> => (said ??= everythingSaid());

describe('names that do harm', () => {
  it('are written out wherever they are shown', async () => {
    const spoken = await everything();
    for (const one of spoken) holdSpoken(one);
    // The names were really there to be seen.
    const unseen = spoken.filter(({ out, err, written }) => !/script|cmd/.test(out + err + written));
    expect(unseen.map(({ args }) => args)).toEqual([]);
  });

  it('start no formula in a table that a program writes', () => {
    for (const path of ['=cmd|x', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', ' =1', '\uff1d1', HARM]) {
      const vetting = SHOP.vet(littleCrest(), { file: { ...FILE, path } });
      for (const records of [
        toCsvRecords(vetting.report),
        columnsToCsvRecords(columnsReport(vetting, null, null)),
      ]) {
        const rows = parse(records) as string[][];
        expect(rows.length).toBeGreaterThan(0);
        for (const [file] of rows) expect(file).not.toMatch(FORMULA);
        for (const [file] of rows) expect(file).not.toMatch(/^\s*\uff1d/);
      }
    }
  });
});

const open = inChromium();

describe('a page or picture of names that are scripts', () => {
  it('runs none of them', async () => {
    const documents = (await everything()).filter(({ kind }) => kind === 'html' || kind === 'svg');
    expect(documents.length).toBe(12);
    for (const { args, written } of documents) {
      const dialogs: string[] = [];
      const { page, requests, errors } = await open(`<!doctype html><title>before</title>${written}`);
      page.on('dialog', (dialog) => {
        dialogs.push(dialog.message());
        void dialog.dismiss();
      });
      await page.reload();
      expect({ args, dialogs, requests, errors }).toEqual({ args, dialogs: [], requests: [], errors: [] });
      expect(await page.locator('img').count()).toBe(0);
      expect(await page.locator('body').textContent()).toContain('onerror=alert(1)');
      await page.close();
    }
  });

  it('is told from one that runs them', async () => {
    const { page } = await open('<title>x</title><img src=x onerror="document.title=\'hit\'">');
    await expect.poll(() => page.title(), { timeout: 30_000 }).toBe('hit');
  });
});
