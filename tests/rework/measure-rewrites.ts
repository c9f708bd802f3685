/**
 * Prints what rewriting does to generated designs and to the samples, family by family.
 *   npx tsx tests/rework/measure-rewrites.ts --seeds 0..20 [--only satin] [--set plain,production,samples] [--verbose] [--hold]
 * With --hold a figure beyond its bound fails the run.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { RESEW_MODES } from '../../lib/rework/resew-mode.js';
import { FAMILIES } from '../generators/families/index.js';
import type { Case } from '../generators/pen.js';
import { PRODUCTION } from '../generators/production/index.js';
import { asFile, Figures, measureRewrites } from './figures.js';
import { readDesign } from './rewrites.js';

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '0..10' },
    only: { type: 'string' },
    set: { type: 'string', default: 'plain,production,samples' },
    verbose: { type: 'boolean', default: false },
    hold: { type: 'boolean', default: false },
  },
});

const SAMPLES = new URL('../../samples/', import.meta.url);

async function main(): Promise<void> {
  const [from, to] = values.seeds.split('..').map(Number);
  const lines: string[] = [];
  const say = (text: string) => lines.push(text);
  console.log(
    `${'family'.padEnd(26)}files asked >=3.5 relaid  lost file |${RESEW_MODES.map((mode) => ` bare ${mode.slice(0, 6)}`).join(' |')} |  holes  agree falsely hidden`,
  );
  const all = new Figures();
  const wanted = (name: string) => !values.only || values.only.split(',').some((part) => name.includes(part));
  const sets: [string, Record<string, (seed: number) => Case>][] = [
    ['plain', FAMILIES],
    ['production', PRODUCTION],
  ];
  for (const [set, families] of sets) {
    if (!values.set.includes(set)) continue;
    const whole = new Figures();
    for (const name of Object.keys(families).filter(wanted)) {
      const family = new Figures();
      for (let seed = from; seed < to; seed++) {
        const { design: drawn, role } = families[name](seed);
        const design = asFile(drawn);
        if (design === null) continue;
        family.add(
          await measureRewrites({ name: `${name} ${seed}`, design, isTop: (i) => role[i] === 'top' }, say),
        );
      }
      whole.add(family);
      console.log(name.padEnd(25), String(family));
    }
    console.log(set.toUpperCase().padEnd(25), String(whole));
    all.add(whole);
  }
  for (const file of readdirSync(SAMPLES)) {
    if (!file.endsWith('.dst') || !wanted(file) || !values.set.includes('samples')) continue;
    const design = decodeDst(readFileSync(new URL(file, SAMPLES)));
    const { objects, stitches } = readDesign(design);
    const top = new Uint8Array(stitches.count);
    for (const { range } of objects) top.fill(1, range[0], range[1] + 1);
    const figures = await measureRewrites({ name: file, design, isTop: (i) => top[i] === 1 }, say);
    all.add(figures);
    console.log(file.padEnd(25), String(figures));
  }
  console.log('ALL'.padEnd(25), String(all));
  if (values.verbose) console.log(lines.join('\n'));
  const beyond = values.hold ? all.beyond() : [];
  if (beyond.length === 0) return;
  console.log(beyond.join('\n'));
  process.exitCode = 1;
}

await main();
