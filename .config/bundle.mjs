/**
 * Packs the command line into one file, because a run of it is short and loading is most of it.
 *
 *     node .config/bundle.mjs [folder]
 */
import { createHash } from 'node:crypto';
import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join, relative, resolve } from 'node:path';
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
      return found.errors.length > 0 ? found : { path: relative(root, found.path), namespace: whenCalled.name };
    });
    onLoad({ filter: /./, namespace: whenCalled.name }, ({ path }) => ({
      contents: `let loaded;
export default (...args) => (loaded ??= require(${JSON.stringify(`./${path}`)}).default)(...args);`,
      resolveDir: root,
    }));
  },
};

/**
 * Modules of Node that hardly any run needs, or needs at its end: together they take a tenth of a start to load. Of each, what the
 * program uses of it, named here so that every version of Node packs the same program: what is called, and what is only read.
 */
const SELDOM = {
  'node:crypto': { called: ['createHash', 'randomBytes'], read: [] },
  'node:v8': { called: ['serialize', 'deserialize'], read: [] },
  'node:zlib': { called: ['deflateRawSync', 'inflateRawSync'], read: [] },
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
  // As esbuild calls them: by the last part of the name.
  const modules = Object.keys(SELDOM).map((name) => name.split('/').at(-1).replace(':', '_'));
  for (const [, variable] of text.matchAll(new RegExp(`(import_\\w+) = __toESM\\(require_(?:${modules.join('|')})\\d*\\(\\)`, 'g')))
    for (const [, name] of text.matchAll(new RegExp(`\\b${variable}(?:\\.default)?\\.(?!default\\b)(\\w+)`, 'g')))
      if (!named.has(name)) throw new Error(`${name} of a module that is seldom loaded is not named in ${import.meta.filename}`);
}

/**
 * What yargs asks of its surroundings at every start, answered without loading or reading anything: checks that something is there, and
 * the `package.json` nearest to where the user stands, for a version that we tell ourselves.
 */
const FOR_YARGS = {
  assert: `const check = (holds, message) => { if (!holds) throw new Error(message); };
export const strictEqual = (a, b, message) => check(Object.is(a, b), message);
export const notStrictEqual = (a, b, message) => check(!Object.is(a, b), message);`,
  'escalade/sync': 'export default () => undefined;',
};
const answered = {
  name: 'answered',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^(assert|escalade\/sync)$/ }, ({ path, importer }) =>
      /[\\/]yargs[\\/]lib[\\/]/.test(importer) ? { path, namespace: answered.name } : undefined,
    );
    onLoad({ filter: /./, namespace: answered.name }, ({ path }) => ({ contents: FOR_YARGS[path] }));
  },
};

/** Which file of the project an import means, seen from its root. */
const fileOf = async (resolve, path, { importer, resolveDir }) => {
  const found = await resolve(path, { importer, resolveDir, kind: 'import-statement', pluginData: fileOf });
  return found.errors.length > 0 || found.external ? null : relative(root, found.path).replaceAll('\\', '/');
};

/**
 * Cuts off what is loaded on request, into a file of its own: the main job need not read it, and only where nothing is loaded on request
 * does the packer lay modules one after another, without a function around each. Files cut off are noted.
 */
const cutOff = (files) => ({
  name: 'cut-off',
  setup({ onResolve, resolve }) {
    onResolve({ filter: /./ }, async ({ path, kind, ...from }) => {
      if (kind !== 'dynamic-import') return undefined;
      const file = await fileOf(resolve, path, from);
      if (file === null) return undefined;
      files.add(file);
      return { path: `${CUT_OFF}${file}`, external: true };
    });
  },
});
const CUT_OFF = 'cut-off:';
/** How the packer writes the request for such a file, and what stands there instead. */
const REQUESTS = /__toESM\(require\("cut-off:([^"]+)"\)(?:, 1)?\)/g;
const fromTheRest = (_, file) => `require("./rest.js").parts[${JSON.stringify(file)}]()`;

/** Takes modules that the program holds from there: each may be there but once. Those taken are noted. */
const held = (modules, taken) => ({
  name: 'held',
  setup({ onResolve, onLoad, resolve }) {
    onResolve({ filter: /^\.{1,2}\// }, async ({ path, pluginData, namespace, ...from }) => {
      if (namespace === 'held') return { path, external: true };
      if (pluginData === fileOf) return undefined;
      const file = await fileOf(resolve, path, from);
      return modules.has(file) ? { path: file, namespace: 'held' } : undefined;
    });
    onLoad({ filter: /./, namespace: 'held' }, ({ path }) => {
      taken.add(path);
      return {
        contents: `const held = require('./program.js').held()[${JSON.stringify(path)}];
${modules
  .get(path)
  .map((name) => `export const ${name} = held.${name};`)
  .join('\n')}`,
        resolveDir: root,
      };
    });
  },
});

/** What each file of the project exports, by its name. */
async function exportsOf(files) {
  const { metafile } = await build({ ...COMMON, entryPoints: files, outdir: 'exports', format: 'esm', metafile: true });
  return new Map(Object.values(metafile.outputs).map((output) => [output.entryPoint, output.exports]));
}

const COMMON = { absWorkingDir: root, write: false, logLevel: 'warning' };
const PACKED = {
  ...COMMON,
  bundle: true,
  metafile: true,
  format: 'cjs',
  platform: 'node',
  target: 'node20',
  // Node lets code that was kept require other modules, but not import them.
  supported: { 'dynamic-import': false },
  banner: { js: "const moduleUrl = require('node:url').pathToFileURL(__filename).href;" },
  define: { 'import.meta.url': 'moduleUrl' },
  legalComments: 'eof',
};

/** Lists of what there is: only names of other modules, which each file may have for itself. */
const LIST = /^lib\/([a-z]+\/)?index\.ts$/;

/** Modules of the project of which something is in a file. */
const modulesIn = ({ metafile: { outputs } }) =>
  Object.entries(Object.values(outputs)[0].inputs)
    .filter(([file, { bytesInOutput }]) => bytesInOutput > 0 && /^(lib|cli)\//.test(file) && !LIST.test(file))
    .map(([file]) => file);

/**
 * The program: what starts it and the main job.
 *
 * @param shared what the rest takes from it: names by module
 */
async function packProgram(shared) {
  const files = new Set();
  const imports = [...shared.keys()].map((file, i) => `import * as m${i} from './${file}';`);
  const names = [...shared].map(
    ([file, exported], i) => `${JSON.stringify(file)}: { ${exported.map((name) => `${name}: m${i}.${name}`).join(', ')} }`,
  );
  const packed = await build({
    ...PACKED,
    stdin: {
      contents: `export { run } from './cli/run.js';
export { processIo } from './cli/process-io.js';
export { default as workOn } from './cli/batch/worker.js';
${imports.join('\n')}
let all;
export const held = () => (all ??= { ${names.join(',\n')} });`,
      resolveDir: root,
    },
    outfile: 'program.js',
    plugins: [onRequest, cutOff(files), whenCalled, whenAsked, answered],
  });
  return { packed, files };
}

/** All that is loaded on request, in one file. */
async function packRest(files, modules) {
  const taken = new Set();
  const packed = await build({
    ...PACKED,
    stdin: {
      contents: `export const parts = { ${[...files].sort().map((file) => `${JSON.stringify(file)}: () => import('./${file}')`).join(',\n')} };`,
      resolveDir: root,
    },
    outfile: 'rest.js',
    plugins: [onRequest, held(modules, taken), whenAsked],
  });
  return { packed, taken };
}

/** Packs both. What the rest takes from the program may bring more into that, which the rest is to take from there too. */
async function pack() {
  let shared = new Map();
  for (let round = 0; round < 5; round++) {
    const program = await packProgram(shared);
    const modules = await exportsOf(modulesIn(program.packed));
    const rest = await packRest(program.files, modules);
    const twice = modulesIn(rest.packed).filter((file) => modules.has(file));
    if (twice.length > 0) throw new Error(`packed twice: ${twice.join(', ')}`);
    const wanted = [...rest.taken].sort();
    if (wanted.join() === [...shared.keys()].join()) return [program.packed, rest.packed];
    shared = new Map(wanted.map((file) => [file, modules.get(file)]));
  }
  throw new Error('what the program and the rest of it share does not come to an end');
}

// What the compiler put there was for its checks.
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
// Text of one byte a character loads faster. What esbuild leaves of other text stands in patterns and comments.
const escaped = (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
const content = createHash('sha256');
for (const { outputFiles } of await pack()) {
  const [{ path, text }] = outputFiles;
  expectNamed(text);
  const whole = text.replace(REQUESTS, fromTheRest).replace(/[^\0-\x7f]/g, escaped);
  writeFileSync(join(folder, basename(path)), whole, 'latin1');
  content.update(whole);
}
const { name, version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
// What it answered is known as its own by the next run.
const built = content.digest('hex').slice(0, 16);
const about = { name, version, build: built, type: 'commonjs', exports: { './package.json': './package.json', './page.html': './page.html' } };
writeFileSync(join(folder, 'package.json'), `${JSON.stringify(about, null, 2)}\n`);
copyFileSync(join(root, '.config/start.cjs'), join(folder, 'main.js'));
copyFileSync(join(root, '.config/worker.cjs'), join(folder, 'worker.js'));
chmodSync(join(folder, 'main.js'), 0o755);
