/**
 * Packs the command line into one file, because a run of it is short and loading is most of it.
 *
 *     node .config/bundle.mjs [folder]
 */
import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = resolve(root, process.argv[2] ?? '.build/cli');
const require = createRequire(import.meta.url);

/** Leaves a library that is loaded when it is asked for where it is installed, if it can be required from there. */
const onRequest = {
  name: 'on-request',
  setup({ onResolve }) {
    onResolve({ filter: /^[^./]/ }, ({ path, kind }) =>
      kind === 'dynamic-import' && canBeRequired(path) ? { path, external: true } : undefined,
    );
  },
};

function canBeRequired(library) {
  const file = require.resolve(library);
  if (/\.[cm]js$/.test(file)) return file.endsWith('.cjs');
  let home = dirname(file);
  while (!existsSync(join(home, 'package.json'))) home = dirname(home);
  return JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')).type !== 'module';
}

/**
 * Runs a module when it is first called instead of at the start. yargs sets its help with these alone, and the
 * tables of Unicode that they prepare take half as long as vetting a design.
 */
const whenCalled = {
  name: 'when-called',
  setup({ onResolve, onLoad, resolve }) {
    onResolve({ filter: /^(cliui|string-width)$/ }, async ({ path, pluginData, ...from }) => {
      if (pluginData === whenCalled || !/[\\/]yargs[\\/]lib[\\/]/.test(from.importer)) return undefined;
      const found = await resolve(path, { ...from, pluginData: whenCalled });
      return found.errors.length > 0 ? found : { path: found.path, namespace: whenCalled.name };
    });
    onLoad({ filter: /./, namespace: whenCalled.name }, ({ path }) => ({
      contents: `let loaded;
export default (...args) => (loaded ??= require(${JSON.stringify(path)}).default)(...args);`,
      resolveDir: root,
    }));
  },
};

/**
 * Modules of Node that hardly any run needs, or needs at its end: together they take a tenth of a start to load. Of each, what the
 * program uses of it, named here so that every version of Node packs the same program: what is called, and what is only read.
 */
const SELDOM = {
  'node:crypto': { called: ['createHash'], read: [] },
  'node:timers/promises': { called: ['setTimeout'], read: [] },
  'node:worker_threads': { called: [], read: ['threadId', 'workerData'] },
};

/** Loads such a module when something of it is called or read. */
const whenAsked = {
  name: 'when-asked',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^node:/ }, ({ path, namespace }) => {
      if (!(path in SELDOM)) return undefined;
      return namespace === whenAsked.name ? { path, external: true } : { path, namespace: whenAsked.name };
    });
    onLoad({ filter: /./, namespace: whenAsked.name }, ({ path }) => ({
      contents: `const load = () => require(${JSON.stringify(path)});
for (const name of ${JSON.stringify(SELDOM[path].called)}) exports[name] = (...args) => load()[name](...args);
for (const name of ${JSON.stringify(SELDOM[path].read)}) Object.defineProperty(exports, name, { enumerable: true, get: () => load()[name] });`,
    }));
  },
};

/** Something of such a module that is not named would be missing when it is wanted: the packing fails instead. */
function expectNamed(text) {
  const named = new Set(Object.values(SELDOM).flatMap(({ called, read }) => [...called, ...read]));
  for (const [, variable] of text.matchAll(/(import_\w+) = __toESM\(require_(?:node_crypto|promises|node_worker_threads)\d*\(\)/g))
    for (const [, name] of text.matchAll(new RegExp(`\\b${variable}(?:\\.default)?\\.(?!default\\b)(\\w+)`, 'g')))
      if (!named.has(name)) throw new Error(`${name} of a module that is seldom loaded is not named in ${import.meta.filename}`);
}

// What the compiler put there was for its checks.
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const { outputFiles } = await build({
  absWorkingDir: root,
  stdin: {
    contents: `export { run } from './cli/run.js';
export { processIo } from './cli/process-io.js';
export { default as workOn } from './cli/batch/worker.js';`,
    resolveDir: root,
  },
  outfile: join(folder, 'program.js'),
  write: false,
  bundle: true,
  format: 'cjs',
  platform: 'node',
  target: 'node20',
  // Node lets code that was kept require other modules, but not import them.
  supported: { 'dynamic-import': false },
  banner: { js: "const moduleUrl = require('node:url').pathToFileURL(__filename).href;" },
  define: { 'import.meta.url': 'moduleUrl' },
  legalComments: 'eof',
  plugins: [onRequest, whenCalled, whenAsked],
  logLevel: 'warning',
});
expectNamed(outputFiles[0].text);
// Text of one byte a character loads faster. What esbuild leaves of other text stands in patterns and comments.
const escaped = (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
writeFileSync(join(folder, 'program.js'), outputFiles[0].text.replace(/[^\0-\x7f]/g, escaped), 'latin1');
const { name, version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const about = { name, version, type: 'commonjs', exports: { './package.json': './package.json' } };
writeFileSync(join(folder, 'package.json'), `${JSON.stringify(about, null, 2)}\n`);
copyFileSync(join(root, '.config/start.cjs'), join(folder, 'main.js'));
copyFileSync(join(root, '.config/worker.cjs'), join(folder, 'worker.js'));
chmodSync(join(folder, 'main.js'), 0o755);
