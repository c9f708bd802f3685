import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PageJob } from '../../cli/page/protocol.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import * as lib from '../../lib/index.js';
import { bigDesign } from '../bench/big-design.js';
import { builtProgram, ROOT } from '../built.js';
import { IN_FULL } from '../in-full.js';
import { littleCrest, Needle } from '../report/little-design.js';
import type { BarePage, Came } from './bare-page/bare-page.js';
import { inChromium, type Visit } from './chromium.js';

/** All jobs on real samples as well, which takes minutes. */

const open = inChromium();
const folder = mkdtempSync(join(tmpdir(), 'page-'));
const at = (name: string): string => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const sample = (name: string): Uint8Array => readFileSync(join(ROOT, 'samples', name));
const small = encodeDst(
  new Needle()
    .column(0, 0, { width: 9, height: 14, underlay: 'zigzag' })
    .column(14, 0, { width: 3, underlay: 'center-run' })
    .end(),
);

/** The page with the engine alone. */
let engineAlone = '';
builtProgram();
beforeAll(() => {
  const file = at('engine-alone.html');
  execFileSync(process.execPath, ['.config/page.mjs', file, 'tests/browser/bare-page'], { cwd: ROOT });
  engineAlone = readFileSync(file, 'utf8');
});

type World = { bare: BarePage };

const given = (page: Page, files: Readonly<Record<string, Uint8Array>>): Promise<void> =>
  page.evaluate(
    (all) => (globalThis as unknown as World).bare.give(all),
    Object.entries(files).map(([name, bytes]) => [name, Buffer.from(bytes).toString('latin1')] as const),
  );

const onPage = async (page: Page, job: PageJob): Promise<Came> => {
  const { heard, ...came } = await page.evaluate(
    (asked) => (globalThis as unknown as World).bare.run(asked),
    job,
  );
  return came;
};

/** The same line at the command line. */
const argvOf = ({ command, options, words }: PageJob): string[] => [
  command,
  ...words,
  ...Object.entries(options).flatMap(([name, value]) =>
    [value].flat().flatMap((one) => (one === true ? [`--${name}`] : [`--${name}`, String(one)])),
  ),
];

/** Runs lines by the packed program, one after another in one process and one folder; gives what each says and writes. */
const AT_A_TERMINAL = `
const { readdirSync, readFileSync, rmSync, statSync } = require('node:fs');
const { run } = require(process.argv[1]);
const sink = (into) => ({ write: (text, done) => { into.push(text); done(); } });
const there = () => new Map(readdirSync('.', { recursive: true }).filter((name) => statSync(name).isFile()).map((name) => [name, readFileSync(name, 'latin1')]));
(async () => {
  const all = [];
  for (const argv of JSON.parse(process.argv[2])) {
    const [out, err, before] = [[], [], there()];
    const exit = await run(argv, { stdout: sink(out), stderr: sink(err), stdin: (async function* () {})(), cwd: process.cwd(), env: {}, isTTY: false });
    const files = {};
    for (const [name, text] of there()) if (before.get(name) !== text) {
      files[name] = text;
      if (!before.has(name) && !/^lieflat\\./.test(name)) rmSync(name);
    }
    all.push({ exit, stdout: out.join(''), stderr: err.join(''), files });
  }
  process.stdout.write(JSON.stringify(all));
})();`;

function atATerminal(files: Readonly<Record<string, Uint8Array>>, jobs: readonly PageJob[]): Came[] {
  const cwd = mkdtempSync(join(folder, 'terminal-'));
  for (const [name, bytes] of Object.entries(files)) writeFileSync(join(cwd, name), bytes);
  const program = join(ROOT, '.build/cli/program.js');
  const said = execFileSync(
    process.execPath,
    ['-e', AT_A_TERMINAL, program, JSON.stringify(jobs.map(argvOf))],
    { cwd, maxBuffer: 1 << 28, encoding: 'utf8' },
  );
  return JSON.parse(said) as Came[];
}

const job = (command: string, options: PageJob['options'], ...words: string[]): PageJob => ({
  command,
  options,
  words,
});

/** Forms of jobs that work the pucker out more than once. */
const slowJobsOn = (design: string, fabric: string): PageJob[] => [
  job('advise', { fabric, format: 'html', quantity: '24', out: 'plan.html' }, design),
  job('relay', { fabric, out: 'relaid.dst' }, design),
  job('card', { fabric, out: 'card.html' }, design),
  job('vet', { format: 'json', fabric, stack: 'none' }, design),
  job('relay', { fabric, out: 'relaid.csv', compensate: true, to: 'keep' }, design),
  job('reply', { fabric, out: 'reply.html', paper: 'a4' }, design),
  job('proof', { out: 'proof.svg', fabric }, design),
];

/** One backing, which is soon worked out. */
const OVER_ONE = { stack: 'tearaway-1.8oz-firm', 'after-wash': '0' };

/** Every job that the page offers, on a design and a fabric. */
const jobsOn = (design: string, fabric: string): PageJob[] => [
  job('vet', { objects: true, units: 'in' }, design),
  job('vet', { format: 'html', place: 'left-chest' }, design),
  job('vet', { format: 'json', hoop: '100x100' }, design),
  job('columns', { format: 'json' }, design),
  job('pucker', { fabric, ...OVER_ONE, map: 'map.svg', format: 'json' }, design),
  job('advise', { fabric, ...OVER_ONE, format: 'html', quantity: '24', out: 'plan.html' }, design),
  job('relay', { out: 'relaid.dst' }, design),
  job(
    'card',
    {
      ...{ fabric, ...OVER_ONE, out: 'card.html', cost: true },
      ...{ threads: 'navy, white', order: '4711', quantity: '24' },
    },
    design,
  ),
  job('reply', { threads: 'navy, white' }, design),
  job('proof', { out: 'proof.png', threads: 'navy, white', 'garment-color': 'light gray' }, design),
  job('resew', { out: 'again.dst', map: 'holes.svg' }, design),
  job('draw', { out: 'drawing.svg', by: 'density' }, design),
  job('compare', { format: 'json' }, design, 'small.dst'),
  job('convert', { out: 'table.csv' }, design),
  job('catalog', { format: 'json' }, 'fabrics', fabric),
  ...(IN_FULL ? slowJobsOn(design, fabric) : []),
  // What is said of objects is kept, and holds for the next job.
  job('vet', { is: ['1=run'], format: 'json' }, design),
  job('vet', { format: 'json' }, design),
  job('vet', { is: ['1=found'] }, design),
  // What cannot be done is told in the same line.
  job('vet', {}, 'no-such.dst'),
  job('relay', { out: design, force: true }, design),
  job('card', { out: 'card.html' }, design),
  job('advise', { fabric: 'ask' }, design),
  job('advise', { fabric: 'moleskin' }, design),
  job('draw', { out: 'drawing.pdf' }, design),
];

const TABLE =
  'file,garment,quantity,place,threads,order\nsmall.dst,tote,12,,"navy, white",A-1\nother.dst,tote,2,,,A-2\n';

const WORKS: [string, Readonly<Record<string, Uint8Array>>, PageJob[]][] = [
  ['a small design', { 'small.dst': small }, jobsOn('small.dst', 'canvas-tote')],
  [
    'a sample, with a profile',
    {
      'small.dst': small,
      'crest.dst': sample('crest.dst'),
      'lieflat.config.json': new TextEncoder().encode(
        '{"limits": {"satin-too-narrow": 4}, "threadColors": {"house blue": "#123456"}} // ours\n',
      ),
    },
    [
      job('vet', {}, 'crest.dst'),
      job('vet', { format: 'html' }, 'crest.dst', 'small.dst'),
      job('columns', { over: '4' }, 'crest.dst'),
      job('draw', { out: 'drawing.svg', by: 'width' }, 'crest.dst'),
      job('proof', { out: 'proof.svg', threads: 'house blue', 'keep-threads': true }, 'crest.dst'),
    ],
  ],
];
if (IN_FULL)
  WORKS.push(
    [
      'an order',
      { 'small.dst': small, 'order.csv': new TextEncoder().encode(TABLE) },
      [job('order', { 'out-dir': 'done' }, 'order.csv')],
    ],
    [
      'a name',
      { 'small.dst': small, 'name-drop.dst': sample('name-drop.dst') },
      jobsOn('name-drop.dst', 'performance-knit'),
    ],
    [
      'an incoming design',
      { 'small.dst': small, 'incoming.dst': sample('incoming.dst') },
      jobsOn('incoming.dst', 'pique-knit'),
    ],
  );

describe('the work of the page', () => {
  it.each(WORKS)('on %s is that of the command line, byte for byte', async (_, files, jobs) => {
    const expected = atATerminal(files, jobs);
    const { page, requests, errors } = await open(engineAlone);
    await given(page, files);
    const came: Came[] = [];
    for (const one of jobs) came.push(await onPage(page, one));
    for (const [i, one] of jobs.entries()) expect(came[i], argvOf(one).join(' ')).toEqual(expected[i]);
    expect(expected.flatMap(({ files }) => Object.values(files)).every((text) => text.length > 50)).toBe(
      true,
    );
    expect([requests, errors]).toEqual([[], []]);
  });
});

/** One line that names a place, says what is wrong and what to do. */
const ONE_LINE = /^lieflat: [^\n]+: [^\n]+; [^\n]+\n$/;

describe('a hostile file', () => {
  const header = (count: string): Uint8Array => {
    const bytes = encodeDst(littleCrest());
    bytes.set(Buffer.from(`ST:${count}\r`, 'latin1'), 20);
    return bytes;
  };
  const noise = Uint8Array.from({ length: 5000 }, (_, i) => (Math.imul(i + 1, 2654435761) >>> 13) & 0xff);
  const markup = '"><img src=x onerror=alert(1)><script>alert(2)<!--\u001b[31m\u202e.dst';

  it('gets one line where it cannot be read, and the next file is read all the same', async () => {
    const { page, errors } = await open(engineAlone);
    const files = {
      'empty.dst': new Uint8Array(0),
      'noise.csv': noise,
      'short.dst': small.slice(0, 300),
      'text.dst': new TextEncoder().encode('no stitches in here'),
    };
    await given(page, { ...files, 'small.dst': small });
    for (const name of Object.keys(files)) {
      const { exit, stdout, stderr } = await onPage(page, job('vet', {}, name));
      expect([exit, stdout], name).toEqual([2, '']);
      expect(stderr).toMatch(ONE_LINE);
      expect(stderr).toContain(name);
    }
    expect((await onPage(page, job('vet', {}, 'small.dst'))).stdout).toContain('small.dst');
    expect(errors).toEqual([]);
  });

  it('is read as at the command line where it can be, whatever it claims and is called', async () => {
    const files = { [markup]: header('9999999'), 'noise.dst': noise, 'small.dst': small };
    const jobs = Object.keys(files).flatMap((name) => [
      job('vet', { format: 'html' }, name),
      job('draw', { out: 'drawing.svg' }, name),
    ]);
    const { page, requests, errors } = await open(engineAlone);
    await given(page, files);
    const expected = atATerminal(files, jobs);
    for (const [i, one] of jobs.entries()) expect(await onPage(page, one)).toEqual(expected[i]);
    expect([requests, errors]).toEqual([[], []]);
  });

  it.each(['.', '..', '/', '', 'a/../..'])('called %j does no harm', async (name) => {
    const { page, errors } = await open(engineAlone);
    await given(page, { [name]: small, 'small.dst': small });
    const { exit, stderr } = await onPage(page, job('columns', {}, 'small.dst'));
    expect([exit, stderr, errors]).toEqual([0, '', []]);
  });
});

describe('what is not to be done in a page', () => {
  it('is refused in one line', async () => {
    const { page } = await open(engineAlone);
    await given(page, { 'small.dst': small });
    for (const one of [
      job('page', { out: 'page.html' }),
      job('no-such-command', {}),
      job('constructor', {}),
      job('draw', { out: 'drawing.png' }, 'small.dst'),
      job('vet', { watch: true }, '/'),
      job('vet', { 'no-such-option': 'x' }, 'small.dst'),
    ]) {
      const { exit, stdout, stderr, files } = await onPage(page, one);
      expect([exit, stdout, files], one.command).toEqual([2, '', {}]);
      expect(stderr).toMatch(ONE_LINE);
    }
  });
});

describe('the engine', () => {
  it('says what is under way, and how much of it is done where it can be counted', async () => {
    const { page } = await open(engineAlone);
    await given(page, { 'small.dst': small, 'other.dst': small });
    const notes = await page.evaluate(
      async (jobs) => {
        const { bare } = globalThis as unknown as World;
        return [...(await bare.run(jobs[0])).heard!, ...(await bare.run(jobs[1])).heard!];
      },
      [
        job('vet', {}, 'small.dst', 'other.dst'),
        job('advise', { fabric: 'canvas-tote', stack: 'none' }, 'small.dst'),
      ],
    );
    expect(notes.map(([note]) => note)).toEqual(
      expect.arrayContaining(['reading', 'working out the pucker']),
    );
    const shares = notes.flatMap(([, share]) => (share === null ? [] : [share]));
    expect(shares).toEqual([0, 0.5, 1]);
  });

  it('leaves the page free to answer while it works on 60,000 stitches', async () => {
    const { page } = await open(engineAlone);
    await given(page, { 'big.dst': await bigDesign(lib, 60_000) });
    const { stdout, answers } = await page.evaluate(
      (asked) => (globalThis as unknown as World).bare.runMeanwhile(asked),
      job('vet', {}, 'big.dst'),
    );
    expect(stdout).toContain('big.dst');
    // A page that was held up would have answered once.
    expect(answers).toBeGreaterThan(20);
  });

  it('is stopped at once, and works on with the files that it has been given', async () => {
    const { page, errors } = await open(engineAlone);
    await given(page, { 'small.dst': small, 'big.dst': await bigDesign(lib, 60_000) });
    await onPage(page, job('vet', { is: ['1=run'] }, 'small.dst'));
    const stopped = await page.evaluate(
      (asked) => (globalThis as unknown as World).bare.ended(asked, true),
      job('pucker', { fabric: 'denim' }, 'big.dst'),
    );
    expect(stopped).toBe('stopped: Stopped. Nothing was changed.');
    // What was said of its objects before is known to the new worker as well.
    const { stdout } = await onPage(page, job('vet', { objects: true }, 'small.dst'));
    expect(stdout).toContain('set by you');
    expect(errors).toEqual([]);
  });

  it('tells in one line where its worker breaks off, and works on', async () => {
    const { page } = await open(engineAlone);
    const said = await page.evaluate(
      (asked) => (globalThis as unknown as World).bare.ended(asked, false),
      // Files that are none: no page sends them, so nothing in the worker expects them.
      { ...job('vet', {}), files: 5 } as unknown as PageJob,
    );
    expect(said).toMatch(/^failed: The work broke off[^\n]+\.$/);
    await given(page, { 'small.dst': small });
    expect((await onPage(page, job('columns', {}, 'small.dst'))).exit).toBe(0);
  });

  it('forgets a file that it is told to', async () => {
    const { page } = await open(engineAlone);
    await given(page, { 'small.dst': small });
    await page.evaluate(() => (globalThis as unknown as World).bare.forget(['small.dst']));
    expect((await onPage(page, job('vet', {}, 'small.dst'))).stderr).toMatch(ONE_LINE);
  });
});

describe('the policy of the page', () => {
  /** Ways out of a page or a worker, each tried; what was let through. */
  const WAYS_OUT = `(async () => {
    const through = [];
    const attempt = async (name, work) => { try { await work(); through.push(name); } catch {} };
    await attempt('fetch', () => fetch('https://example.com/'));
    await attempt('eval', () => (0, eval)('1'));
    await attempt('function', () => new Function('return 1')());
    await attempt('socket', () => new Promise((done, fail) => { const s = new WebSocket('wss://example.com/'); s.onopen = done; s.onerror = fail; }));
    if (typeof importScripts === 'function') await attempt('script', () => importScripts('https://example.com/a.js'));
    return through;
  })()`;

  const tried = async (visit: Visit): Promise<string[][]> =>
    visit.page.evaluate(async (ways) => {
      const world = globalThis as unknown as {
        Worker: new (address: string) => { onmessage: (event: { data: string[] }) => void };
      };
      const text = `${ways}.then((through) => postMessage(through))`;
      const worker = new world.Worker(URL.createObjectURL(new Blob([text])));
      return [await new Promise<string[]>((done) => (worker.onmessage = ({ data }) => done(data)))];
    }, WAYS_OUT);

  it('lets nothing out, from the worker neither', async () => {
    const visit = await open(engineAlone);
    expect(await tried(visit)).toEqual([[]]);
    expect(visit.requests).toEqual([]);
  });

  it('runs no script that is put into the page', async () => {
    const { page, requests } = await open(engineAlone);
    const ran = await page.evaluate(async () => {
      const { document } = globalThis as unknown as {
        document: {
          title: string;
          body: { insertAdjacentHTML(where: string, html: string): void; append(one: unknown): void };
          createElement(name: string): { textContent: string };
        };
      };
      document.body.insertAdjacentHTML('beforeend', '<img src="x" onerror="document.title=\'ran\'">');
      document.body.insertAdjacentHTML('beforeend', '<img src="https://example.com/a.png">');
      document.body.insertAdjacentHTML('beforeend', '<iframe src="https://example.com/"></iframe>');
      const script = document.createElement('script');
      script.textContent = "document.title='ran'";
      document.body.append(script);
      await new Promise((go) => setTimeout(go, 200));
      return document.title === 'ran';
    });
    expect(ran).toBe(false);
    expect(requests).toEqual([]);
  });
});
