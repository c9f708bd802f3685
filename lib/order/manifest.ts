/** What an order has written into its folder and worked out so far: a run that was stopped goes on from it, and knows its own files again. */
import { LieflatError } from '../core/errors.js';

const SCHEMA = 'lieflat/order-manifest@1';

/** @typeParam Rank what is known of a design, @typeParam Line what of a line; both plain data. */
export interface OrderManifest<Rank, Line> {
  /** Of each file in the folder that an order wrote or is about to write, what its content hashes to, SHA-256. */
  readonly files: Map<string, string[]>;
  /** By a hash of all that they depend on. */
  readonly ranks: Map<string, Rank>;
  readonly lines: Map<string, Line>;
}

export const emptyManifest = <Rank, Line>(): OrderManifest<Rank, Line> => ({
  files: new Map(),
  ranks: new Map(),
  lines: new Map(),
});

/** The same manifest is the same text, in whatever order it came about. */
export const manifestText = <Rank, Line>({ files, ranks, lines }: OrderManifest<Rank, Line>): string =>
  `${JSON.stringify({ schema: SCHEMA, files: sorted(files), ranks: sorted(ranks), lines: sorted(lines) })}\n`;

const sorted = <T>(map: ReadonlyMap<string, T>): Record<string, T> =>
  Object.fromEntries([...map].sort(([a], [b]) => (a < b ? -1 : 1)));

/**
 * Reads what {@link manifestText} made.
 * @throws LieflatError `undecodable` for a text that is none, its place the path
 */
export function readManifest<Rank, Line>(text: string, path: string): OrderManifest<Rank, Line> {
  const found = parsed(text);
  if (found?.schema !== SCHEMA)
    throw new LieflatError({
      code: 'undecodable',
      place: path,
      what: 'it is not what lieflat order keeps there',
      todo: 'move the file away, or choose another --out-dir',
    });
  const entries = <T>(part: unknown): Map<string, T> =>
    new Map(Object.entries((part ?? {}) as Record<string, T>));
  return { files: entries(found.files), ranks: entries(found.ranks), lines: entries(found.lines) };
}

function parsed(text: string): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : null;
  } catch {
    return null;
  }
}
