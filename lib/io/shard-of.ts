import { sha256 } from './read-file.js';

/**
 * Which part of an archive a file is in, from 1: by a hash of its path, so that every machine says the same and none has to ask
 * another. Backward strokes count as forward ones.
 *
 * @param path as it is given on every machine
 * @param of how many parts there are
 */
export const shardOf = (path: string, of: number): number =>
  1 + (Number.parseInt(sha256(path.replaceAll('\\', '/')).slice(0, 12), 16) % of);
