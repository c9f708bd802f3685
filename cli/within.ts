import { badArgument } from './bad-argument.js';
import type { Io } from './io.js';
import type { Everywhere } from './options.js';
import { pathFrom } from './settings.js';

const UNITS: Readonly<Record<string, number>> = { '': 1, B: 1, KB: 1e3, MB: 1e6, GB: 1e9 };

/**
 * The world within the bounds that the options set: how much is read, where files are written.
 *
 * @throws LieflatError `bad-argument` for a size that is none
 */
export function within(io: Io, args: Partial<Everywhere>): Io {
  const { 'max-bytes': size, 'out-dir': folder } = args;
  // What is opened only when it is asked for stays so.
  return Object.create(io, {
    ...(size !== undefined && { maxBytes: { value: bytesOf(size) } }),
    ...(folder !== undefined && { outDir: { value: pathFrom(io, folder) } }),
  }) as Io;
}

/** `500000`, `500kB`, `5MB`. */
function bytesOf(text: string): number {
  const parts = /^(\d+(?:\.\d+)?)\s*([kmg]?b?)$/i.exec(text.trim());
  const unit = parts?.[2].toUpperCase() ?? '';
  const bytes = parts ? Math.floor(Number(parts[1]) * (UNITS[unit] ?? UNITS[`${unit}B`])) : 0;
  if (!(bytes >= 1 && Number.isSafeInteger(bytes)))
    throw badArgument(`--max-bytes cannot be ${text || 'empty'}`, 'give a size, as 5MB');
  return bytes;
}
