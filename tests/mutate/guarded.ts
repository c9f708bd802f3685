/** What a process that runs changed code is started with, so that it ends where it takes memory without bound. */
export const GUARDED: readonly string[] = [
  '--max-old-space-size=2000',
  '--import',
  new URL('../../.config/guard.mjs', import.meta.url).href,
];
