/**
 * Changes one decision at a time in what finds objects and what sews them, and counts for how many of the changes a test fails.
 *   npm run mutate -- [--count 100] [--seed 1] [--only lib/stitch/curve] [--least 90]
 *
 * Works on a copy of the project, so that nothing here is ever left changed. A change is tried on what is decided and read, or sewn, first
 * (`glance.ts`); then on the tests of its own file, and on those of its station. One that takes time or memory without bound, or ends its process,
 * is found by that. Exit 1 where less than `--least` of 100 are found, or where something fails unchanged.
 */
import '../nothing-kept.js';
import { spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Random } from '../generators/random.js';
import { Glance } from './glance.js';
import { GUARDED } from './guarded.js';
import type { Asked } from './looker.js';
import { type Mutation, mutated, mutationsOf } from './mutations.js';

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '100' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: '' },
    least: { type: 'string', default: '90' },
  },
});

const HOME = fileURLToPath(new URL('../..', import.meta.url));
/** What each station's changes are held against, after the test of the changed file itself. */
const STATIONS: Readonly<Record<string, readonly string[]>> = {
  'lib/segment': [
    'tests/segment',
    'tests/properties/accuracy.test.ts',
    'tests/generators/generators.test.ts',
  ],
  'lib/stitch': [
    'tests/stitch',
    'tests/rework/relay-edit.test.ts',
    'tests/rework/relay.test.ts',
    'tests/rework/widen.test.ts',
    'tests/rework/regenerate.test.ts',
    'tests/samples/regenerate.test.ts',
  ],
};
const LOOKS: Readonly<Record<string, Asked['of']>> = { 'lib/segment': 'read', 'lib/stitch': 'sewn' };
/** The tests of a change may take so many times as long as those of none, and so much longer, s. */
const TIMES_AS_LONG = 4;
const LONGER_S = 120;

interface Change {
  readonly file: string;
  readonly station: string;
  readonly mutation: Mutation;
}

/** So many changes, spread evenly over all that there are. */
function chosen(count: number, random: Random): Change[] {
  const all = Object.keys(STATIONS).flatMap((station) =>
    readdirSync(join(HOME, station), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => `${station}/${name.replaceAll('\\', '/')}`)
      .filter((file) => file.includes(values.only))
      .flatMap((file) =>
        mutationsOf(readFileSync(join(HOME, file), 'utf8')).map(
          (mutation): Change => ({ file, station, mutation }),
        ),
      ),
  );
  const step = all.length / Math.min(count, all.length);
  return Array.from(
    { length: Math.min(count, all.length) },
    (_, k) => all[Math.floor(step * (k + random.range(0, 1)))],
  );
}

function copied(): string {
  const folder = mkdtempSync(join(tmpdir(), 'lieflat-mutate-'));
  for (const name of [
    'lib',
    'cli',
    'tests',
    'samples',
    '.config',
    'package.json',
    'tsconfig.json',
    'README.md',
    'DEVELOPERS.md',
  ])
    cpSync(join(HOME, name), join(folder, name), { recursive: true });
  symlinkSync(join(HOME, 'node_modules'), join(folder, 'node_modules'), 'junction');
  return folder;
}

/** Whether any of the tests fails, or takes longer than seconds given. */
function fails(
  folder: string,
  tests: readonly string[],
  longest = Number.POSITIVE_INFINITY,
): Promise<boolean> {
  const vitest = join(folder, 'node_modules', 'vitest', 'vitest.mjs');
  // a group of its own: what runs the tests in turn is ended with it
  const run = spawn(
    process.execPath,
    [vitest, 'run', '--config', '.config/vitest.config.ts', '--bail', '1', '--maxWorkers', '1', ...tests],
    {
      cwd: folder,
      stdio: 'ignore',
      detached: true,
      env: { ...process.env, LIEFLAT_FULL: '1', NODE_OPTIONS: GUARDED.join(' ') },
    },
  );
  const end = (): void => {
    try {
      process.kill(-run.pid!, 'SIGKILL');
    } catch {
      // it has ended by itself
    }
  };
  process.once('exit', end);
  const late = Number.isFinite(longest) ? setTimeout(end, longest * 1000) : undefined;
  return new Promise((resolve) => {
    run.on('exit', (code) => {
      clearTimeout(late);
      process.off('exit', end);
      end();
      resolve(code !== 0);
    });
  });
}

/** How long the tests of a station may take, s; the station unchanged has to pass them, and to look as it did. */
async function timeOf(folder: string, glance: Glance, station: string): Promise<number> {
  const since = performance.now();
  const name = readdirSync(join(HOME, station)).find((file) => file.endsWith('.ts'))!;
  const path = join(HOME, station, name);
  const seen = await glance.seesChange({ path, source: readFileSync(path, 'utf8'), of: LOOKS[station] });
  if (seen || (await fails(folder, STATIONS[station])))
    throw new Error(`${station}: ${seen ? 'is read or sewn otherwise' : 'a test fails'} without a change`);
  return (TIMES_AS_LONG * (performance.now() - since)) / 1000 + LONGER_S;
}

/** What finds a change, or nothing. */
async function finder(
  { folder, glance, seconds }: { folder: string; glance: Glance; seconds: number },
  { file, station, mutation }: Change,
): Promise<string | null> {
  const source = readFileSync(join(HOME, file), 'utf8');
  const changed = mutated(source, mutation);
  // what the tests of the station read or sew, in a fraction of the time
  if (await glance.seesChange({ path: join(HOME, file), source: changed, of: LOOKS[station] })) return 'look';
  const path = join(folder, file);
  writeFileSync(path, changed);
  const own = `tests/${station.slice('lib/'.length)}/${basename(file, '.ts')}.test.ts`;
  const is =
    (existsSync(join(folder, own)) && (await fails(folder, [own], seconds))) ||
    (await fails(folder, STATIONS[station], seconds));
  writeFileSync(path, source);
  return is ? 'tests' : null;
}

async function main(): Promise<void> {
  const changes = chosen(Number(values.count), new Random(Number(values.seed)));
  const folder = copied();
  const glance = new Glance();
  process.once('exit', () => {
    glance.end();
    rmSync(folder, { recursive: true, force: true });
  });
  const counts = new Map<string, { found: number; all: number }>();
  const seconds = new Map<string, number>();
  for (const station of new Set(changes.map((change) => change.station)))
    seconds.set(station, await timeOf(folder, glance, station));
  for (const change of changes) {
    const { file, station, mutation } = change;
    const by = await finder({ folder, glance, seconds: seconds.get(station)! }, change);
    const count = counts.get(station) ?? { found: 0, all: 0 };
    counts.set(station, { found: count.found + (by === null ? 0 : 1), all: count.all + 1 });
    console.log(`${(by ?? 'MISSED').padEnd(7)}${file}:${mutation.line} ${mutation.what}`);
  }
  glance.end();
  for (const [station, { found, all }] of counts) console.log(`${station}: ${found} of ${all} changes found`);
  const found = [...counts.values()].reduce((sum, count) => sum + count.found, 0);
  const share = (100 * found) / Math.max(1, changes.length);
  console.log(
    `${found} of ${changes.length} changes found (${share.toFixed(0)} of 100), those that change nothing counted as missed`,
  );
  if (!(share >= Number(values.least))) process.exitCode = 1;
}

for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(1));
await main();
