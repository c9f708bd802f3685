/** One summary of an archive that was checked in parts, on as many machines: the same as of one, and what is missing of it. */
import type { VetReportInParts } from '../vet/build.js';
import { type BatchSummary, BatchTally, digestOf, type Gaps, type OtherEnding } from './report.js';

/** The last line of a part: what its reports cannot say. */
export interface VetPart {
  readonly schema: 'lieflat/vet-part@1';
  readonly shard: Shard;
  /** Mark of what the files were checked against. */
  readonly settings: string;
  /** The whole archive as this machine has it: how many files, and a hash of their names. */
  readonly archive: { readonly files: number; readonly sha256: string };
  /** How many of them are in this part. */
  readonly files: number;
  /** How many of those could not be read. */
  readonly unread: number;
  /** Words of the command line that led nowhere: every part has the same. */
  readonly missing: number;
  /** Files of the archive whose endings are not read: every part has the same. */
  readonly otherEndings: readonly OtherEnding[];
}

/** Part `part` of `of`, from 1. */
export interface Shard {
  readonly part: number;
  readonly of: number;
}

/** A line of a part: the report of a file, the end of the part, or that it was stopped. */
export type PartLine =
  | { readonly is: 'report'; readonly report: VetReportInParts }
  | { readonly is: 'end'; readonly end: VetPart }
  | { readonly is: 'stop' };

/** What a line of JSON is of a part; null where it is nothing of one, or of another version. */
export function partLineOf(value: unknown): PartLine | null {
  const line = (value ?? {}) as Partial<VetPart & { stopped: unknown }> & { schema?: string };
  if (isEnd(line)) return { is: 'end', end: line };
  if (isReport(line)) return { is: 'report', report: line };
  return typeof line.stopped === 'object' && line.stopped !== null ? { is: 'stop' } : null;
}

const isCount = (value: unknown): boolean => Number.isInteger(value) && (value as number) >= 0;

function isEnd(line: { schema?: string }): line is VetPart {
  const { schema, shard, archive, files, unread, missing, otherEndings } = line as Partial<VetPart>;
  return (
    schema === 'lieflat/vet-part@1' &&
    isCount(shard?.part) &&
    isCount(shard?.of) &&
    typeof archive?.sha256 === 'string' &&
    [archive.files, files, unread, missing].every(isCount) &&
    Array.isArray(otherEndings) &&
    otherEndings.every(({ ending, files }) => typeof ending === 'string' && isCount(files))
  );
}

/** Whether all is there that the summary takes of a report. */
function isReport(line: { schema?: string }): line is VetReportInParts {
  const { schema, file, design, objects, findings } = line as Partial<VetReportInParts>;
  return (
    schema === 'lieflat/vet@1' &&
    typeof file?.path === 'string' &&
    typeof file.sha256 === 'string' &&
    isCount(design?.stitches) &&
    Array.isArray(objects) &&
    objects.every(({ widthMm, densityPerMm2 }) => widthOk(widthMm) && typeof densityPerMm2 === 'number') &&
    Array.isArray(findings) &&
    findings.every(({ code, severity }) => typeof code === 'string' && /^(fail|warn|note)$/.test(severity))
  );
}

const widthOk = (width: { median?: unknown } | null): boolean =>
  width === null || typeof width?.median === 'number';

/** Gathers the lines of parts, in whatever order they come. Of a file its hash is kept, of a part its end. */
export class PartsTally {
  readonly #tally = new BatchTally();
  /** Hash of every file that was reported, by its path. */
  readonly #files = new Map<string, string>();
  /** The last end of each part. */
  readonly #ends = new Map<string, VetPart>();
  readonly #changed = new Set<string>();

  add(line: PartLine): void {
    if (line.is === 'end') this.#ends.set(`${line.end.shard.part}/${line.end.shard.of}`, line.end);
    else if (line.is === 'report') this.#addReport(line.report);
  }

  #addReport(report: VetReportInParts): void {
    const { path, sha256 } = report.file;
    const known = this.#files.get(path);
    if (known === undefined) {
      this.#files.set(path, sha256);
      this.#tally.add(digestOf(report));
    } else if (known !== sha256) this.#changed.add(path);
  }

  /**
   * What all come to: the same as where one machine checked the archive, if all of it is there.
   *
   * @param partOf which of so many parts a file is in
   */
  summary(partOf: (path: string, of: number) => number): BatchSummary {
    const ends = [...this.#ends.values()];
    const largest = ends.toSorted((a, b) => b.archive.files - a.archive.files).at(0);
    const unread = ends.reduce((sum, end) => sum + end.unread, largest?.missing ?? 0);
    this.#tally.addOthers({ unread, skipped: 0 });
    this.#tally.addEndings(new Map(largest?.otherEndings.map(({ ending, files }) => [ending, files])));
    return this.#tally.summary(null, this.#gaps(ends, partOf));
  }

  /** Null where all is there. */
  #gaps(ends: readonly VetPart[], partOf: (path: string, of: number) => number): Gaps | null {
    const parts = Math.max(0, ...ends.map(({ shard }) => shard.of));
    const here = new Set(ends.map(({ shard }) => shard.part));
    const reported = new Map<number, number>();
    for (const path of this.#files.keys()) {
      const part = partOf(path, Math.max(1, parts));
      reported.set(part, 1 + (reported.get(part) ?? 0));
    }
    const gaps: Gaps = {
      parts,
      missing: Array.from({ length: parts }, (_, i) => i + 1).filter((part) => !here.has(part)),
      unfinished: ends
        .map(({ shard, files, unread }) => ({
          part: shard.part,
          left: files - unread - (reported.get(shard.part) ?? 0),
        }))
        .filter(({ left }) => left > 0)
        .sort((a, b) => a.part - b.part),
      unlike: UNLIKE.filter(({ of }) => new Set(ends.map(of)).size > 1).map(({ what }) => what),
      changed: [...this.#changed].sort(),
    };
    const { missing, unfinished, unlike, changed } = gaps;
    const faults = missing.length + unfinished.length + unlike.length + changed.length;
    return parts > 0 && faults === 0 ? null : gaps;
  }
}

/** What all parts of one archive have alike. */
const UNLIKE = [
  { what: 'parts', of: ({ shard }: VetPart) => String(shard.of) },
  { what: 'archive', of: ({ archive }: VetPart) => archive.sha256 },
  { what: 'settings', of: ({ settings }: VetPart) => settings },
] as const;
