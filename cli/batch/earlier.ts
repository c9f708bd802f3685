import { printable } from '../../lib/index.js';
import { isOpenAs, reportedFiles } from '../../lib/io/index.js';
import { type Io, print } from '../io.js';
import { pathFrom } from '../settings.js';

export interface Earlier {
  /** SHA-256 of every file reported under the settings that it has now. */
  hashes: ReadonlySet<string>;
  /** What standard output must begin with. */
  before: string;
}

/**
 * What earlier reports hold. Lines that are no report are named and passed over: their files are vetted again.
 *
 * @param mark what `settings` of a file's report has to be
 * @throws LieflatError `unreadable`, `undecodable`
 */
export async function earlierReports(
  names: readonly string[],
  mark: (sha256: string) => string,
  io: Io,
): Promise<Earlier> {
  const hashes = new Set<string>();
  let before = '';
  for (const name of names) {
    const path = pathFrom(io, name);
    const report = await reportedFiles(path, mark);
    for (const hash of report.hashes) hashes.add(hash);
    if (report.badLines.length > 0)
      await print(io.stderr, badLines(name, report.badLines, 'skipped, the file is checked again'));
    // A report that goes on behind its own broken line must not be glued to it.
    if (report.cutOff && io.stdout.fd !== undefined && (await isOpenAs(io.stdout.fd, path))) before = '\n';
  }
  return { hashes, before };
}

/** Names lines that are no reports, and says what is done about them. */
export function badLines(name: string, [first, ...others]: readonly number[], done: string): string {
  const more = others.length === 1 ? ', nor is 1 other line' : `, nor are ${others.length} other lines`;
  return `lieflat: ${printable(name)}: line ${first}: not a vet report${others.length > 0 ? more : ''}; ${done}\n`;
}
