import { LieflatError } from '../core/errors.js';
import { drive } from './drive.js';
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

/** Bytes that are read at once. */
const PIECE = 1 << 18;
/** The longest line that is read: the report of one design, even of ten million stitches, is shorter. */
const LONGEST_LINE = 64_000_000;
const LINE_FEED = 0x0a;

/**
 * Reads which files were vetted before, line by line: however long the report is, only hashes are kept.
 *
 * @param settings what `settings` of the line of a file has to be, by the file's hash; lines with another are of files that have to be vetted again
 * @throws LieflatError `unreadable`; `too-large` for a line that no report is as long as; `undecodable` where no line at all is a report
 */
export async function reportedFiles(
  path: string,
  settings: (sha256: string) => string,
): Promise<ReportedFiles> {
  try {
    return await read(path, settings);
  } catch (error) {
    throw fileError(error, path, 'reading');
  }
}

async function read(path: string, settings: (sha256: string) => string): Promise<ReportedFiles> {
  await refuseUnlessPlain(path);
  const hashes = new Set<string>();
  const badLines: number[] = [];
  let good = 0;
  let number = 0;
  let last = { text: '', ended: true };
  for await (const line of linesOf(path)) {
    number++;
    last = line;
    if (line.text.trim() === '') continue;
    const report = reportIn(line.text);
    if (report === null) badLines.push(number);
    else {
      good++;
      if (report.sha256 !== null && report.settings === settings(report.sha256)) hashes.add(report.sha256);
    }
  }
  const cutOff = !last.ended && badLines.at(-1) === number;
  if (cutOff) badLines.pop();
  if (good === 0 && (badLines.length > 0 || (cutOff && !last.text.startsWith('{'))))
    throw new LieflatError({
      code: 'undecodable',
      place: `${path}: line 1`,
      what: 'this is not a vet report in JSON lines',
      todo: 'give a file that --format jsonl wrote',
    });
  return { hashes, badLines, cutOff };
}

/** A pipe would be waited on. */
async function refuseUnlessPlain(path: string): Promise<void> {
  if ((await drive.stat(path)).kind !== 'file')
    throw new LieflatError({
      code: 'unreadable',
      place: path,
      what: 'it is not a plain file',
      todo: 'give a file that --format jsonl wrote',
    });
}

/** The lines of a file, and of each whether a line feed ends it. What is held of the file is one line. */
async function* linesOf(path: string): AsyncGenerator<{ text: string; ended: boolean }> {
  const file = await drive.open(path, 'read');
  try {
    const piece = new Uint8Array(PIECE);
    let begun: Uint8Array[] = [];
    let length = 0;
    let number = 1;
    const take = (bytes: Uint8Array): void => {
      length += bytes.length;
      if (length > LONGEST_LINE) throw lineTooLong(path, number);
      // The piece is read into again.
      begun.push(bytes.slice());
    };
    const textOf = (): string => Buffer.concat(begun, length).toString('utf8').replace(/\r$/, '');
    for (let at = 0; ; ) {
      const count = await drive.read(file, piece, at);
      if (count === 0) break;
      at += count;
      let from = 0;
      for (
        let end = piece.indexOf(LINE_FEED);
        end >= 0 && end < count;
        end = piece.indexOf(LINE_FEED, from)
      ) {
        take(piece.subarray(from, end));
        yield { text: textOf(), ended: true };
        [begun, length] = [[], 0];
        number++;
        from = end + 1;
      }
      if (from < count) take(piece.subarray(from, count));
    }
    if (length > 0) yield { text: textOf(), ended: false };
  } finally {
    await drive.close(file).catch(() => undefined);
  }
}

const lineTooLong = (path: string, line: number): LieflatError =>
  new LieflatError({
    code: 'too-large',
    place: `${path}: line ${line}`,
    what: `the line has more than ${LONGEST_LINE} bytes, which no report has`,
    todo: 'give a file that --format jsonl wrote, or take the line out: its file is vetted again',
  });

/** What a line reports; `sha256` is null where it only says that the batch was stopped. */
function reportIn(line: string): { sha256: string | null; settings?: unknown } | null {
  try {
    const { schema, file, settings, stopped } = JSON.parse(line);
    if (typeof stopped?.done === 'number' && typeof stopped.of === 'number') return { sha256: null };
    return schema === 'lieflat/vet@1' && typeof file.sha256 === 'string'
      ? { sha256: file.sha256, settings }
      : null;
  } catch {
    return null;
  }
}
