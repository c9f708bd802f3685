import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    cache: { dir: '.cache/vitest' },
  } as never,
});
