/** A process that looks at one change after another; `glance.ts` starts it, and another where a change ends it. */
import { readFileSync } from 'node:fs';
import { context } from 'esbuild';
import { bundled, loader } from '../bundled.js';
import { FAMILIES } from '../generators/families/index.js';
import { PRODUCTION } from '../generators/production/index.js';
import { designsOf, READINGS } from '../segment/readings.js';
import { SEWINGS, sewnDesigns } from '../stitch/sewings.js';

/** A source file (its path) with another text, and whether what is read or what is sewn may be otherwise then. */
export interface Asked {
  readonly path: string;
  readonly source: string;
  readonly of: 'read' | 'sewn';
}

type Look = typeof import('./look.js');
type Sewn = Parameters<Look['sewsAsBefore']>;

const kept = (path: string): Record<string, string> => JSON.parse(readFileSync(path, 'utf8'));
/** What is looked at, and what it was; made when it is first asked for. */
const made: { read?: Parameters<Look['readsAsBefore']>; sewn?: Sewn } = {};
const toRead = () =>
  (made.read ??= [
    Object.fromEntries(
      Object.entries({ ...FAMILIES, ...PRODUCTION }).map(([name, family]) => [name, designsOf(family)]),
    ),
    kept(READINGS),
  ]);
const toSew = () => (made.sewn ??= [sewnDesigns(), kept(SEWINGS)]);

let changed: Asked | null = null;
const bundle = await context(
  bundled(new URL('./look.ts', import.meta.url), {
    name: 'one source otherwise',
    setup: ({ onLoad }) =>
      onLoad({ filter: /[\\/]lib[\\/](?:segment|stitch)[\\/].*\.ts$/ }, ({ path }) => ({
        loader: 'ts',
        contents: changed?.path === path ? changed.source : readFileSync(path, 'utf8'),
      })),
  }),
);

async function isOtherwise(asked: Asked): Promise<boolean> {
  changed = asked;
  try {
    const { outputFiles } = await bundle.rebuild();
    const look = loader<Look>(outputFiles[0].text)();
    return asked.of === 'read' ? !look.readsAsBefore(...toRead()) : !look.sewsAsBefore(...toSew());
  } catch {
    return true;
  }
}

process.on('message', async (asked: Asked) => process.send!(await isOtherwise(asked)));
process.on('disconnect', () => process.exit());
