import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { builtProgram, ROOT } from '../built.js';
import { Needle } from '../report/little-design.js';
import { shopFolder } from './at-a-terminal.js';

/** Runs the real program; `readOnly` closes its output after the first bytes, as `head` does. */
function spawned(args: string[], { cwd = ROOT, stdin = '', readOnly = Number.POSITIVE_INFINITY } = {}) {
  return new Promise<{ code: number | null; out: string; err: string }>((resolve, reject) => {
    const child = spawn(process.execPath, [builtProgram(), ...args], { cwd });
    let [out, err] = ['', ''];
    child.stdout.on('data', (piece: Buffer) => {
      out += piece;
      if (out.length >= readOnly) child.stdout.destroy();
    });
    child.stderr.on('data', (piece: Buffer) => {
      err += piece;
    });
    child.stdin.end(stdin);
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}

describe('the program as a process', () => {
  it('vets a file named on standard input', async () => {
    const { folder } = shopFolder();
    const { code, out, err } = await spawned(['vet', '-', '--format', 'json'], {
      cwd: folder,
      stdin: 'crest.dst\n',
    });
    expect([code, err]).toEqual([0, '']);
    expect(JSON.parse(out)).toMatchObject({ schema: 'lieflat/vet@1', file: { path: 'crest.dst' } });
  });

  it('exits with 2 and one line for a mistake', async () => {
    const { code, out, err } = await spawned(['vet', 'nowhere.dst']);
    expect([code, out]).toEqual([2, '']);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  it('ends quietly when its reader goes away', async () => {
    const { folder, at } = shopFolder();
    const needle = new Needle();
    for (let i = 0; i < 300; i++) needle.column(i * 6, 0, { width: 3, height: 4 });
    const design = needle.end();
    for (const name of ['a.dst', 'b.dst', 'c.dst']) writeFileSync(at(name), encodeDst(design));
    const { code, err } = await spawned(['vet', folder, '--format', 'json'], { readOnly: 100 });
    // It stopped before it came to the broken file.
    expect({ code, err }).toEqual({ code: 0, err: '' });
  });
});
