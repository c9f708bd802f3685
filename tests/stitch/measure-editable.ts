/**
 * Prints how many columns and areas of generated designs and of the samples can be described in few numbers, family by family, and why the others cannot.
 *   npx tsx tests/stitch/measure-editable.ts --seeds 0..5 [--only satin] [--set plain,production,samples] [--verbose]
 */
import { parseArgs } from 'node:util';
import type { Design } from '../../lib/format/design.js';
import { numbersIn } from '../../lib/stitch/editable.js';
import { FAMILIES } from '../generators/families/index.js';
import { PRODUCTION } from '../generators/production/index.js';
import { readObjects, sampleDesign, sampleNames } from './objects-read.js';

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '0..5' },
    only: { type: 'string', default: '' },
    set: { type: 'string', default: 'plain,production,samples' },
    verbose: { type: 'boolean', default: false },
  },
});

interface Line {
  objects: number;
  editable: number;
  /** Those of so many stitches that the floor of the numbers does not hold for them. */
  long: number;
  longEditable: number;
  numbers: number;
  stitches: number;
  readonly why: Record<string, number>;
}

const LONG = 200;
const lines = new Map<string, Line>();

function add(key: string, name: string, design: Design): void {
  for (const { object, count, editable, why } of readObjects(design)) {
    for (const at of [`${key} ${object.kind}`, `ALL ${object.kind}`]) {
      const line = lines.get(at) ?? {
        objects: 0,
        editable: 0,
        long: 0,
        longEditable: 0,
        numbers: 0,
        stitches: 0,
        why: {},
      };
      lines.set(at, line);
      line.objects++;
      if (count >= LONG) line.long++;
      if (editable === null) {
        line.why[why!] = (line.why[why!] ?? 0) + 1;
        continue;
      }
      line.editable++;
      line.numbers += numbersIn(editable);
      line.stitches += count;
      if (count >= LONG) line.longEditable++;
    }
    if (values.verbose && why !== null)
      console.log(`${name}: object ${object.id}, ${object.kind}, ${count} stitches: ${why}`);
  }
}

const [from, to] = values.seeds.split('..').map(Number);
for (const [set, families] of [
  ['plain', FAMILIES],
  ['production', PRODUCTION],
] as const) {
  if (!values.set.includes(set)) continue;
  for (const name of Object.keys(families).filter((name) => name.includes(values.only))) {
    for (let seed = from; seed < to; seed++) add(name, `${name} ${seed}`, families[name](seed).design);
  }
}
if (values.set.includes('samples')) {
  for (const name of sampleNames().filter((name) => name.includes(values.only)))
    add(name, name, sampleDesign(name));
}
const share = (n: number, of: number) => (of === 0 ? '-' : `${((100 * n) / of).toFixed(1)}%`).padStart(7);
console.log(`${'family'.padEnd(32)}objects editable  of ${LONG} stitches and more  numbers a stitch`);
for (const [key, { objects, editable, long, longEditable, numbers, stitches, why }] of lines) {
  console.log(
    `${key.padEnd(32)}${`${objects}`.padStart(7)} ${share(editable, objects)} ${`${long}`.padStart(8)} ${share(longEditable, long)} ${(numbers / stitches).toFixed(3).padStart(14)}  ${JSON.stringify(why)}`,
  );
}
