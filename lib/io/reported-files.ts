import { jsonLines } from './json-lines.js';

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
 * @param settings what `settings` of the line of a file has to be, by the file's hash; lines with another are of files that have to be vetted again
 * @throws LieflatError `unreadable`; `too-large` for a line that no report is as long as; `undecodable` where no line at all is a report
 */
export async function reportedFiles(
  path: string,
  settings: (sha256: string) => string,
): Promise<ReportedFiles> {
  const hashes = new Set<string>();
  const lines = await jsonLines(path, (line) => {
    const report = reportIn(line);
    if (report && report.sha256 !== null && report.settings === settings(report.sha256))
      hashes.add(report.sha256);
    return report !== null;
  });
  return { hashes, ...lines };
}

/** What a line reports; `sha256` is null where it says only how far the batch came. */
function reportIn(line: unknown): { sha256: string | null; settings?: unknown } | null {
  const { schema, file, settings, stopped } = (line ?? {}) as Record<string, Record<string, unknown>>;
  if (typeof stopped?.done === 'number' && typeof stopped.of === 'number') return { sha256: null };
  if ((schema as unknown) === 'lieflat/vet-part@1') return { sha256: null };
  return (schema as unknown) === 'lieflat/vet@1' && typeof file?.sha256 === 'string'
    ? { sha256: file.sha256, settings }
    : null;
}
