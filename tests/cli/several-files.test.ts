/** The same command for one design and for several: each as it would be alone, in a folder of its own. */
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const ON = ['--fabric', 'canvas-tote', '--stack', 'tearaway-1.8oz-firm', '--after-wash', '0'];

/** Three small designs with one that is none between them, in a folder of orders. */
function orders() {
  const shop = shopFolder();
  mkdirSync(shop.at('orders'));
  const column = (width: number) =>
    encodeDst(new Needle().column(0, 0, { width, height: 8, underlay: 'zigzag' }).end());
  writeFileSync(shop.at('orders/a.dst'), column(6));
  writeFileSync(shop.at('orders/b.dst'), column(5));
  writeFileSync(shop.at('orders/bad.dst'), 'no stitches in here');
  mkdirSync(shop.at('done'));
  return shop;
}

/** What each writes of one file: its words after the command and the design, and the name of what it writes. */
const WRITERS = [
  { command: 'relay', words: ['--objects', '1'], several: [], made: 'dst' },
  { command: 'resew', words: [], several: [], made: 'dst' },
  { command: 'card', words: ON, several: ON, made: 'html' },
] as const;

describe.each(WRITERS)('lieflat $command of several files', ({ command, words, several, made }) => {
  it('writes each as it does of that file alone, names the one that cannot be read, and exits with 2', async () => {
    const { folder, at } = orders();
    const { code, err } = await lieflat([command, 'orders', ...several, '--out-dir', 'done'], {
      cwd: folder,
    });
    expect(code).toBe(2);
    expect(err.match(/bad\.dst/g)).toHaveLength(1);
    expect(readdirSync(at('done')).sort()).toEqual([`a.${made}`, `b.${made}`]);
    for (const name of ['a', 'b']) {
      await lieflat([command, `orders/${name}.dst`, ...words, '-o', `${name}-alone.${made}`], {
        cwd: folder,
      });
      expect(readFileSync(at(`done/${name}.${made}`))).toEqual(readFileSync(at(`${name}-alone.${made}`)));
    }
    expect(err).toContain(`wrote done/a.${made}`);
  });

  it('needs a folder to write into, refuses two of one name before any work, and replaces nothing unasked', async () => {
    const { folder, at } = orders();
    const both = [command, 'orders/a.dst', 'orders/b.dst', ...several];
    const homeless = await lieflat(both, { cwd: folder });
    expect([homeless.code, homeless.out]).toEqual([2, '']);
    expect(homeless.err).toMatch(/^lieflat: .*several files need a folder.*--out-dir.*\n$/);
    const named = await lieflat([...both, '-o', `x.${made}`, '--out-dir', 'done'], { cwd: folder });
    expect(named.err).toMatch(/^lieflat: .*-o goes with one design.*\n$/);

    copyFileSync(at('orders/b.dst'), at('a.dst'));
    const twice = await lieflat([command, 'orders/a.dst', 'a.dst', ...several, '--out-dir', 'done'], {
      cwd: folder,
    });
    expect([twice.code, twice.out]).toEqual([2, '']);
    expect(twice.err).toMatch(/^lieflat: .*written as a\.\w+, and so would .*\n$/);

    writeFileSync(at(`done/b.${made}`), 'mine');
    const there = await lieflat([...both, '--out-dir', 'done'], { cwd: folder });
    expect([there.code, there.out]).toEqual([2, '']);
    expect(readdirSync(at('done'))).toEqual([`b.${made}`]);
    expect(readFileSync(at(`done/b.${made}`), 'utf8')).toBe('mine');
    const forced = await lieflat([...both, '--out-dir', 'done', '--force'], { cwd: folder });
    expect(forced.code, forced.err).toBeLessThan(2);
    expect(readFileSync(at(`done/b.${made}`), 'utf8')).not.toBe('mine');
  });
});

describe('reports of several files', () => {
  it.each([
    ['advise', ON],
    ['relay', ['--dry-run']],
    ['resew', ['--dry-run']],
  ] as const)('%s: JSON is an array, each as alone; text follows text', async (command, words) => {
    const { folder } = orders();
    const json = ['--format', 'json'];
    const all = await lieflat([command, 'orders/*.dst', ...words, ...json, '--ordered'], { cwd: folder });
    expect(all.code).toBe(2);
    // Without the folder that the test lies in.
    const named = (text: string): string => text.replaceAll(`${folder}/`, '');
    const alone = async (name: string, format: readonly string[]) =>
      named((await lieflat([command, name, ...words, ...format], { cwd: folder })).out);
    expect(JSON.parse(named(all.out))).toEqual(
      [await alone('orders/a.dst', json), await alone('orders/b.dst', json)].map((one) => JSON.parse(one)),
    );
    const text = await lieflat([command, 'orders/a.dst', 'orders/b.dst', ...words], { cwd: folder });
    expect(text.code).toBeLessThan(2);
    expect(named(text.out)).toBe(`${await alone('orders/a.dst', [])}\n${await alone('orders/b.dst', [])}`);
  });

  it('advise: a page for each in the folder, or all in one file as text', async () => {
    const { folder, at } = orders();
    const both = ['advise', 'orders/a.dst', 'orders/b.dst', ...ON];
    expect((await lieflat([...both, '--format', 'html'], { cwd: folder })).err).toContain('--out-dir');
    const pages = await lieflat([...both, '--format', 'html', '--out-dir', 'done'], { cwd: folder });
    expect([pages.code, pages.out]).toEqual([0, '']);
    expect(readFileSync(at('done/b.html'), 'utf8')).toMatch(/^<!doctype html>/);
    const listed = await lieflat([...both, '-o', 'all.txt'], { cwd: folder });
    expect(listed.code).toBe(0);
    expect(readFileSync(at('all.txt'), 'utf8').match(/^(GOOD TO SEW|CHECK FIRST)/gm)).toHaveLength(2);
  });

  it('where none can be read nothing is written, and objects of one design are not asked of several', async () => {
    const { folder, at } = orders();
    copyFileSync(at('orders/bad.dst'), at('worse.dst'));
    const none = await lieflat(['advise', 'orders/bad.dst', 'worse.dst', ...ON, '-o', 'all.txt'], {
      cwd: folder,
    });
    expect(none.code).toBe(2);
    expect(none.err.trimEnd().split('\n')).toHaveLength(2);
    expect(existsSync(at('all.txt'))).toBe(false);
    const objects = await lieflat(['relay', 'orders', '--objects', '1', '--dry-run'], { cwd: folder });
    expect(objects.err).toMatch(/--objects goes with one design/);
  });
});
