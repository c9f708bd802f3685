import { badArgument } from './bad-argument.js';
import { type FileLimits, USUAL_BYTES, USUAL_SECONDS, USUAL_SECONDS_SLOW } from './budget.js';
import type { Io } from './io.js';
import type { Beforehand, Everywhere } from './options.js';
import { pathFrom } from './settings.js';

const UNITS: Readonly<Record<string, number>> = { '': 1, B: 1, KB: 1e3, MB: 1e6, GB: 1e9 };

/**
 * The world within the bounds that the options set: how much is read, what the work on a file may take, where files are written.
 *
 * @param slow the command takes its time with every file
 * @throws LieflatError `bad-argument` for a size or a time that is none
 */
export function within(io: Io, args: Pick<Beforehand, keyof Everywhere>, slow: boolean): Io {
  const { 'max-bytes': size, 'max-seconds': seconds, 'max-memory': memory, 'out-dir': folder } = args;
  const limits: FileLimits = {
    seconds: seconds === undefined ? (slow ? USUAL_SECONDS_SLOW : USUAL_SECONDS) : secondsOf(seconds),
    bytes: memory === undefined ? USUAL_BYTES : bytesOf('--max-memory', memory),
  };
  return {
    ...io,
    inputs: [],
    limits,
    ...(size !== undefined && { maxBytes: bytesOf('--max-bytes', size) }),
    ...(folder !== undefined && { outDir: pathFrom(io, folder) }),
  };
}

/** `500000`, `500kB`, `5MB`. */
function bytesOf(option: string, text: string): number {
  const parts = /^(\d+(?:\.\d+)?)\s*([kmg]?b?)$/i.exec(text.trim());
  const unit = parts?.[2].toUpperCase() ?? '';
  const bytes = parts ? Math.floor(Number(parts[1]) * (UNITS[unit] ?? UNITS[`${unit}B`])) : 0;
  if (!(bytes >= 1 && Number.isSafeInteger(bytes)))
    throw badArgument(`${option} cannot be ${text || 'empty'}`, 'give a size, as 5MB');
  return bytes;
}

/** A day: nobody waits longer for a file. */
const MOST_SECONDS = 86_400;

/** `90`, `0.5`, `90s`. */
function secondsOf(text: string): number {
  const seconds = /^\d+(\.\d+)?\s*s?$/.test(text.trim()) ? Number.parseFloat(text) : Number.NaN;
  if (!(seconds > 0 && seconds <= MOST_SECONDS))
    throw badArgument(
      `--max-seconds cannot be ${text || 'empty'}`,
      `give seconds above 0 and up to ${MOST_SECONDS}, as 120`,
    );
  return seconds;
}
