import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Short files that work long: by their size they would come last, and the other workers would wait for them. */
const WORK_LONG =
  /\/(regressions|kills|fit|package|advice\/recommendations|mechanics\/backing-table|cli\/(faults|examples|packed|batch-pool|hostile-names))\b/;

/** Those first, then as usual: on a machine that ran no test yet by size, else by how long each took. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const usual = await super.sort(files);
    const worksLong = ({ moduleId }: TestSpecification): boolean => WORK_LONG.test(moduleId);
    return [...usual.filter(worksLong), ...usual.filter((file) => !worksLong(file))];
  }
}

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  cacheDir: 'node_modules/.cache',
  test: {
    include: ['tests/**/*.test.ts'],
    // What takes a minute by itself waits for the long runs.
    exclude: process.env.LIEFLAT_FULL === '1' ? [] : ['tests/**/*.long.test.ts'],
    setupFiles: ['tests/seed.ts'],
    // A busy machine takes several times as long as a quiet one.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    // Test files share the modules that they import: loading them anew for each took a fifth of all. What stands in for a drive or a
    // system in a test is given back at its end.
    isolate: false,
    // Node itself runs what tsx makes of a file. Vite's runner reaches every imported constant and function through an object, which
    // makes the loops of the mechanics two to three times as slow as they are for a user.
    experimental: { viteModuleRunner: false, nodeLoader: false },
    execArgv: ['--import', 'tsx'],
    sequence: { sequencer: LongestFirst },
    // On two cores a third worker fills the time in which others wait for a process or a browser. Told in per cent it would be cut off at
    // the number of cores.
    maxWorkers: Math.ceil(1.5 * availableParallelism()),
  },
});
