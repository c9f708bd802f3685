import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../../cli/commands.js';
import { everywhere, type Option } from '../../../cli/options.js';
import { encodeDst } from '../../../lib/format/dst-encode.js';
import { someOf } from '../../in-full.js';
import { onACoarseMesh } from '../../mechanics/coarse-mesh.js';
import { littleCrest } from '../../report/little-design.js';
import { Broken } from '../broken.js';
import { ENTRIES, trialOf, VALUES } from './entries.js';
import { holdCsv, holdHtml, holdJson, holdPng, holdStitchFile, holdSvg, holdText } from './hold-output.js';
import { holdRan, holdTrial } from './hold-trial.js';
import { HARM } from './names.js';
import { shrink } from './shrink.js';
import { type Content, contentOf, type Ran, type Trial } from './trial.js';

onACoarseMesh();

/** Of each command; a few of those that work the pucker out. `npm run fuzz` goes on from there. */
const SEEDS = Array.from({ length: someOf(16) }, (_, n) => 8_000_000 + n);
const LONG = ['pucker', 'advise', 'card', 'compare', 'relay', 'resew', 'calibrate'];
const MOST_LONG = someOf(6);

describe('every command', () => {
  it('has an entry, and its options have values', () => {
    expect(Object.keys(ENTRIES).sort()).toEqual(Object.keys(COMMANDS).sort());
    for (const [name, { options }] of Object.entries(COMMANDS))
      for (const [option, { type, choices }] of Object.entries<Option>({ ...everywhere, ...options }))
        if (type !== 'flag' && choices === undefined)
          expect(VALUES, `${name} --${option}`).toHaveProperty([option]);
  });

  it.each(Object.keys(COMMANDS))('%s holds what it must on whatever it is given', async (command) => {
    for (const seed of LONG.includes(command) ? SEEDS.slice(0, MOST_LONG) : SEEDS)
      await holdTrial(trialOf(command, seed)).catch((error) => {
        throw new Error(`seed ${seed}: ${error}`, { cause: error });
      });
  });

  it('is entered the same again from the same seed', () => {
    for (const command of Object.keys(COMMANDS)) {
      expect(trialOf(command, 5)).toEqual(trialOf(command, 5));
      if (command !== 'profile') expect(trialOf(command, 5)).not.toEqual(trialOf(command, 6));
    }
  });
});

describe('what is held against it', () => {
  const trial: Trial = { argv: ['convert', 'a.dst', '-o', 'b.csv'], files: { 'a.dst': '' } };
  const ran: Ran = { code: 0, out: '', err: '', made: new Map(), changed: [] };

  it.each<[string, Partial<Trial>, Partial<Ran>]>([
    ['an exit code of no meaning', {}, { code: 3 }],
    ['an error without a word', {}, { code: 2 }],
    ['two lines of one error', {}, { code: 2, err: 'lieflat: a\nlieflat: b\n' }],
    ['a stack trace', {}, { code: 2, err: 'lieflat: a\n    at run (run.ts:1:1)\n' }],
    ['a fault of its own', {}, { code: 2, err: 'lieflat: something went wrong inside lieflat (x)\n' }],
    ['a line of somebody else', { argv: ['draw', 'a.dst'] }, { err: '(node:1) Warning\n' }],
    ['an input that has changed', {}, { changed: ['a.dst'] }],
    ['nothing written', {}, {}],
    ['a file that nobody asked for', {}, { made: new Map([['b.csv.tmp', Buffer.from('')]]) }],
    [
      'a file written in vain',
      {},
      { code: 2, err: 'lieflat: a\n', made: new Map([['b.csv', Buffer.from('x')]]) },
    ],
    ['a colour on no terminal', { argv: ['vet', 'a.dst'] }, { out: '\u001b[31mred\u001b[39m' }],
    ['a figure that is none', { argv: ['vet', 'a.dst'] }, { out: 'width NaN mm' }],
  ])('finds %s', async (_, otherTrial, otherRan) => {
    await expect(holdRan({ ...trial, ...otherTrial }, { ...ran, ...otherRan })).rejects.toBeInstanceOf(
      Broken,
    );
  });

  it('finds what a name does to a page, and broken markup', () => {
    const page = (body: string): string =>
      `<!doctype html><html lang="en"><head><title>a</title></head><body>${body}</body></html>`;
    holdHtml(page('<p>&lt;b&gt; 3 mm</p><script>Number.isNaN(3)</script>'), 'page', false);
    for (const body of [
      `<${HARM}>`,
      `<p on${HARM}="1">a</p>`,
      '<p onclick="1">a</p>',
      '<p>NaN mm</p>',
      '<p>a</b></p>',
      '<p a="1" a="2">a</p>',
      '<a href="javascript:1">a</a>',
      `<script>${HARM}</script>`,
    ])
      expect(() => holdHtml(page(body), 'page', false), body).toThrow(Broken);
  });

  it('finds broken pictures', () => {
    const svg = (inner: string): string => `<svg xmlns="http://www.w3.org/2000/svg">${inner}</svg>`;
    holdSvg(svg('<text>&amp;</text>'), 'picture');
    for (const inner of ['<g>', '<g a=1/>', '&nosuch;', `<${HARM}/>`, '<g onload="1"/>', '<g a="1" a="2"/>'])
      expect(() => holdSvg(svg(inner), 'picture'), inner).toThrow(Error);
    expect(() => holdPng(Buffer.from('\u0089PNG\r\n\u001a\n', 'latin1'), 'picture', null)).toThrow(Broken);
  });

  it('finds JSON that is none, of no form, or out of order', () => {
    const profile = { schema: 'lieflat/profile@1', path: null, differences: [] };
    holdJson(JSON.stringify(profile), 'json');
    for (const other of [
      { ...profile, schema: 'lieflat/unheard@1' },
      { ...profile, differences: null },
      { ...profile, a: { low: 2, value: 1, high: 3 } },
      { ...profile, a: [{ range: { grade: [5, 2] } }] },
      { ...profile, a: { wrinkleBandMm: [1, 3, 2] } },
      { ...profile, bounds: { minX: 1, maxX: 0 } },
    ])
      expect(() => holdJson(JSON.stringify(other), 'json'), JSON.stringify(other)).toThrow(Broken);
    expect(() => holdJson('{"schema":', 'json')).toThrow(Broken);
  });

  it('finds broken tables, stitch files and text', async () => {
    expect(() => holdCsv('a,b\r\n1\r\n', 'table')).toThrow(Broken);
    expect(() => holdCsv('a,b\r\n1,=1+1\r\n', 'table')).toThrow(Broken);
    expect(() => holdText('a\u202eb', 'text')).toThrow(Broken);
    const bytes = encodeDst(littleCrest());
    await holdStitchFile(bytes, 'dst', 'file');
    await expect(holdStitchFile(bytes.subarray(0, 900), 'dst', 'file')).rejects.toBeInstanceOf(Broken);
  });

  it('finds a copy that is another', async () => {
    const source: Content = contentOf(encodeDst(littleCrest()));
    const { x, ...design } = littleCrest();
    const moved = encodeDst({ ...design, x: x.map((mm, i) => (i === 40 ? mm + 1 : mm)) });
    const said: Trial = { argv: ['convert', 'a.dst', '-o', 'b.dst'], files: { 'a.dst': source } };
    const made = (bytes: Uint8Array): Ran => ({ ...ran, made: new Map([['b.dst', Buffer.from(bytes)]]) });
    await holdRan(said, made(encodeDst(littleCrest())));
    await expect(holdRan(said, made(moved))).rejects.toBeInstanceOf(Broken);
  });
});

describe('a failing trial', () => {
  it('is made smaller as long as it fails alike', async () => {
    const big: Trial = {
      argv: ['vet', 'a.csv', '--quiet', '--units', 'in'],
      files: { 'a.csv': Array.from({ length: 65 }, (_, i) => `line ${i}`).join('\n'), 'b.csv': 'x' },
      columns: 80,
    };
    const fails = async ({ argv, files }: Trial): Promise<string | null> =>
      argv.includes('a.csv') && String(files['a.csv']).includes('line 17\n') ? 'alike' : null;
    const small = await shrink(big, 'alike', fails);
    expect(small.argv).toEqual(['vet', 'a.csv']);
    expect(Object.keys(small.files)).toEqual(['a.csv']);
    expect(small.columns).toBeUndefined();
    expect(String(small.files['a.csv']).split('\n').length).toBeLessThan(12);
  });
});
