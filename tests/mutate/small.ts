/**
 * Changes one decision at a time in small modules that much rests on, and counts for how many of the changes a test of the module fails.
 *   npm run mutate:small -- [--count 40] [--seed 1] [--only lib/advice/cost] [--least 85]
 *
 * Nothing is written: the tests are bundled with the changed source, and run in a thread of their own. A change that has no end, takes memory
 * without bound or cannot be bundled is found by that. Exit 1 where less than `--least` of 100 are found in any of the modules, or where a
 * test fails unchanged. `--count` is of each module; 0 takes all that there are.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { build } from 'esbuild';
import { Random } from '../generators/random.js';
import { type Mutation, mutated, mutationsOf } from './mutations.js';

/** What each module is held against. */
const MODULES: Readonly<Record<string, readonly string[]>> = {
  'lib/mechanics/laminate.ts': ['tests/published/laminate.test.ts', 'tests/mechanics/laminate.test.ts'],
  'lib/mechanics/score.ts': ['tests/published/smoothness-grades.test.ts'],
  'lib/vetting/findings/decoding.ts': [
    'tests/vetting/cut-off.test.ts',
    'tests/vetting/design-findings.test.ts',
  ],
  'lib/calibrate/least-squares.ts': ['tests/calibrate/least-squares.test.ts'],
  'lib/advice/cost.ts': ['tests/advice/cost.test.ts'],
  'lib/format/dst-record.ts': ['tests/format/dst-record.test.ts'],
};

const HOME = fileURLToPath(new URL('../..', import.meta.url));
const STAND_IN = fileURLToPath(new URL('stand-in.ts', import.meta.url));
/** Unchanged they take a second at most. */
const LONGEST_MS = 30_000;
const MOST_MB = 1000;

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '40' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: '' },
    least: { type: 'string', default: '85' },
  },
});

/** The tests as one text, with one source file otherwise. */
async function bundle(tests: readonly string[], changed: string, source: string): Promise<string> {
  const { outputFiles } = await build({
    stdin: {
      contents: [
        ...tests.map((test) => `import ${JSON.stringify(HOME + test)};`),
        "export { failure } from 'vitest';",
      ].join('\n'),
      resolveDir: HOME,
    },
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    // Tests are loaded for nothing but what they do.
    ignoreAnnotations: true,
    logLevel: 'silent',
    plugins: [
      {
        name: 'one source otherwise',
        setup: ({ onResolve, onLoad }) => {
          onResolve({ filter: /^vitest$/ }, () => ({ path: STAND_IN }));
          onLoad({ filter: /\.ts$/ }, ({ path }) => ({
            loader: 'ts',
            contents: (path === HOME + changed ? source : readFileSync(path, 'utf8')).replaceAll(
              'import.meta.url',
              JSON.stringify(pathToFileURL(path).href),
            ),
          }));
        },
      },
    ],
  });
  return outputFiles[0].text;
}

const RUN =
  "\nmodule.exports.failure().then((name) => require('node:worker_threads').parentPort.postMessage(name));";

/** The test that fails, or what else came of it; null where all passed. */
function verdict(text: string): Promise<string | null> {
  const worker = new Worker(`const module = { exports: {} };${text}${RUN}`, {
    eval: true,
    resourceLimits: { maxOldGenerationSizeMb: MOST_MB },
  });
  return new Promise<string | null>((resolve) => {
    const late = setTimeout(() => resolve('no end'), LONGEST_MS);
    worker.on('message', resolve);
    worker.on('error', ({ message }) => resolve(message));
    worker.on('exit', () => {
      clearTimeout(late);
      resolve('an end of its own');
    });
  }).finally(() => worker.terminate());
}

const found = async (module: string, source: string): Promise<string | null> => {
  try {
    return await verdict(await bundle(MODULES[module], module, source));
  } catch (error) {
    return String(error);
  }
};

/** So many of them, spread evenly. */
function spread(all: readonly Mutation[], count: number, random: Random): Mutation[] {
  const step = all.length / Math.min(count || all.length, all.length);
  return Array.from(
    { length: Math.round(all.length / step) },
    (_, k) => all[Math.floor(step * (k + random.range(0, 1)))],
  );
}

const random = new Random(Number(values.seed));
let [asked, all] = [0, 0];
for (const module of Object.keys(MODULES).filter((name) => name.includes(values.only))) {
  const source = readFileSync(HOME + module, 'utf8');
  const before = await found(module, source);
  if (before !== null) throw new Error(`${module} unchanged: ${before}`);
  const changes = spread(mutationsOf(source, { steps: true }), Number(values.count), random);
  let missed = 0;
  for (const change of changes) {
    if ((await found(module, mutated(source, change))) !== null) continue;
    missed++;
    console.log(`MISSED ${module}:${change.line} ${change.what}`);
  }
  const share = (100 * (changes.length - missed)) / changes.length;
  console.log(
    `${module}: ${changes.length - missed} of ${changes.length} changes found (${share.toFixed(0)} of 100)`,
  );
  if (!(share >= Number(values.least))) process.exitCode = 1;
  asked += changes.length;
  all += changes.length - missed;
}
console.log(`${all} of ${asked} changes found`);
if (asked === 0) throw new Error(`there is no module ${values.only}`);
