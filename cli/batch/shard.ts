import { sha256, shardOf } from '../../lib/io/index.js';
import type { Shard, VetPart } from '../../lib/report/index.js';
import { badArgument } from '../bad-argument.js';
import type { FileList } from './list.js';

/** More parts than any archive is cut into. */
const MOST_PARTS = 10_000;

/** The part of an archive that a machine takes, and what its last line says of the whole. */
export interface PartOfArchive {
  readonly list: FileList;
  readonly end: Pick<VetPart, 'schema' | 'shard' | 'archive' | 'files' | 'missing'>;
}

/**
 * `3/16`: the third of sixteen parts.
 *
 * @throws LieflatError `bad-argument`
 */
export function shardNamed(word: string): Shard {
  const [, part, of] = /^(\d{1,6})\/(\d{1,6})$/.exec(word) ?? [];
  const shard = { part: Number(part), of: Number(of) };
  if (!(shard.part >= 1 && shard.part <= shard.of && shard.of <= MOST_PARTS))
    throw badArgument(
      `--shard cannot be ${word || 'empty'}`,
      `write which part of how many, as 3/16; at most ${MOST_PARTS} parts`,
    );
  return shard;
}

/** Of all files those in one part: the same on every machine that has them under the same names. */
export function partOf(whole: FileList, shard: Shard): PartOfArchive {
  const files = whole.files.filter((path) => shardOf(path, shard.of) === shard.part);
  const archive = { files: whole.files.length, sha256: sha256(whole.files.join('\0')) };
  return {
    list: { ...whole, files },
    end: { schema: 'lieflat/vet-part@1', shard, archive, files: files.length, missing: whole.missing },
  };
}
