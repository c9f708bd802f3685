import { createRequire } from 'node:module';

/** The program's version as its package says. */
export function packageVersion(): string {
  return (createRequire(import.meta.url)('lieflat/package.json') as { version: string }).version;
}
