/**
 * Packs the command line into a few files: hundreds of small ones take longer to load than a design takes to vet.
 * What only one command needs stays in a file of its own.
 *
 *     node .config/bundle.mjs [folder]
 */
import { rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const outdir = resolve(root, process.argv[2] ?? '.build/cli');

/**
 * Loads a module when it is first called instead of at the start. yargs sets its help with these alone, and they
 * prepare tables of Unicode that take a quarter of the time of a short run.
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

// What the compiler put there was for its checks.
rmSync(outdir, { recursive: true, force: true });
await build({
  absWorkingDir: root,
  entryPoints: ['cli/main.ts'],
  outdir,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  // A module that is loaded when asked for keeps its names only where it is packed as ESM.
  mainFields: ['module', 'main'],
  charset: 'utf8',
  legalComments: 'eof',
  // A compiled addon, which cannot be packed.
  external: ['@resvg/resvg-js'],
  plugins: [whenCalled],
  logLevel: 'warning',
});
