/**
 * Prints how well the object finder does on generated designs, family by family.
 *   npx tsx tests/generators/run-score.ts --seeds 0..200 [--only satin] [--verbose]
 *   npx tsx tests/generators/run-score.ts --draw SEED FAMILY out.svg
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { drawCase } from './draw.js';
import { FAMILIES } from './families/index.js';
import { findAndMeasure } from './find-and-measure.js';
import { type Mark, score, Tally } from './score.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seeds: { type: 'string', default: '0..40' },
    only: { type: 'string' },
    verbose: { type: 'boolean', default: false },
    draw: { type: 'boolean', default: false },
    list: { type: 'boolean', default: false },
  },
});

const percent = (v: number) => `${(v * 100).toFixed(1)}`.padStart(6);
const COLUMNS: Mark[] = [
  'kind',
  'width',
  'spacing',
  'angle',
  'underlay',
  'split',
  'locks',
  'block',
  'underRange',
  'group',
];

function row(name: string, t: Tally): string {
  const cells = [
    t.recall,
    t.precision,
    ...COLUMNS.map((m) => t.share(m)),
    t.designs ? t.totals / t.designs : 1,
  ];
  return `${name.padEnd(20)}${String(t.truth).padStart(6)}${cells.map(percent).join(' ')}`;
}

function main(): void {
  if (values.list) {
    console.log(Object.keys(FAMILIES).join('\n'));
    return;
  }
  if (values.draw) {
    const [seed, family, out] = positionals;
    const c = FAMILIES[family](Number(seed));
    writeFileSync(out, drawCase(c));
    console.log(c.note);
    for (const o of c.objects) console.log(JSON.stringify(o));
    return;
  }
  const [from, to] = values.seeds.includes('..')
    ? values.seeds.split('..').map(Number)
    : [Number(values.seeds), Number(values.seeds) + 1];
  const names = Object.keys(FAMILIES).filter(
    (n) => !values.only || values.only.split(',').some((o) => n.includes(o)),
  );
  console.log(
    `${'family'.padEnd(20)}${'truth'.padStart(6)}${['recall', 'precis', ...COLUMNS, 'totals'].map((n) => n.slice(0, 6).padStart(6)).join(' ')}`,
  );
  const all = new Tally();
  const lines: string[] = [];
  for (const name of names) {
    const tally = new Tally();
    for (let seed = from; seed < to; seed++) {
      const c = FAMILIES[name](seed);
      const scored = score(c, findAndMeasure(c.design));
      tally.add(scored.tally);
      for (const f of scored.failures) lines.push(f);
    }
    all.add(tally);
    console.log(row(name, tally));
  }
  console.log(row('ALL', all));
  console.log(`${lines.length} failures`);
  if (values.verbose) for (const l of lines) console.log(l);
}

main();
