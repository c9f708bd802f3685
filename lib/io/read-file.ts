import { createHash } from 'node:crypto';
import type { Budget } from '../core/budget.js';
import { LieflatError } from '../core/errors.js';
import {
  DESIGN_EXTENSIONS,
  type DesignFormat,
  decodeDesign,
  formatOf,
  sniffFormat,
} from '../format/decode.js';
import type { Design } from '../format/design.js';
import { drive, type FileState } from './drive.js';
import { fileError, memoryError } from './file-errors.js';
import { refusedName } from './system.js';

/** The largest file that is read unless the caller says otherwise: room for the 9,999,999 records that a `.dst` header can count. */
export const DEFAULT_MAX_BYTES = 32_000_000;

export interface ReadOptions {
  /** Refuse files larger than this; {@link DEFAULT_MAX_BYTES} unless given. */
  maxBytes?: number;
  /** What decoding may take; as much as it does unless given. */
  budget?: Budget;
}

/** A stitch file as it was read. */
export interface DesignFile {
  readonly path: string;
  readonly format: DesignFormat;
  readonly bytes: Uint8Array;
  /** SHA-256 of the bytes, lower-case hexadecimal. */
  readonly sha256: string;
  readonly design: Design;
}

/**
 * Reads and decodes one stitch file.
 * @throws LieflatError `unreadable`, `too-large` or `undecodable`, its place the path with a byte or line where there is one
 *
 * @example
 * ```ts
 * import { readDesignFile } from 'lieflat';
 * const { format, design } = await readDesignFile('samples/name-drop.dst');
 * format; // => 'dst'
 * design.x.length; // => 945
 * await readDesignFile('samples/no-such.dst'); // throws 'unreadable'
 * ```
 */
export async function readDesignFile(path: string, options: ReadOptions = {}): Promise<DesignFile> {
  const bytes = await readBytes(path, options);
  const format = formatOf(path, bytes);
  if (!format) {
    throw new LieflatError({
      code: 'undecodable',
      place: path,
      what: 'not a stitch file, or damaged',
      todo: `give a file that ends in ${Object.values(DESIGN_EXTENSIONS).join(' or ')}`,
    });
  }
  const design = await decodeNamed(path, bytes, format, options.budget);
  let hash: string | undefined;
  return {
    path,
    format,
    bytes,
    design,
    // Loading what works it out takes longer than vetting a small design, and text does not give it.
    get sha256() {
      hash ??= sha256(bytes);
      return hash;
    },
  };
}

/** Decodes, and puts the path before the place of whatever cannot be decoded. */
async function decodeNamed(
  path: string,
  bytes: Uint8Array,
  format: DesignFormat,
  budget: Budget | undefined,
): Promise<Design> {
  try {
    return await decodeDesign(bytes, format, budget);
  } catch (error) {
    // The budget names the file itself.
    if (!(error instanceof LieflatError)) throw memoryError(error, path) ?? error;
    if (error.place === path) throw error;
    const looksLike = sniffFormat(bytes);
    const todo =
      looksLike && looksLike !== format
        ? `it looks like a ${DESIGN_EXTENSIONS[looksLike]} file: rename it`
        : error.todo;
    throw new LieflatError({ code: error.code, place: `${path}: ${error.place}`, what: error.what, todo });
  }
}

/**
 * The bytes of a plain file. Never waits on a pipe, a device or a socket: those are refused, as are folders and empty files.
 * @throws LieflatError `unreadable` or `too-large`, its place the path
 */
export async function readBytes(
  path: string,
  { maxBytes = DEFAULT_MAX_BYTES }: ReadOptions = {},
): Promise<Uint8Array> {
  try {
    const refused = refusedName(path);
    if (refused)
      throw new LieflatError({ code: 'unreadable', place: path, what: refused[0], todo: refused[1] });
    refuseUnlessPlain(path, await drive.stat(path), maxBytes);
    // Should the file give way to a pipe between the two calls, opening does not wait for a writer.
    return await whileOpen(path, async (file) => {
      const state = await drive.fstat(file);
      refuseUnlessPlain(path, state, maxBytes);
      return await readWhole(file, state.size);
    });
  } catch (error) {
    throw fileError(error, path, 'reading');
  }
}

/** Opens a file to be read, for as long as the work on it takes. */
export async function whileOpen<T>(path: string, work: (file: number) => Promise<T>): Promise<T> {
  const file = await drive.open(path, 'read');
  try {
    return await work(file);
  } finally {
    // What was read is read.
    await drive.close(file).catch(() => undefined);
  }
}

/**
 * SHA-256 of a file's bytes, as its report gives it.
 * @throws LieflatError as {@link readBytes} does
 */
export async function hashOf(path: string, options: ReadOptions = {}): Promise<string> {
  return sha256(await readBytes(path, options));
}

async function readWhole(file: number, size: number): Promise<Uint8Array> {
  const bytes = new Uint8Array(size);
  let length = 0;
  while (length < size) {
    const read = await drive.read(file, bytes.subarray(length), length);
    if (read === 0) break;
    length += read;
  }
  return bytes.subarray(0, length);
}

function refuseUnlessPlain(path: string, { kind, size }: FileState, maxBytes: number): void {
  const refuse = (what: string, todo: string, code: 'unreadable' | 'too-large' = 'unreadable'): never => {
    throw new LieflatError({ code, place: path, what, todo });
  };
  if (kind === 'folder') refuse('it is a folder', 'give a file');
  if (kind === 'pipe') refuse('it is a pipe, not a file', 'save what comes out of it to a file first');
  if (kind !== 'file') refuse('it is a device or socket, not a file', 'give a plain file');
  if (size === 0) refuse('the file is empty', 'copy or export it again');
  if (size > maxBytes) {
    refuse(
      `the file has ${size} bytes, more than the ${maxBytes} that are read`,
      'check that it is the file you mean, or raise the limit with --max-bytes',
      'too-large',
    );
  }
}

/** SHA-256 of bytes, or of a text in UTF-8, lower-case hexadecimal. */
export function sha256(content: Uint8Array | string): string {
  return createHash('sha256').update(content).digest('hex');
}
