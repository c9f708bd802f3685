import { copyFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { encodeStitchTable } from '../../lib/format/stitch-table.js';
import { mixedDesign } from '../generators/mixed-design.js';
import { IN_FULL } from '../in-full.js';
import { failMemory } from '../io/failing-memory.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

/** What reads a design and what writes one, each with the large arrays that it makes at least on the way. */
const LINES: readonly { args: string[]; arrays: number; target?: string }[] = [
  { args: ['vet', 'large.dst', '--format', 'jsonl', '--fail-on', 'never'], arrays: 8 },
  { args: ['vet', 'large.csv', '--fail-on', 'never'], arrays: 8 },
  { args: ['columns', 'large.dst'], arrays: 8 },
  { args: ['convert', 'large.dst', '-o', 'new.csv'], arrays: 4, target: 'new.csv' },
  { args: ['convert', 'large.csv', '-o', 'new.dst'], arrays: 4, target: 'new.dst' },
  { args: ['draw', 'large.dst', '-o', 'new.svg'], arrays: 8, target: 'new.svg' },
  ...(IN_FULL ? [{ args: ['relay', 'large.dst', '-o', 'new.dst'], arrays: 8, target: 'new.dst' }] : []),
];

function shop() {
  const { folder, at } = shopFolder();
  const design = mixedDesign(1, 1600);
  writeFileSync(at('large.dst'), encodeDst(design));
  writeFileSync(at('large.csv'), encodeStitchTable(design));
  return { folder, at };
}

/** Runs a command line while the nth large array cannot be made. */
async function runWithout(nth: number, args: readonly string[], cwd: string) {
  const { failed, giveBack } = failMemory(nth);
  try {
    return { ...(await lieflat(args, { cwd })), failed: failed() };
  } finally {
    giveBack();
  }
}

describe('every large array on the way, not to be had once', () => {
  it.each(LINES)('$args.0 $args.1', async ({ args, arrays, target }) => {
    const { folder, at } = shop();
    const before = readdirSync(folder).sort();
    // What is loaded only when it is asked for is there from now on, and holds the real classes.
    expect((await lieflat(args, { cwd: folder })).code).toBe(0);
    if (target) rmSync(at(target));
    for (let nth = 1; ; nth++) {
      const { code, out, err, failed } = await runWithout(nth, args, folder);
      if (!failed) {
        expect(code, err).toBe(0);
        expect(readdirSync(folder).sort()).toEqual([...before, ...(target ? [target] : [])].sort());
        expect(nth).toBeGreaterThan(arrays);
        return;
      }
      const where = `array ${nth}: exit ${code}, ${err}`;
      expect(code, where).toBe(2);
      expect(err, where).toMatch(
        /^lieflat: \S+: the computer is out of memory; close other programs and run it again, or split the design\n$/,
      );
      expect(out, where).toBe('');
      expect(readdirSync(folder).sort(), where).toEqual(before);
    }
  });

  it('costs a batch that file alone', async () => {
    const { folder, at } = shop();
    // The first of the batch by its name, so that the array is one of its own.
    copyFileSync(at('large.dst'), at('big.dst'));
    const args = ['vet', 'big.dst', 'crest.dst', 'plain.dst', '--format', 'jsonl', '--fail-on', 'never'];
    const { code, out, err } = await runWithout(3, args, folder);
    expect(code).toBe(2);
    expect(out.trim().split('\n')).toHaveLength(2);
    expect(err).toMatch(/^lieflat: \S*big\.dst: the computer is out of memory[^\n]+\n$/);
  });
});
