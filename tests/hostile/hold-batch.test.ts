import { describe, expect, it } from 'vitest';
import { printable } from '../../lib/report/render/printable.js';
import { shopFolder } from '../cli/at-a-terminal.js';
import { layArchive } from './archive.js';
import { type Batch, differences, wrongWith } from './hold-batch.js';
import { singlesOf } from './vet-archive.js';

/** An archive, and what a program without fault would print of its folder. */
async function soundRun() {
  const folder = shopFolder().at('archive');
  const archive = layArchive(folder, { good: 6, hostile: 33, most: 80, seconds: 1, seed: 5 });
  const singles = await singlesOf(archive);
  const line = (path: string, what: string): string => `lieflat: ${printable(path)}: ${what}; mend it\n`;
  const hostile = archive.hostile.map(({ path, found }) => ({ path, outcome: found[0] }));
  const batch: Batch = {
    code: 2,
    out: [
      ...[...singles.values()].map((report) => `${report}\n`),
      ...hostile
        .filter(({ outcome }) => outcome === 'report')
        .map(({ path }) => `${JSON.stringify({ file: { path } })}\n`),
    ].join(''),
    err: [
      ...hostile.filter(({ outcome }) => outcome === 'line').map(({ path }) => line(path, 'it is spoiled')),
      ...archive.over.map(({ path, option }) => line(path, `over it; try ${option}`)),
    ].join(''),
  };
  const hold = (changed: Partial<Batch>): string[] =>
    wrongWith({ ...batch, ...changed }, archive, singles, false);
  return { archive, batch, hold };
}

describe('what a batch is held to', () => {
  it('passes one without fault, and none with one', async () => {
    const { archive, batch, hold } = await soundRun();
    expect(hold({})).toEqual([]);
    const [good] = archive.good;
    const told = batch.err.split('\n')[0];
    const faults: [string, Partial<Batch>][] = [
      ['it ended with 0, not 2', { code: 0 }],
      ['it ended with null, not 2', { code: null }],
      [`${good} has come to nothing`, { out: batch.out.slice(batch.out.indexOf('\n') + 1) }],
      [`${good} has 2 reports`, { out: batch.out + batch.out.slice(0, batch.out.indexOf('\n') + 1) }],
      [`${good} is reported otherwise`, { out: batch.out.replace(/"stitches":(\d+)/, '"stitches":1$1') }],
      [`${good} has 1 reports and 1 lines`, { err: `${batch.err}lieflat: ${good}: it is odd; look\n` }],
      ['nobody made it', { out: `${batch.out}{"file":{"path":"/elsewhere.dst"}}\n` }],
      ['the last report is cut off', { out: batch.out.slice(0, -1) }],
      ['a line of the report is none', { out: `${batch.out}Warning: memory\n` }],
      ['has come to nothing, not line', { err: batch.err.slice(told.length + 1) }],
      ['names no file', { err: `${batch.err}    at vetWithin (file.js:3:1)\n` }],
      ['is no line for people', { err: batch.err.replace('; mend it', '') }],
      ['is no line for people', { err: batch.err.replace('is spoiled', 'is \u001b[31mspoiled') }],
      [
        'is no line for people',
        { err: batch.err.replace('it is spoiled', 'something went wrong inside lieflat') },
      ],
      ['is not told to try --max-seconds', { err: batch.err.replace('--max-seconds', 'again') }],
    ];
    for (const [what, changed] of faults) expect(hold(changed).join('\n'), what).toContain(what);
  });

  it('sees whatever differs between two runs, and order where it counts', async () => {
    const { batch } = await soundRun();
    const turned = { ...batch, out: batch.out.split('\n').slice(0, -1).reverse().join('\n').concat('\n') };
    expect(differences(batch, batch)).toEqual([]);
    expect(differences(batch, turned)).toHaveLength(1);
    expect(differences(batch, turned, true)).toEqual([]);
    expect(differences(batch, { ...turned, err: batch.err.replace('mend', 'bend') }, true)).toHaveLength(1);
  });
});
