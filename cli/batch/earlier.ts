import { isOpenAs, printable, reportedFiles, sha256 } from '../../lib/index.js';
import { type Io, print } from '../io.js';
import { pathFrom } from '../settings.js';
import { packageVersion } from '../version.js';

/**
 * A short mark of everything that a vet report depends on beside the file: limits and other figures of the shop, place, hoop, goods,
 * and the program's version. Reports with the same mark can stand for each other.
 */
export function settingsMark(settings: object): string {
  return sha256(JSON.stringify([packageVersion(), inOrder(settings)])).slice(0, 16);
}

/** The same with the keys of every object sorted, so that the order in which a profile is written does not matter. */
function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return Object.fromEntries(
    entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, inner]) => [key, inOrder(inner)]),
  );
}

export interface Earlier {
  /** SHA-256 of every file reported under the same settings. */
  hashes: ReadonlySet<string>;
  /** What standard output must begin with. */
  before: string;
}

/**
 * What earlier reports hold. Lines that are no report are named and passed over: their files are vetted again.
 * @throws LieflatError `unreadable`, `undecodable`
 */
export async function earlierReports(names: readonly string[], mark: string, io: Io): Promise<Earlier> {
  const hashes = new Set<string>();
  let before = '';
  for (const name of names) {
    const path = pathFrom(io, name);
    const report = await reportedFiles(path, mark);
    for (const hash of report.hashes) hashes.add(hash);
    const [first] = report.badLines;
    const more = report.badLines.length - 1;
    if (first !== undefined)
      await print(
        io.stderr,
        `lieflat: ${printable(name)}: line ${first}: this is no vet report${more > 0 ? `, nor ${more === 1 ? 'is 1 other line' : `are ${more} other lines`}` : ''}; passed over, the file is vetted again\n`,
      );
    // A report that goes on behind its own broken line must not be glued to it.
    if (report.cutOff && io.stdout.fd !== undefined && (await isOpenAs(io.stdout.fd, path))) before = '\n';
  }
  return { hashes, before };
}
