/**
 * Makes the page: one file that works in a browser, without a network.
 *
 *     node .config/page.mjs [file] [folder of the surface]
 */
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, transform } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const target = resolve(root, process.argv[2] ?? '.build/cli/page.html');
const UI = process.argv[3] ?? 'cli/page/ui';
const STAND_INS = 'cli/page/stand-ins';

/** What stands in the place of a module in the worker: of Node's, of a library, and of the project's own. */
const INSTEAD = {
  'node:crypto': 'crypto',
  'node:fs': 'node',
  'node:os': 'node',
  'node:path': 'path',
  'node:process': 'node',
  'node:timers/promises': 'node',
  'node:worker_threads': 'node',
  tinyglobby: 'glob',
  'cli/version.ts': 'version',
  'cli/watchdog.ts': 'watchdog',
  'cli/batch/worker-pool.ts': 'worker-pool',
  'cli/batch/watch.ts': 'not-here',
  'cli/commands/page.ts': 'not-here',
  'lib/io/kept-answers.ts': 'kept-answers',
  'lib/report/to-png.ts': 'not-here',
};

const standIns = {
  name: 'stand-ins',
  setup({ onResolve, resolve: find }) {
    const standIn = (name) => ({ path: resolve(root, STAND_INS, `${INSTEAD[name]}.ts`) });
    onResolve({ filter: /./ }, async ({ path, pluginData, importer, resolveDir, kind }) => {
      if (pluginData === standIns) return undefined;
      if (path in INSTEAD) return standIn(path);
      if (!path.startsWith('.')) return undefined;
      const found = await find(path, { importer, resolveDir, kind, pluginData: standIns });
      const file = relative(root, found.path).replaceAll('\\', '/');
      // A stand-in may speak of what it stands for.
      return file in INSTEAD && !importer.includes(STAND_INS) ? standIn(file) : undefined;
    });
  },
};

/** A script in one text; what browsers of the last three years understand. */
async function packed(entry, options = {}) {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: [entry],
    write: false,
    bundle: true,
    minify: true,
    format: 'iife',
    platform: 'browser',
    target: 'es2022',
    charset: 'ascii',
    legalComments: 'none',
    logLevel: 'warning',
    ...options,
  });
  return outputFiles[0].text;
}

/** The look that the page shares with every report. */
async function reportStyle() {
  const { outputFiles } = await build({
    absWorkingDir: root,
    stdin: {
      contents: ['base', 'print', 'document']
        .map((name) => `export { ${name.toUpperCase()}_CSS as ${name} } from './lib/report/render/${name}-css.ts';`)
        .join('\n'),
      resolveDir: root,
    },
    write: false,
    bundle: true,
    format: 'esm',
    logLevel: 'warning',
  });
  const { base, print, document } = await import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
  return (await transform(base + print + document, { loader: 'css', minify: true })).code;
}

/** A text as a string of JavaScript that no reader of HTML takes for markup. */
const quoted = (text) => JSON.stringify(text).replaceAll('<', '\\x3c');

/** Markup within a script would end it, or begin what does not end. */
function expectNoMarkup(text, where) {
  const found = /<!--|<\/?(?:script|style)/i.exec(text);
  if (found) throw new Error(`${found[0]} in ${where} would be taken for markup`);
  return text;
}

const hashOf = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

const { version } = JSON.parse(readFileSync(resolve(root, 'package.json'), 'utf8'));
const [worker, ui, shared, own] = await Promise.all([
  packed('cli/page/worker.ts', {
    plugins: [standIns],
    inject: [`${STAND_INS}/globals.ts`],
    define: { VERSION: JSON.stringify(version) },
  }),
  packed(`${UI}/main.ts`, { plugins: [standIns] }),
  reportStyle(),
  packed(`${UI}/style.css`),
]);
const style = shared + own;
const script = expectNoMarkup(`const WORKER_TEXT=${quoted(worker)};${ui}`, 'the script');
expectNoMarkup(style, 'the style');
const policy = [
  "default-src 'none'",
  `script-src ${hashOf(script)}`,
  `style-src ${hashOf(style)}`,
  'worker-src blob:',
  'img-src data: blob:',
  "connect-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
const layout = readFileSync(resolve(root, UI, 'layout.html'), 'utf8');
/** Put in as they are: no text of theirs is a pattern. */
const put = (page, mark, text) => {
  const parts = page.split(mark);
  if (parts.length !== 2) throw new Error(`the layout of the page has ${mark} ${parts.length - 1} times`);
  return parts.join(text);
};
const page = [
  ['<!-- policy -->', `<meta http-equiv="Content-Security-Policy" content="${policy}">`],
  ['<!-- style -->', `<style>${style}</style>`],
  ['<!-- script -->', `<script>${script}</script>`],
].reduce((text, [mark, part]) => put(text, mark, part), layout);
writeFileSync(target, page);
