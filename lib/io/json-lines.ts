import { LieflatError } from '../core/errors.js';
import { drive } from './drive.js';
import { fileError } from './file-errors.js';

/** What was wrong with the lines of a report. */
export interface LinesRead {
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
 * Reads a report in JSON lines: what is held of the file is one line.
 *
 * @param take is given what each line holds, undefined where that is no JSON, and says whether it is a line of a report
 * @throws LieflatError `unreadable`; `too-large` for a line that no report is as long as; `undecodable` where no line at all is a report
 */
export async function jsonLines(path: string, take: (line: unknown) => boolean): Promise<LinesRead> {
  try {
    return await read(path, take);
  } catch (error) {
    throw fileError(error, path, 'reading');
  }
}

async function read(path: string, take: (line: unknown) => boolean): Promise<LinesRead> {
  await refuseUnlessPlain(path);
  const badLines: number[] = [];
  let good = 0;
  let number = 0;
  let last = { text: '', ended: true };
  for await (const line of linesOf(path)) {
    number++;
    last = line;
    if (line.text.trim() === '') continue;
    if (take(valueIn(line.text))) good++;
    else badLines.push(number);
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
  return { badLines, cutOff };
}

function valueIn(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
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

/** The lines of a file, and of each whether a line feed ends it. */
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
