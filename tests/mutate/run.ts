/**
 * Changes one decision at a time in what finds objects and what sews them, and counts for how many of the changes a test fails.
 *   npm run mutate -- [--count 100] [--seed 1] [--only lib/stitch/curve] [--least 90]
 *
 * Works on a copy of the project, so that nothing here is ever left changed. A change is tried on what is decided and read, or sewn, first
 * (`glance.ts`); then on the tests of its own file, and on those of its station. Exit 1 where less than `--least` of 100 are found.
 */
import { spawnSync } from 'node:child_process';
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
/** A change that makes work endless is found by that, s. */
const LONGEST_S = 900;

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

/** Whether any of the tests fails, or never ends. */
function fails(folder: string, tests: readonly string[]): boolean {
  const vitest = join(folder, 'node_modules', 'vitest', 'vitest.mjs');
  const { status } = spawnSync(
    process.execPath,
    [vitest, 'run', '--config', '.config/vitest.config.ts', '--bail', '1', '--maxWorkers', '1', ...tests],
    { cwd: folder, stdio: 'ignore', timeout: LONGEST_S * 1000, killSignal: 'SIGKILL' },
  );
  return status !== 0;
}

async function isFound(folder: string, glance: Glance, change: Change): Promise<boolean> {
  const { file, station, mutation } = change;
  const source = readFileSync(join(HOME, file), 'utf8');
  const changed = mutated(source, mutation);
  // what the tests of the station read or sew, in a fraction of the time
  const look = station === 'lib/segment' ? 'read' : 'sewn';
  if (await glance.seesChange(join(HOME, file), changed, look)) return true;
  const path = join(folder, file);
  writeFileSync(path, changed);
  const own = `tests/${station.slice('lib/'.length)}/${basename(file, '.ts')}.test.ts`;
  const is = (existsSync(join(folder, own)) && fails(folder, [own])) || fails(folder, STATIONS[station]);
  writeFileSync(path, source);
  return is;
}

async function main(): Promise<void> {
  const changes = chosen(Number(values.count), new Random(Number(values.seed)));
  const folder = copied();
  const glance = await Glance.ready();
  let found = 0;
  try {
    for (const change of changes) {
      const is = await isFound(folder, glance, change);
      if (is) found++;
      console.log(
        `${is ? 'found ' : 'MISSED'} ${change.file}:${change.mutation.line} ${change.mutation.what}`,
      );
    }
  } finally {
    await glance.end();
    rmSync(folder, { recursive: true, force: true });
  }
  const share = (100 * found) / Math.max(1, changes.length);
  console.log(`${found} of ${changes.length} changes found (${share.toFixed(0)} of 100)`);
  if (!(share >= Number(values.least))) process.exitCode = 1;
}

await main();
