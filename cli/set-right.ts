import { basename } from 'node:path';
import {
  type ObjectSaid,
  penetrations,
  printable,
  SET_OBJECTS_NAME,
  sayOfObjects,
  setObjectsText,
  type Vetting,
} from '../lib/index.js';
import { sha256, writeFileSafely } from '../lib/io/index.js';
import { badArgument } from './bad-argument.js';

import { type Io, print } from './io.js';
import { objectRange } from './object-ids.js';
import type { Beforehand, Everywhere, TypedWords } from './options.js';
import { openDesign, pathFrom, profilePath, setObjectsInForce } from './settings.js';

/**
 * Keeps what `--is` says of objects of the one design that a command reads, before the command does its work: from then on they are
 * that wherever the design is read.
 *
 * @throws LieflatError `bad-argument`, `unknown-id`; nothing is kept then
 */
export async function keepWhatIsSaid(args: Beforehand & TypedWords, io: Io): Promise<void> {
  if (args.is === undefined) return;
  const more = args.is.flatMap(saidIn);
  const { words } = args;
  const [word] = words;
  if (words.length !== 1 || word === '-' || args.watch)
    throw badArgument('--is names objects of one design', 'give one file');
  if (io.outDir !== undefined)
    throw badArgument(
      `--is keeps what it says in ${SET_OBJECTS_NAME}, and --out-dir lets nothing be written elsewhere`,
      'set the object right first, without --out-dir',
    );
  const { file, budget } = await openDesign(io, word);
  const { path, designs } = await setObjectsInForce(await profilePath(args, io), io);
  const before = designs.get(file.sha256)?.objects ?? [];
  const stitches = penetrations(file.design);
  const objects = await budget.run(() => sayOfObjects(stitches, before, more));
  designs.set(file.sha256, { file: basename(file.path), objects });
  await writeFileSafely(path, setObjectsText(designs), {
    force: true,
    inputs: [pathFrom(io, word)],
  });
  const [{ object }] = more;
  await print(
    io.stderr,
    `kept in ${SET_OBJECTS_NAME} for ${printable(basename(file.path))}: ${more.map((one) => `object ${one.object} is ${wordsOf(one)}`).join(', ')}${more.every(({ is }) => is === 'found') ? '' : ` (--is ${object}=found takes it back)`}\n`,
  );
}

/**
 * Keeps what was said of a design's objects for the file that was made from it, whose content is another: an object that is still there is what it was
 * said to be. Written once the new file is in place; with `--out-dir` nothing is written elsewhere, and the line says so.
 */
export async function keepForRewritten(
  { profile }: Partial<Everywhere>,
  io: Io,
  { out, bytes }: { readonly out: string; readonly bytes: Uint8Array },
  { set }: Pick<Vetting, 'set'>,
): Promise<void> {
  const objects = set.flatMap(({ stitches, is, not }) => (not === null ? [{ stitches, is }] : []));
  if (objects.length === 0) return;
  if (io.outDir !== undefined) {
    await print(
      io.stderr,
      `what you set in it is not kept for ${printable(basename(out))}: ${SET_OBJECTS_NAME} lies outside --out-dir\n`,
    );
    return;
  }
  const { path, designs } = await setObjectsInForce(await profilePath({ profile }, io), io);
  designs.set(sha256(bytes), { file: basename(out), objects });
  await writeFileSafely(path, setObjectsText(designs), { force: true, inputs: [pathFrom(io, out)] });
  await print(
    io.stderr,
    `kept in ${SET_OBJECTS_NAME} for ${printable(basename(out))}: what you set of ${objects.length} ${objects.length === 1 ? 'object' : 'objects'}\n`,
  );
}

const wordsOf = ({ is }: ObjectSaid): string => (is === 'found' ? 'as found' : is);

/** No design has so many objects. */
const HIGHEST_OBJECT = 1_000_000;

/** `12=underlay,7=satin`; `3-5=run` is said of 3, 4 and 5. */
function saidIn(text: string): ObjectSaid[] {
  return text.split(',').flatMap((part) => {
    const [, which, is] = /^([^=]*)=\s*(.*?)\s*$/.exec(part) ?? [];
    const objects = which === undefined ? null : objectRange(which, HIGHEST_OBJECT);
    if (objects === null)
      throw badArgument(
        `--is cannot be ${printable(text) || 'empty'}`,
        'write the number of an object and what it is, as 12=underlay',
      );
    return objects.map((object) => ({ object, is }));
  });
}
