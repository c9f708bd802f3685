import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { decodeStitchTable } from '../../lib/format/stitch-table.js';
import { makeSamples, outcomesText } from '../../samples/scenario.js';
import { itInFull } from '../in-full.js';
import { fileBytes, made, sample } from './reading.js';

describe('the sample generator', () => {
  it.each([...made.samples, ...made.tables].map(({ file, bytes }) => ({ file, bytes })))(
    'makes $file again byte for byte',
    ({ file, bytes }) => {
      expect(Buffer.compare(fileBytes(file), bytes)).toBe(0);
    },
  );

  it('writes the expected outcomes that stand beside the files', () => {
    expect(fileBytes('expected.json').toString('utf8')).toBe(outcomesText(made.samples));
  });

  itInFull('keeps nothing from one making to the next', () => {
    const again = makeSamples();
    expect(again.samples.map(({ bytes }) => Buffer.from(bytes).toString('base64'))).toEqual(
      made.samples.map(({ bytes }) => Buffer.from(bytes).toString('base64')),
    );
  });

  // .ci/run makes the check a step of its own.
  itInFull('has a check that passes on what is committed', () => {
    const root = new URL('../..', import.meta.url).pathname;
    const run = spawnSync(process.execPath, ['--import', 'tsx', 'samples/generate.ts', '--check'], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(run.stderr).toBe('');
    expect(run.status).toBe(0);
  });

  it('puts the same penetrations into the stitch file and the stitch table of the name drop', async () => {
    const table = await decodeStitchTable(fileBytes('name-drop.csv'));
    const { stitches } = sample('name-drop.dst');
    const sewn = [...table.kind]
      .map((kind, i) => ({ kind, x: table.x[i], y: table.y[i] }))
      .filter(({ kind }) => kind === 0);
    expect(sewn.map(({ x }) => Math.round(x * 10))).toEqual([...stitches.x].map((x) => Math.round(x * 10)));
    expect(sewn.map(({ y }) => Math.round(y * 10))).toEqual([...stitches.y].map((y) => Math.round(y * 10)));
  });
});
