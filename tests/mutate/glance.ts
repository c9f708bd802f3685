/** A quick look at the finder or the synthesiser with one source file changed, without a process of its own. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';
import { type BuildContext, context } from 'esbuild';
import { FAMILIES } from '../generators/families/index.js';
import type { Case } from '../generators/pen.js';
import { PRODUCTION } from '../generators/production/index.js';
import { READINGS, SEED } from '../segment/readings.js';
import { SEWINGS, sewnDesigns } from '../stitch/sewings.js';

const LOOK = new URL('./look.ts', import.meta.url);
/** A change that makes work endless is found by that, ms. */
const LONGEST_MS = 120_000;

export class Glance {
  private readonly cases: Record<string, Case> = {};
  private readonly digests: Record<string, string> = JSON.parse(readFileSync(READINGS, 'utf8'));
  private readonly designs = sewnDesigns();
  private readonly sewings: Record<string, string> = JSON.parse(readFileSync(SEWINGS, 'utf8'));
  private changed: { path: string; source: string } | null = null;
  private bundle!: BuildContext;

  static async ready(): Promise<Glance> {
    const glance = new Glance();
    for (const [name, family] of Object.entries({ ...FAMILIES, ...PRODUCTION }))
      glance.cases[name] = family(SEED);
    glance.bundle = await context({
      entryPoints: [fileURLToPath(LOOK)],
      bundle: true,
      write: false,
      format: 'cjs',
      platform: 'node',
      target: 'node20',
      external: ['@resvg/resvg-js'],
      define: { 'import.meta.url': JSON.stringify(LOOK.href) },
      logLevel: 'silent',
      plugins: [
        {
          name: 'one source otherwise',
          setup: ({ onLoad }) =>
            onLoad({ filter: /[\\/]lib[\\/](?:segment|stitch)[\\/].*\.ts$/ }, ({ path }) => ({
              loader: 'ts',
              contents: glance.changed?.path === path ? glance.changed.source : readFileSync(path, 'utf8'),
            })),
        },
      ],
    });
    return glance;
  }

  /** Whether anything is read, or sewn, otherwise where a file (its path) has another source; an error or no end counts as otherwise. */
  async seesChange(path: string, source: string, of: 'read' | 'sewn'): Promise<boolean> {
    this.changed = { path, source };
    try {
      const { outputFiles } = await this.bundle.rebuild();
      const context = vm.createContext({
        require: createRequire(import.meta.url),
        process,
        console,
        URL,
        TextEncoder,
        cases: this.cases,
        digests: this.digests,
        // no name of the bundle's own
        sewnDesignsBefore: this.designs,
        sewingsBefore: this.sewings,
      });
      const text = outputFiles?.[0].text ?? '';
      const look =
        of === 'read' ? 'readsAsBefore(cases, digests)' : 'sewsAsBefore(sewnDesignsBefore, sewingsBefore)';
      // globals of a context are slow to look up: the bundle gets them as its own
      const own = 'Math, Number, Array, Map, Set, Object, Float64Array, Int32Array, Uint8Array, Uint32Array';
      const script = new vm.Script(
        `((${own}) => { const module = { exports: {} }, exports = module.exports;\n${text}\nreturn module.exports.${look}; })(${own})`,
      );
      return script.runInContext(context, { timeout: LONGEST_MS }) !== true;
    } catch {
      return true;
    } finally {
      this.changed = null;
    }
  }

  async end(): Promise<void> {
    await this.bundle.dispose();
  }
}
