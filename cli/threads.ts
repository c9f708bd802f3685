/** Thread colors: a stitch file holds none, so they are typed, or kept with the profile for the design. */
import { basename } from 'node:path';
import { type DesignFile, PROFILE_NAME, printable, type ShopFigures } from '../lib/index.js';
import { writeFileSafely } from '../lib/io/index.js';
import { withThreads } from '../lib/profile/index.js';
import { colorsNamed, type NamedColor, ownColors } from '../lib/report/index.js';
import { badArgument } from './bad-argument.js';
import { type Io, print } from './io.js';
import type { Everywhere, ThreadOptions } from './options.js';
import { pathFrom, profileInForce } from './settings.js';

type ThreadArgs = ThreadOptions & Everywhere;

/**
 * The colors of a design in sewing order: those that were typed, else those that are kept for it; none where nobody has said.
 *
 * @param sha256 of its file; null where only what was typed is looked at
 * @throws LieflatError `bad-argument` for a color that there is not
 */
export const threadsFor = (
  typed: string | undefined,
  { designThreads = {}, threadColors }: ShopFigures,
  sha256: string | null,
): NamedColor[] =>
  colorsNamed(typed ?? (sha256 === null ? '' : (designThreads[sha256] ?? '')), ownColors(threadColors));

/**
 * With `--keep-threads` the colors that were typed are kept for the design, in the profile in force or in a new one.
 *
 * @throws LieflatError `bad-argument` where nothing is to be kept, or nothing may be written there
 */
export async function keepThreads(
  args: ThreadArgs,
  design: () => Promise<Pick<DesignFile, 'path' | 'sha256'>>,
  io: Io,
): Promise<void> {
  if (!args['keep-threads']) return;
  if (args.threads === undefined) throw badArgument('--keep-threads has nothing to keep', 'add --threads');
  await keep(args.threads, await design(), args, io);
}

async function keep(
  threads: string,
  { path: design, sha256 }: Pick<DesignFile, 'path' | 'sha256'>,
  args: Everywhere,
  io: Io,
): Promise<void> {
  if (io.outDir !== undefined)
    throw badArgument(
      '--keep-threads writes the profile, and --out-dir lets nothing be written elsewhere',
      'keep them first, without --out-dir',
    );
  const { path, text } = await profileInForce(args, io);
  const file = basename(design);
  const target = path ?? pathFrom(io, PROFILE_NAME);
  const kept = await withThreads(text, sha256, { file, threads });
  await writeFileSafely(target, kept, { force: path !== null, inputs: [design] });
  await print(
    io.stderr,
    `kept in ${printable(basename(target))} for ${printable(file)}: threads ${printable(threads)}\n`,
  );
}
