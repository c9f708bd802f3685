import { createRequire } from 'node:module';

const about = (): { version: string; build?: string } =>
  createRequire(import.meta.url)('lieflat/package.json') as { version: string; build?: string };

/** The program's version as its package says. */
export const packageVersion = (): string => about().version;

/** What tells the packed program from any other, be it of the same version; undefined for one that is not packed. */
export const packageBuild = (): string | undefined => about().build;
