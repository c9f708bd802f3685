import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { ROOT } from '../built.js';
import { lieflat } from '../cli/at-a-terminal.js';
import { holdWords } from '../forbidden-words.js';
import { IN_FULL } from '../in-full.js';
import { littleCrest, Needle } from '../report/little-design.js';
import { complaints, inChromium, sidewaysScroll } from './chromium.js';

/** What the command line writes soon; the others, and all of them by the engine alone, are held in the long runs and beside this test. */
const SOON_WRITTEN = ['proof', 'relay', 'resew'];

const open = inChromium();
/** Waits for what is to be seen, however slow the computer: the test's own limit ends it. */
const eventually = <T>(seen: () => T) => expect.poll(seen, { timeout: 60_000 });
const folder = mkdtempSync(join(tmpdir(), 'sheet-'));
const at = (name: string): string => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const HOSTILE = '<img src=x onerror="document.title=1">.dst';
const PAIR = new Needle()
  .column(0, 0, { width: 9, height: 14, underlay: 'zigzag' })
  .column(14, 0, { width: 3, underlay: 'center-run' })
  .end();

/** The page as the build makes it, from the sources as they are. */
let sheet = '';
beforeAll(() => {
  execFileSync(process.execPath, ['.config/page.mjs', at('sheet.html')], { cwd: ROOT });
  sheet = readFileSync(at('sheet.html'), 'utf8');
  writeFileSync(at('pair.dst'), encodeDst(PAIR));
  writeFileSync(at('crest.dst'), encodeDst(littleCrest()));
  writeFileSync(at(HOSTILE), encodeDst(littleCrest()));
  writeFileSync(at('broken.dst'), 'no stitch file at all');
  writeFileSync(at('empty.dst'), '');
  writeFileSync(at('incoming.dst'), readFileSync(join(ROOT, 'samples/incoming.dst')));
}, 60_000);

type Drawn = { width?: number; dark?: boolean };

async function opened({ width, dark }: Drawn = {}) {
  const visit = await open(sheet, { width });
  if (dark) await visit.page.emulateMedia({ colorScheme: 'dark' });
  return visit;
}

/** Drops files on the page, as a hand does: what cannot be had otherwise is the event alone. */
const drop = (page: Page, ...names: string[]): Promise<void> =>
  page.evaluate(`{
    const moved = new DataTransfer();
    for (const [name, text] of ${JSON.stringify(names.map((name) => [name, readFileSync(at(name), 'latin1')]))})
      moved.items.add(new File([Uint8Array.from(text, (one) => one.charCodeAt(0))], name));
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: moved, bubbles: true, cancelable: true }));
  }`);

/** What is seen of a part. */
const shown = async (page: Page, part: string): Promise<string> =>
  (await page.locator(part).allInnerTexts()).join('\n');

const answer = (page: Page, part: string) => page.locator(`#${part} .verdict`);

/** Looks at a design on a tote bag, which is soon worked out. */
async function onTote(page: Page, name: string): Promise<void> {
  await drop(page, name);
  await answer(page, 'check').waitFor();
  await page.getByLabel('Garment', { exact: true }).fill('tote bag');
  await page.getByRole('button', { name: 'Find the setup' }).click();
  await answer(page, 'setup').waitFor();
}

/** Presses a button and takes what is handed over. */
async function handedOver(page: Page, part: string, name: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.locator(`#${part}`).getByRole('button', { name, exact: true }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync((await download.path())!) };
}

/** Holds that all that is seen speaks as pages do, and names no command. */
async function holdShown(page: Page): Promise<void> {
  const text = await shown(page, 'body');
  holdWords(text, 'the page');
  expect(text).not.toMatch(/\blieflat [a-z]|--[a-z]/);
}

/** The file that the command line writes. */
async function written(...argv: string[]): Promise<Buffer> {
  const out = argv[argv.indexOf('-o') + 1];
  const { code, err } = await lieflat([...argv, '--force'], { cwd: folder });
  expect(code, err).toBeLessThan(2);
  return readFileSync(at(out));
}

describe('before anything is dropped', () => {
  it('says what to do, satisfies the accessibility checker and fits a phone', async () => {
    const { page, requests, errors } = await opened({ width: 360 });
    expect(await shown(page, 'main')).toContain('Drop stitch files');
    expect(await page.locator('main > section:visible').count()).toBe(1);
    expect(await complaints(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect([...requests, ...errors]).toEqual([]);
  });
});

describe('a file that is dropped', () => {
  it('is judged at once: verdict, picture, findings, size; and the next step is said', async () => {
    const { page, requests, errors } = await opened();
    await drop(page, 'incoming.dst');
    await answer(page, 'check').waitFor();
    const text = await shown(page, '#check');
    expect(text).toMatch(/DO NOT SEW.*1 failure, 31 warnings, 3 notes.*Next: send the letter/s);
    expect(text).toMatch(/82\.7 x 75\.7 mm.*3,465 in 34 objects.*7 min.*Needle points piled/s);
    expect(await page.locator('#check svg.design .callout').count()).toBeGreaterThan(10);
    expect(await page.getByRole('status').first().textContent()).toMatch(
      /^incoming\.dst: DO NOT SEW\. 1 fail/,
    );
    expect([...requests, ...errors]).toEqual([]);
  });

  it('whose name is markup is shown, and does nothing', async () => {
    const { page, requests } = await opened();
    await onTote(page, HOSTILE);
    await handedOver(page, 'out-card', 'Make the card');
    expect(await page.title()).toBe('lieflat');
    expect(await page.locator('img').count()).toBe(0);
    expect(await page.locator('#check h3').first().textContent()).toBe(HOSTILE);
    expect(requests).toEqual([]);
  });

  it('that is none gets one line: what is wrong and what to do', async () => {
    const { page } = await opened();
    await drop(page, 'broken.dst');
    const trouble = page.locator('#check .trouble');
    await eventually(() => trouble.textContent()).toMatch(
      /^broken\.dst: .*not a stitch file, or it is damaged; check that/,
    );
    expect(await answer(page, 'check').count()).toBe(0);
  });
});

describe('several files', () => {
  it('are a table, the worst first, each a button that shows it in full', async () => {
    const { page, errors } = await opened();
    await drop(page, 'crest.dst', 'broken.dst', 'incoming.dst', 'empty.dst', HOSTILE);
    await eventually(() => page.locator('#triage tbody tr').count()).toBe(5);
    const rows = await page.locator('#triage tbody tr').allInnerTexts();
    expect(rows.map((row) => /CANNOT BE READ|DO NOT SEW|CHECK FIRST|GOOD TO SEW/.exec(row)?.[0])).toEqual([
      'CANNOT BE READ',
      'CANNOT BE READ',
      'DO NOT SEW',
      ...rows.slice(3).map(() => expect.stringMatching(/CHECK FIRST|GOOD TO SEW/)),
    ]);
    expect(await page.locator('img').count()).toBe(0);
    await page.getByRole('button', { name: 'incoming.dst' }).click();
    await answer(page, 'check').waitFor();
    expect(await page.locator('#check h3').first().textContent()).toBe('incoming.dst');
    expect(await complaints(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 800 });
    expect(await page.locator('#files .table').evaluate((one) => one.scrollWidth - one.clientWidth)).toBe(0);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await complaints(page)).toEqual([]);
    expect(errors).toEqual([]);
  });

  it.runIf(IN_FULL)('are done as one order, with the files of the command', async () => {
    const { page } = await opened();
    await drop(page, 'crest.dst', 'pair.dst');
    await eventually(() => page.locator('#triage tbody tr').count()).toBe(2);
    await page.getByLabel('Garment', { exact: true }).fill('tote bag');
    await page.getByLabel('How many pieces').fill('2');
    await page.getByRole('button', { name: 'Do the whole order' }).click();
    await answer(page, 'order-part').waitFor();
    const argv = [
      'order',
      'crest.dst',
      'pair.dst',
      '--fabric',
      'tote bag',
      '--quantity',
      '2',
      '--out-dir',
      'order',
    ];
    expect((await lieflat(argv, { cwd: folder })).code).toBeLessThan(2);
    for (const name of ['cards.html', 'supplies.csv']) {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.locator('#order-part .files').getByRole('link', { name, exact: true }).click(),
      ]);
      expect(readFileSync((await download.path())!).equals(readFileSync(at(`order/${name}`))), name).toBe(
        true,
      );
    }
    expect(await complaints(page)).toEqual([]);
  });
});

describe('what is handed out', () => {
  it('is what the command writes, byte for byte', async () => {
    const { page, requests, errors } = await opened();
    await drop(page, 'pair.dst');
    await answer(page, 'check').waitFor();
    const expectSame = async (part: string, press: string, ...argv: string[]): Promise<void> => {
      const { name, bytes } = await handedOver(page, part, press);
      expect(name).toBe(argv.at(-1));
      if (IN_FULL || SOON_WRITTEN.includes(argv[0]))
        expect(bytes.equals(await written(...argv)), argv.join(' ')).toBe(true);
      else expect(bytes.length).toBeGreaterThan(1000);
    };
    await page.getByText('Colors, order and customer').click();
    await page.getByLabel('Thread colors').fill('navy, white');
    await page.getByLabel('Customer').fill('Harbor <Rowing> & Co');
    const threads = ['--threads', 'navy, white'];
    await expectSame('out-proof', 'Show the proof', 'proof', 'pair.dst', ...threads, '-o', 'pair-proof.svg');
    await expectSame('out-reply', 'Make the page', 'reply', 'pair.dst', ...threads, '-o', 'pair-reply.html');
    const check = ['vet', 'pair.dst', '--format', 'html', '-o', 'pair-check.html'];
    await expectSame('out-report', 'Make the file check', ...check);
    // Before a garment is named: on the tote bag the underlay can stay.
    const relay = ['relay', 'pair.dst', '-o', 'pair-relaid.dst'];
    await expectSame('out-relay', 'Make the new file', ...relay);
    // Asked for again, it is made again.
    expect((await handedOver(page, 'out-relay', 'Make the new file')).name).toBe('pair-relaid.dst');
    await page.getByRole('button', { name: 'Write the letter' }).click();
    const letter = page.getByRole('textbox', { name: 'Letter to the digitizer' });
    await letter.waitFor();
    const words = ['pair.dst', ...threads, '--relaid', 'pair-relaid.dst'];
    expect(await letter.inputValue()).toBe((await lieflat(['reply', ...words], { cwd: folder })).out);
    await expectSame(
      'larger',
      'Make it larger',
      'resew',
      'pair.dst',
      '--scale',
      '5%',
      '-o',
      'pair-widen-5pct.dst',
    );
    expect(await shown(page, '#larger')).toMatch(/OLD HOLES/);
    expect(await page.getByRole('img', { name: /old needle holes/i }).count()).toBe(1);

    // All but the setup, whose plan takes back what was made for another.
    await holdShown(page);
    expect(await complaints(page)).toEqual([]);

    await page.getByLabel('Garment', { exact: true }).fill('tote bag');
    await page.getByLabel('How many pieces').fill('24');
    await page.getByRole('button', { name: 'Find the setup' }).click();
    await answer(page, 'setup').waitFor();
    expect(await shown(page, '#setup')).toMatch(
      /backing.*needle.*price of 24.*Why.*Hooping.*keep your hands out/s,
    );
    const run = ['--fabric', 'tote bag', '--quantity', '24'];
    const setup = ['advise', 'pair.dst', ...run, '--format', 'html', '-o', 'pair-setup.html'];
    await expectSame('out-report', 'Make the setup page', ...setup);
    // The card is made of the file that will be sewn.
    expect(await shown(page, '#setup')).toMatch(/underlay\s+as it is in the file/);
    const job = [...run, ...threads, '--customer', 'Harbor <Rowing> & Co'];
    await expectSame('out-card', 'Make the card', 'card', 'pair.dst', ...job, '-o', 'pair-card.html');

    await holdShown(page);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await complaints(page), colorScheme).toEqual([]);
    }
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await complaints(page)).toEqual([]);
    expect([...requests, ...errors]).toEqual([]);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 700, height: 900 });
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await answer(page, 'setup').isVisible()).toBe(true);
    expect(await page.locator('button:visible').count()).toBe(0);
  }, 120_000);

  it('says that old holes will show', async () => {
    const { page } = await opened();
    await drop(page, 'pair.dst');
    await answer(page, 'check').waitFor();
    await page.getByLabel('Way', { exact: true }).selectOption('machine');
    await page.getByLabel('How far off hooping may be').fill('half a mm');
    await page.getByRole('button', { name: 'Make it larger' }).click();
    await eventually(() => page.locator('#larger .trouble').textContent()).toMatch(
      /half a mm; give a length/,
    );
    await page.getByLabel('How far off hooping may be').fill('0.2 mm');
    await handedOver(page, 'larger', 'Make it larger');
    expect(await shown(page, '#larger')).toMatch(/OLD HOLES? WILL SHOW.*Some old holes will show/s);
  });
});

describe('mistakes', () => {
  it('are not made by a check that knew no garment: it says so once there is a plan, which goes first', async () => {
    const { page, errors } = await opened();
    await onTote(page, 'pair.dst');
    expect(await shown(page, '#check')).toMatch(/before the garment was known.*go by "What to load" below/s);
    expect(await shown(page, '#out-relay')).not.toContain('A light fill under wide columns');
    await page.getByLabel('Garment', { exact: true }).fill('polo');
    await page.getByLabel('Garment', { exact: true }).press('Tab');
    await eventually(() => shown(page, '#check')).not.toContain('before the garment was known');
    expect(errors).toEqual([]);
  });

  it('are told where they were made, with what to do', async () => {
    const { page, errors } = await opened();
    await drop(page, 'crest.dst');
    await answer(page, 'check').waitFor();
    const garment = page.getByLabel('Garment', { exact: true });
    const find = page.getByRole('button', { name: 'Find the setup' });
    await garment.fill('frobnicator');
    await find.click();
    expect(await page.locator('#fabric-trouble').textContent()).toContain('answer the four questions');
    expect(await garment.getAttribute('aria-invalid')).toBe('true');
    for (const choice of ['not at all', 'like a polo', 'smooth and closed', 'yes, it goes'])
      await page.getByLabel(choice).check();
    expect(await shown(page, '#questions')).toMatch(/Taken as .*: your answers come nearest/);
    await page.getByLabel('How many pieces').fill('many');
    await find.click();
    const trouble = page.locator('#job .trouble').last();
    await eventually(() => trouble.textContent()).toMatch(
      /^How many pieces cannot be many; give a whole number/,
    );
    expect(errors).toEqual([]);
  });

  it('in the shop’s own figures leave those that were in use', async () => {
    const { page } = await opened();
    writeFileSync(at('bad.json'), '{ "limits": { "nothing": 3 } }');
    writeFileSync(at('good.json'), '{ "accept": { "grade": 4 } }');
    await drop(page, 'bad.json');
    const files = page.locator('#files');
    await eventually(() => files.locator('.trouble').textContent()).toContain('nothing');
    await drop(page, 'good.json', 'crest.dst');
    await answer(page, 'check').waitFor();
    expect(await files.locator('.note').textContent()).toContain('good.json');
    await onTote(page, 'crest.dst');
    expect(await shown(page, '#setup')).toContain('grade 4');
  });
});

describe('by the keyboard alone', () => {
  it('a file is chosen, its setup found and its card made', async () => {
    const { page } = await opened();
    await page.keyboard.press('Tab');
    expect(await page.locator(':focus').textContent()).toBe('Skip to the content');
    await page.keyboard.press('Enter');
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      (async () => {
        await page.keyboard.press('Tab');
        await page.keyboard.press('Enter');
      })(),
    ]);
    await chooser.setFiles(at('crest.dst'));
    await answer(page, 'check').waitFor();
    const tabTo = async (what: RegExp): Promise<void> => {
      for (let i = 0; i < 40; i++) {
        await page.keyboard.press('Tab');
        const focused = page.locator(':focus');
        const name = `${await focused.getAttribute('id')} ${await focused.textContent()}`;
        if (what.test(name)) return;
      }
      throw new Error(`the keyboard does not reach ${what}`);
    };
    await tabTo(/^fabric /);
    await page.keyboard.type('tote bag');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Enter');
    await answer(page, 'setup').waitFor();
    // Work that was asked for ends where it can be read on.
    expect(await page.locator(':focus').textContent()).toBe('What to load');
    await tabTo(/Make the card/);
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    expect(download.suggestedFilename()).toBe('crest-card.html');
  });

  it('work is stopped, and another begun', async () => {
    const { page, errors } = await opened();
    await drop(page, 'incoming.dst');
    await answer(page, 'check').waitFor();
    await page.getByLabel('Garment', { exact: true }).fill('running shirt');
    await page.getByRole('button', { name: 'Find the setup' }).click();
    await page.getByRole('button', { name: 'Stop' }).press('Enter');
    await eventually(() => page.locator('#job .trouble').last().textContent()).toContain('Stopped');
    await page.getByLabel('Lengths').selectOption('in');
    await eventually(() => shown(page, '#check')).toContain('3.26 x 2.98 in');
    expect(errors).toEqual([]);
  });
});
