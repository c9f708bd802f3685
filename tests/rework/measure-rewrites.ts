/**
 * Prints what rewriting does to generated designs and to the samples, family by family.
 *   npx tsx tests/rework/measure-rewrites.ts --seeds 0..20 [--only satin] [--verbose]
 */
import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import type { Design } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { coverOf } from '../../lib/rework/cover.js';
import type { Enlargement } from '../../lib/rework/enlargement.js';
import { holesOf } from '../../lib/rework/resew-holes.js';
import { RESEW_MODES, type ResewMode } from '../../lib/rework/resew-mode.js';
import { FAMILIES } from '../generators/families/index.js';
import type { Case } from '../generators/pen.js';
import { PRODUCTION } from '../generators/production/index.js';
import { bruteDistance } from './brute-cover.js';
import { barePlaces, enlargeProven, readDesign, relayAll, type Sewn } from './rewrites.js';

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '0..10' },
    only: { type: 'string' },
    set: { type: 'string', default: 'plain,production,samples' },
    verbose: { type: 'boolean', default: false },
  },
});

const SAMPLES = new URL('../../samples/', import.meta.url);
const BY: Enlargement = { x: 0.05, y: 0.05, dx: 0, dy: 0 };
const THREAD_MM = 0.4;
/** Holes of a design that are held against every thread. */
const HOLES_TRIED = 150;

class Figures {
  files = 0;
  asked = 0;
  wide = 0;
  relaid = 0;
  lost = 0;
  filesLost = 0;
  sound = 0;
  readonly warned: Record<ResewMode, number> = { machine: 0, regenerate: 0, widen: 0 };
  readonly bare: Record<ResewMode, number> = { machine: 0, regenerate: 0, widen: 0 };
  holes = 0;
  agree = 0;
  falseHidden = 0;

  add(other: Figures): void {
    for (const key of [
      'files',
      'asked',
      'wide',
      'relaid',
      'lost',
      'filesLost',
      'sound',
      'holes',
      'agree',
      'falseHidden',
    ] as const)
      this[key] += other[key];
    for (const mode of RESEW_MODES) {
      this.warned[mode] += other.warned[mode];
      this.bare[mode] += other.bare[mode];
    }
  }

  toString(): string {
    const share = (n: number, of: number) =>
      of === 0 ? '     -' : `${((100 * n) / of).toFixed(2)}%`.padStart(7);
    const modes = RESEW_MODES.map(
      (mode) => `${this.bare[mode]}`.padStart(5) + share(this.warned[mode], this.sound),
    );
    return `${`${this.files}`.padStart(5)}${`${this.asked}`.padStart(6)}${`${this.wide}`.padStart(6)}${share(this.relaid, this.wide)}${`${this.lost}`.padStart(6)}${`${this.filesLost}`.padStart(5)} |${modes.join(' |')} |${`${this.holes}`.padStart(7)}${share(this.agree, this.holes)}${`${this.falseHidden}`.padStart(5)}`;
  }
}

async function measure(sewn: Sewn, say: (text: string) => void): Promise<Figures> {
  const figures = new Figures();
  figures.files = 1;
  const relaid = await relayAll(sewn);
  figures.asked = relaid.asked;
  figures.wide = relaid.askedWide;
  figures.relaid = relaid.relaidWide;
  figures.lost = relaid.lost;
  figures.filesLost = relaid.lost > 0 ? 1 : 0;
  if (relaid.lost > 0) say(`${sewn.name}: ${relaid.lost} top stitches lost in relaying`);
  if (relaid.why.length > 0) say(`${sewn.name}: not relaid: ${relaid.why.join(', ')}`);
  const before = readDesign(sewn.design);
  const sound = before.objects.filter(({ kind }) => kind !== 'run');
  figures.sound = sound.length;
  for (const mode of RESEW_MODES) {
    const { made, told } = await enlargeProven(before, mode, BY);
    figures.warned[mode] = sound.filter(({ id }) => told.has(id)).length;
    if (figures.warned[mode] > 0) say(`${sewn.name}: ${mode} leaves or tells of ${figures.warned[mode]}`);
    const bare = barePlaces(before, made, mode, BY).filter(({ object }) => !told.has(object));
    figures.bare[mode] = bare.length;
    if (bare.length > 0)
      say(`${sewn.name}: ${mode} leaves ${bare.length} bare, first at ${JSON.stringify(bare[0])}`);
    proveHoles(figures, made.stitches, made.objects, before, say, sewn.name);
  }
  return figures;
}

/** Holes of the design before, held against every thread of the one made. */
function proveHoles(
  figures: Figures,
  stitches: Parameters<typeof coverOf>[0],
  objects: Parameters<typeof coverOf>[1],
  before: ReturnType<typeof readDesign>,
  say: (text: string) => void,
  name: string,
): void {
  const cover = coverOf(stitches, objects, THREAD_MM);
  const holes = holesOf(before.stitches, before.objects);
  const stride = Math.max(1, Math.floor(holes.count / HOLES_TRIED));
  for (let h = 0; h < holes.count; h += stride) {
    const gap = bruteDistance(stitches, objects, holes.x[h], holes.y[h]) - THREAD_MM / 2;
    figures.holes++;
    const agrees = cover.underThread(holes.x[h], holes.y[h]) === gap <= 1e-9;
    if (agrees) figures.agree++;
    if (cover.hides(holes.x[h], holes.y[h]) && gap > 0.1 + 1e-9) {
      figures.falseHidden++;
      say(`${name}: hole ${h} called hidden, ${gap.toFixed(3)} mm from thread`);
    }
  }
}

/** As a file holds it; null where none can. */
function asFile(design: Design): Design | null {
  try {
    return decodeDst(encodeDst(design));
  } catch {
    return null;
  }
}

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
        family.add(await measure({ name: `${name} ${seed}`, design, isTop: (i) => role[i] === 'top' }, say));
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
    const figures = await measure({ name: file, design, isTop: (i) => top[i] === 1 }, say);
    all.add(figures);
    console.log(file.padEnd(25), String(figures));
  }
  console.log('ALL'.padEnd(25), String(all));
  if (values.verbose) console.log(lines.join('\n'));
}

await main();
