import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';
import type { BuildOptions, Plugin } from 'esbuild';

/** How a module and all that it imports becomes one text that can be loaded again and again, with a plugin that puts in another source here or there. */
export const bundled = (entry: URL, plugin: Plugin) =>
  ({
    entryPoints: [fileURLToPath(entry)],
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    external: ['@resvg/resvg-js'],
    define: { 'import.meta.url': JSON.stringify(entry.href) },
    logLevel: 'silent',
    plugins: [plugin],
  }) satisfies BuildOptions;

/**
 * Makes such a text ready to be loaded.
 *
 * @param names of more variables that the text may read
 * @returns loads it anew with values for them, and gives what it exports
 */
export function loader<Exports>(
  text: string,
  names: readonly string[] = [],
): (...values: readonly unknown[]) => Exports {
  const code = `(function (${['module', 'exports', 'require', ...names].join(', ')}) {${text}\n})`;
  const script = new vm.Script(code, { filename: 'bundled.cjs' });
  return (...values) => {
    const module = { exports: {} as Exports };
    script.runInThisContext()(module, module.exports, createRequire(import.meta.url), ...values);
    return module.exports;
  };
}
