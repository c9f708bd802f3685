import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import * as nodeModule from 'node:module';
import { beforeAll, describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { builtProgram, ROOT } from '../built.js';
import { IN_FULL, itInFull } from '../in-full.js';
import { Needle } from '../report/little-design.js';
import { besidesFonts, lieflat, type Ran, shopFolder as usualFolder } from './at-a-terminal.js';

let program = '';

/** With a column besides that is soon worked out: here that is done on the mesh that users have, by the sources and by the program. */
function shopFolder() {
  const shop = usualFolder();
  const column = new Needle().column(0, 0, { width: 4.5, height: 5, underlay: 'zigzag' }).end();
  writeFileSync(shop.at('small.dst'), encodeDst(column));
  return shop;
}

/** Runs the packed program as a process of its own. */
function packed(args: readonly string[], cwd: string, stdin = '', env: NodeJS.ProcessEnv = {}): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], {
      cwd,
      env: { ...process.env, ...env },
    });
    let [out, err] = ['', ''];
    child.stdout.on('data', (piece: Buffer) => {
      out += piece;
    });
    child.stderr.on('data', (piece: Buffer) => {
      err += piece;
    });
    child.stdin.end(stdin);
    child.on('error', reject);
    child.on('close', (code) => resolve({ code: code ?? -1, out, err }));
  });
}

describe('the program as it is packed for its users', () => {
  beforeAll(() => {
    program = builtProgram();
  });

  // Every part that is loaded only when it is asked for has its line here.
  it.each([
    [['vet', 'crest.dst']],
    [['vet', 'crest.dst', '--format', 'json']],
    [['vet', 'crest.dst', 'wide.dst', '--format', 'jsonl', '--fail-on', 'warn']],
    [['vet', 'crest.dst', '--format', 'csv']],
    [['vet', '*.dst', '--profile', 'shop.json']],
    [['vet', 'crest.dst', '--profile', 'wrong.json']],
    [['vet', '-']],
    [['columns', 'crest.dst', '--over', '4']],
    [['compare', 'plain.dst', 'wide.dst']],
    [['catalog', 'places']],
    [['catalog', 'fabrics']],
    [['--help']],
    [['vet', '--help']],
    [['--version']],
    [['completion']],
    [['--get-yargs-completions', 'lieflat', 'vet', '--fa']],
    [['vett']],
    [[]],
    ...(IN_FULL
      ? [
          [['pucker', 'small.dst', '--fabric', 'pique-knit', '--profile', 'onFabric.json']],
          [['pucker', 'small.dst', '--fabric', 'denim', '--stack', 'none', '--stack', 'tearaway-1.8oz-firm']],
          [['columns', 'small.dst', '--fabric', 'canvas-tote']],
        ]
      : []),
  ])('%j does what the sources do', async (args: string[]) => {
    const { folder, at } = shopFolder();
    writeFileSync(at('shop.json'), JSON.stringify({ limits: { 'satin-too-narrow': { warn: 4 } } }));
    writeFileSync(
      at('onFabric.json'),
      JSON.stringify({
        catalogue: { fabrics: { 'pique-knit': { mass: 190 } } },
        calibration: { tension: 0.12 },
      }),
    );
    writeFileSync(at('wrong.json'), JSON.stringify({ limts: {} }));
    // Whole paths, so that both print the same names.
    const whole = args.map((word) => (/\.(dst|json)$/.test(word) ? at(word) : word));
    const list = `${at('crest.dst')}\n${at('plain.dst')}\n`;
    const sources = await lieflat(whole, {
      stdin: (async function* () {
        yield list;
      })(),
    });
    const { code, out, err } = await packed(whole, folder, list);
    expect({ code, out, err }).toEqual(sources);
    expect(out + err).not.toBe('');
  });

  it.each(['picture.svg', 'picture.png'])('draws %s as the sources do', async (name) => {
    const { folder, at } = shopFolder();
    expect((await lieflat(['draw', at('crest.dst'), '-o', at(`sources-${name}`)])).code).toBe(0);
    const { err, ...done } = await packed(['draw', 'crest.dst', '-o', name], folder);
    expect({ ...done, err: besidesFonts(err) }).toEqual({
      code: 0,
      out: '',
      err: expect.stringMatching(new RegExp(`^wrote ${name.replace('.', '\\.')} \\([\\d.]+ kB\\)\\n$`)),
    });
    expect(readFileSync(at(name))).toEqual(readFileSync(at(`sources-${name}`)));
  });

  itInFull('draws the map of wrinkles as the sources do', async () => {
    const { folder, at } = shopFolder();
    const asked = ['pucker', 'small.dst', '--fabric', 'performance-knit-thin', '--map'];
    expect((await lieflat([...asked, 'sources.svg'], { cwd: folder })).code).toBe(0);
    expect((await packed([...asked, 'packed.svg'], folder)).code).toBe(0);
    expect(readFileSync(at('packed.svg'))).toEqual(readFileSync(at('sources.svg')));
  });

  it('converts to a table and back', async () => {
    const { folder, at } = shopFolder();
    expect((await packed(['convert', 'crest.dst', '-o', 'crest.csv'], folder)).code).toBe(0);
    expect((await packed(['convert', 'crest.csv', '-o', 'back.dst'], folder)).code).toBe(0);
    expect((await lieflat(['convert', at('crest.csv'), '-o', at('sources.dst')])).code).toBe(0);
    expect(readFileSync(at('back.dst'))).toEqual(readFileSync(at('sources.dst')));
  });

  describe('what Node compiled of it', () => {
    const ASKED = ['catalog', 'fabrics', 'pique-knit'];
    const compiles = 'enableCompileCache' in nodeModule;
    const kept = (folder: string): boolean => existsSync(folder) && readdirSync(folder).length > 0;

    it('is kept among what the user keeps of other programs, where Node does that, and changes nothing', async () => {
      const { folder, at } = shopFolder();
      const env = { XDG_CACHE_HOME: at('cache') };
      const first = await packed(ASKED, folder, '', env);
      expect(kept(at('cache/lieflat'))).toBe(compiles);
      expect(await packed(ASKED, folder, '', env)).toEqual(first);
      expect(first).toEqual(await lieflat(ASKED));
    });

    it.each([
      ['where the user wants none', 'cache', { NODE_DISABLE_COMPILE_CACHE: '1' }],
      [
        'under a path that depends on where one stands',
        'cache',
        { XDG_CACHE_HOME: 'cache', HOME: '/no/such/home' },
      ],
      ['of a user without a home', 'home', { XDG_CACHE_HOME: undefined, HOME: 'home' }],
      ['where a file is in the way', 'crest.dst/lieflat', { XDG_CACHE_HOME: '$HERE/crest.dst' }],
    ])('is not kept %s, without a word', async (_, name, env) => {
      const { folder, at } = shopFolder();
      const here = Object.entries({ XDG_CACHE_HOME: at('cache'), ...env }).map(([key, value]) => [
        key,
        value?.replace('$HERE', folder),
      ]);
      expect(await packed(ASKED, folder, '', Object.fromEntries(here))).toEqual(await lieflat(ASKED));
      expect(kept(at(name))).toBe(false);
    });
  });

  it('is refused in one line by a Node that is too old, and by no other', () => {
    const { isNewEnough } = nodeModule.createRequire(import.meta.url)(program);
    const { engines } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8'));
    expect(engines.node).toBe('^20.19.0 || ^22.12.0 || >=23');
    const fits = ['20.19.0', '20.20.2', '22.12.0', '22.23.3', '23.0.0', '24.0.0', '100.1.0'];
    const none = ['0.12.18', '4.9.1', '18.20.8', '20.2.0', '20.18.3', '21.7.3', '22.2.0', '22.11.0'];
    expect([...fits, ...none].filter(isNewEnough)).toEqual(fits);
  });

  it('tells V8 to optimize later, and to let go in the thread that works, only where the words for that are known', () => {
    const { flagsFor } = nodeModule.createRequire(import.meta.url)(program);
    const known = ['20.19.0', '20.20.2', '22.12.0', '22.23.3'];
    const other = ['2.0.0', '21.0.0', '23.0.0', '24.22.3', '26.0.0', '200.0.0'];
    expect([...known, ...other].filter((version) => flagsFor(version))).toEqual(known);
    const told = flagsFor(process.versions.node) ?? '';
    const script = `require('v8').setFlagsFromString(${JSON.stringify(told)})`;
    const { status, stderr } = spawnSync(process.execPath, ['-e', script], { encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  });
});
