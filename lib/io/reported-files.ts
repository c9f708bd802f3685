import { createReadStream } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { LieflatError } from '../core/errors.js';
import { fileError } from './file-errors.js';

/** What an earlier report of JSON lines holds. */
export interface ReportedFiles {
  /** SHA-256 of the files that it reports under the settings asked for. */
  readonly hashes: ReadonlySet<string>;
  /** Numbers of the lines that are no report, from 1. */
  readonly badLines: readonly number[];
  /** The last line breaks off, as where the writing was interrupted; it is no bad line. */
  readonly cutOff: boolean;
}

/**
 * Reads which files were vetted before, line by line: however long the report is, only hashes are kept.
 *
 * @param settings what `settings` of a line has to be; lines with another are of files that have to be vetted again
 * @throws LieflatError `unreadable`; `undecodable` where no line at all is a report
 */
export async function reportedFiles(path: string, settings: string): Promise<ReportedFiles> {
  try {
    return await read(path, settings);
  } catch (error) {
    throw fileError(error, path, 'reading');
  }
}

async function read(path: string, settings: string): Promise<ReportedFiles> {
  const ended = await endsWithLineFeed(path);
  const hashes = new Set<string>();
  const badLines: number[] = [];
  let good = 0;
  let number = 0;
  let last = '';
  for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Infinity })) {
    number++;
    last = line;
    if (line.trim() === '') continue;
    const report = reportIn(line);
    if (report === null) badLines.push(number);
    else {
      good++;
      if (report.settings === settings) hashes.add(report.sha256);
    }
  }
  const cutOff = !ended && badLines.at(-1) === number;
  if (cutOff) badLines.pop();
  if (good === 0 && (badLines.length > 0 || (cutOff && !last.startsWith('{'))))
    throw new LieflatError({
      code: 'undecodable',
      place: `${path}: line 1`,
      what: 'this is no vet report in JSON lines',
      todo: 'give a file that --format jsonl wrote',
    });
  return { hashes, badLines, cutOff };
}

/** Also refuses what is no plain file: a pipe would be waited on. An empty file counts as ended. */
async function endsWithLineFeed(path: string): Promise<boolean> {
  const stats = await stat(path);
  if (!stats.isFile())
    throw new LieflatError({
      code: 'unreadable',
      place: path,
      what: 'it is no plain file',
      todo: 'give a file that --format jsonl wrote',
    });
  if (stats.size === 0) return true;
  const file = await open(path);
  try {
    const { buffer } = await file.read(new Uint8Array(1), 0, 1, stats.size - 1);
    return buffer[0] === 0x0a;
  } finally {
    await file.close();
  }
}

function reportIn(line: string): { sha256: string; settings: unknown } | null {
  try {
    const { schema, file, settings } = JSON.parse(line);
    return schema === 'lieflat/vet@1' && typeof file.sha256 === 'string'
      ? { sha256: file.sha256, settings }
      : null;
  } catch {
    return null;
  }
}
