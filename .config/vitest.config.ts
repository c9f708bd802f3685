import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  cacheDir: 'node_modules/.cache',
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    // By default one core is left idle; there may be two.
    maxWorkers: '100%',
  },
});
