import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { besidesFonts, lieflat, shopFolder, sinkInto } from './at-a-terminal.js';

onACoarseMesh();

const ON = ['--fabric', 'canvas-tote'];

function folderWithColumn() {
  const shop = shopFolder();
  const column = new Needle().column(0, 0, { width: 3, height: 9, underlay: 'center-run' }).end();
  writeFileSync(shop.at('i.dst'), encodeDst(column));
  return shop;
}

describe('files that are written', () => {
  it.each([
    [['convert', 'crest.dst', '-o', 'crest.csv'], 'crest.csv'],
    [['draw', 'crest.dst', '-o', 'crest.png', '--pixels', '40'], 'crest.png'],
    [['compare', 'crest.dst', 'plain.dst', '-o', 'report.txt'], 'report.txt'],
    [['catalog', 'places', '-o', 'places.txt'], 'places.txt'],
  ])('%j says what it wrote and how large it is', async (args, name) => {
    const { folder, at } = shopFolder();
    const { code, out, err } = await lieflat(args, { cwd: folder });
    expect([code, out]).toEqual([0, '']);
    const { length } = readFileSync(at(name));
    expect(besidesFonts(err)).toBe(
      `wrote ${name} (${length < 1000 ? `${length} bytes` : `${(length / 1000).toFixed(1)} kB`})\n`,
    );
  });

  it('are told of on standard error, beside a report on standard output', async () => {
    const { folder } = folderWithColumn();
    const args = ['pucker', 'i.dst', ...ON, '--map', 'map.svg', '--format', 'json'];
    const { out, err } = await lieflat(args, { cwd: folder });
    expect(JSON.parse(out)).toHaveProperty('risk');
    expect(err).toMatch(/^wrote map\.svg \(\d+\.\d kB\)\n$/);
  });

  // The design cannot be read: whoever had begun to work would say that first.
  it.each([
    ['pucker', 'broken.dst', ...ON, '--map', 'there.svg'],
    ['pucker', 'broken.dst', ...ON, '-o', 'there.svg'],
    ['draw', 'broken.dst', '-o', 'there.svg'],
    ['vet', 'broken.dst', '-o', 'there.svg'],
  ])('are refused before any work where they are there already: %j', async (...args) => {
    const { folder, at } = shopFolder();
    writeFileSync(at('there.svg'), 'mine');
    const { code, out, err } = await lieflat(args, { cwd: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/^lieflat: .*there\.svg: there is a file of that name already; .*--force\n$/);
    expect(readFileSync(at('there.svg'), 'utf8')).toBe('mine');
  });

  it.each([
    ['.', 'it is a folder'],
    ['new/', 'it is the name of a folder'],
    ['nowhere/crest.csv', 'the folder for it does not exist'],
  ])('are refused in one line where they cannot be: %s', async (out, words) => {
    const { folder, at } = shopFolder();
    const { code, err } = await lieflat(['convert', 'crest.dst', '-o', out], { cwd: folder });
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(existsSync(at('new'))).toBe(false);
  });
});

describe('the line under which the pucker is worked out', () => {
  it.each([
    [['pucker', 'i.dst', ...ON]],
    [['advise', 'i.dst', ...ON]],
    [['vet', 'i.dst', ...ON]],
    [['columns', 'i.dst', ...ON]],
  ])('stands on a terminal alone, and goes away: %j', async (args) => {
    const { folder } = folderWithColumn();
    const quiet = await lieflat(args, { cwd: folder });
    expect(quiet.err).toBe('');
    const err: string[] = [];
    const watched = await lieflat(args, { cwd: folder, stderr: { ...sinkInto(err), isTTY: true } });
    expect(err).toEqual(['working out the pucker ...', '\r\u001b[K']);
    expect(watched.out).toBe(quiet.out);
  });

  it('says of several files how many are done, and makes room for the report of each', async () => {
    const { folder } = folderWithColumn();
    const told: string[] = [];
    const world = {
      cwd: folder,
      isTTY: true,
      stdout: sinkInto(told),
      stderr: { ...sinkInto(told), isTTY: true },
    };
    await lieflat(['columns', 'i.dst', 'broken.dst', ...ON, '--workers', '1'], world);
    const said = told.filter((piece) => piece !== '');
    const away = '\r\u001b[K';
    expect(said.slice(0, 2)).toEqual(['working out the pucker, 0 of 2 files done ...', away]);
    expect(said[2]).toMatch(/^lieflat: .*broken\.dst/);
    expect(said.slice(3, 5)).toEqual(['working out the pucker, 1 of 2 files done ...', away]);
    expect(said.slice(5).join('')).toContain('1 satin column');
  });

  it('is not there where nothing takes long', async () => {
    const { folder } = folderWithColumn();
    const err: string[] = [];
    await lieflat(['vet', 'i.dst'], { cwd: folder, isTTY: true, stderr: { ...sinkInto(err), isTTY: true } });
    expect(err).toEqual([]);
  });
});
