/**
 * Prints how well objects are found in generated designs, family by family, and how many findings are false.
 *   npx tsx tests/generators/run-score.ts --suite plain|production|all --seeds 0..40 [--only satin] [--verbose]
 *   npx tsx tests/generators/run-score.ts --held-out 6        (seeds 5000 to 5005: for measuring, never for tuning)
 *   npx tsx tests/generators/run-score.ts --draw SEED FAMILY out.svg
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { drawCase } from './draw.js';
import { FAMILIES } from './families/index.js';
import { findAndMeasure } from './find-and-measure.js';
import type { Case } from './pen.js';
import { HELD_OUT, PRODUCTION } from './production/index.js';
import { type Mark, score, Tally } from './score.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    suite: { type: 'string', default: 'all' },
    seeds: { type: 'string', default: '0..12' },
    'held-out': { type: 'string' },
    only: { type: 'string' },
    verbose: { type: 'boolean', default: false },
    draw: { type: 'boolean', default: false },
    list: { type: 'boolean', default: false },
  },
});

type Suite = Record<string, (seed: number) => Case>;
const SUITES: Record<string, Suite> = { plain: FAMILIES, production: PRODUCTION };
const NAME = 26;
const CELL = 6;

/** Marks in the order of the columns, and what stands above each. */
const COLUMNS: readonly (readonly [Mark, string])[] = [
  ['kind', 'kind'],
  ['width', 'width'],
  ['spacing', 'spac'],
  ['angle', 'angle'],
  ['underlay', 'undKd'],
  ['underRange', 'undRg'],
  ['serves', 'serve'],
  ['exact', 'undEx'],
  ['split', 'split'],
  ['locks', 'locks'],
  ['block', 'block'],
  ['group', 'group'],
  ['purpose', 'purp'],
  ['pattern', 'patt'],
  ['passes', 'pass'],
];

const percent = (v: number | null) => (v === null ? '–' : (v * 100).toFixed(1)).padStart(CELL);
const mm = (v: number | null) => (v === null ? '–' : v.toFixed(3)).padStart(CELL);

function row(name: string, t: Tally): string {
  const cells = [
    percent(t.recall),
    percent(t.precision),
    // A mark that was never tried is either not given by the finder or does not occur here.
    ...COLUMNS.map(([m]) => percent(t.tries[m] > 0 ? t.share(m) : null)),
    mm(t.p95('widthErrors')),
    mm(t.p95('spacingErrors')),
    percent(t.designs ? t.totals / t.designs : null),
  ];
  return `${name.padEnd(NAME)}${String(t.truth).padStart(CELL)}${cells.join('')}`;
}

const heading = `${'family'.padEnd(NAME)}${['truth', 'recal', 'preci', ...COLUMNS.map(([, n]) => n), 'w p95', 's p95', 'total'].map((n) => n.padStart(CELL)).join('')}`;

function printFindings(t: Tally): void {
  console.log(`\n${'finding'.padEnd(NAME)}  said false  share unsaid`);
  for (const [code, s] of [...t.findings].sort(([a], [b]) => a.localeCompare(b))) {
    const judged = s.said - s.unjudged;
    const share =
      s.unjudged > 0 ? 'not judged' : judged > 0 ? `${((100 * s.false) / judged).toFixed(1)} %` : '–';
    console.log(
      `${code.padEnd(NAME)}${String(s.said).padStart(6)}${String(s.false).padStart(6)}${share.padStart(11)}${String(s.missed).padStart(6)}`,
    );
  }
  const honesty = t.honesty;
  console.log(
    honesty
      ? `\nconfidence: ${percent(honesty.rightWhenSure).trim()} % right of those said with 0.9 and more; ${percent(honesty.wrongInTail).trim()} % of the wrong among the tenth least sure (${honesty.objects} objects)`
      : '\nconfidence: not given',
  );
}

function seeds(): number[] {
  if (values['held-out']) return Array.from({ length: Number(values['held-out']) }, (_, i) => HELD_OUT + i);
  const [from, to] = values.seeds.includes('..')
    ? values.seeds.split('..').map(Number)
    : [Number(values.seeds), Number(values.seeds) + 1];
  if (to > HELD_OUT)
    throw new Error(
      `Seeds from ${HELD_OUT} on are held out; to measure by them, and not to tune, say --held-out COUNT`,
    );
  return Array.from({ length: to - from }, (_, i) => from + i);
}

function scoreSuite(name: string, suite: Suite): void {
  const wanted = values.only?.split(',');
  const names = Object.keys(suite).filter((n) => !wanted || wanted.some((o) => n.includes(o)));
  if (names.length === 0) return;
  console.log(`\n== ${name}\n${heading}`);
  const all = new Tally();
  const lines: string[] = [];
  for (const family of names) {
    const tally = new Tally();
    for (const seed of seeds()) {
      const c = suite[family](seed);
      const scored = score(c, findAndMeasure(c.design));
      tally.add(scored.tally);
      for (const f of scored.failures) lines.push(f);
    }
    all.add(tally);
    console.log(row(family, tally));
  }
  console.log(row(`ALL ${names.length} families`, all));
  printFindings(all);
  console.log(`${lines.length} failures in ${all.designs} designs`);
  if (values.verbose) for (const l of lines) console.log(l);
}

function main(): void {
  if (values.list) {
    for (const [name, suite] of Object.entries(SUITES))
      console.log(`${name}: ${Object.keys(suite).join(' ')}`);
    return;
  }
  if (values.draw) {
    const [seed, family, out] = positionals;
    const c = { ...FAMILIES, ...PRODUCTION }[family](Number(seed));
    writeFileSync(out, drawCase(c));
    console.log(c.note);
    for (const o of c.objects) console.log(JSON.stringify(o));
    for (const u of c.underlays) console.log(`underlay ${JSON.stringify(u)}`);
    return;
  }
  for (const [name, suite] of Object.entries(SUITES))
    if (values.suite === 'all' || values.suite === name) scoreSuite(name, suite);
}

main();
