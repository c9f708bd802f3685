/** What a whole batch comes to, gathered file by file: nothing of a file is kept but counts and, of the worst few, the name. */
import type { FindingCode, Severity } from '../../vetting/finding.js';
import type { VetReportInParts } from '../vet/build.js';
import { SEVERITIES, type VerdictLevel, verdictOf } from '../vet/verdict.js';

/** How many of the worst files are named. */
const MOST_WORST = 10;

/** Counts between even steps; the last step is open upward. */
export interface Histogram {
  /** Width of each step. */
  readonly step: number;
  readonly counts: readonly number[];
}

/** Steps of the widths of satin columns, mm. Twelve hold what one record of the three-byte format can sew across. */
const WIDTH = { step: 1, steps: 13 };
/** Steps of the density of columns and fills, needle points a mm². */
const DENSITY = { step: 0.5, steps: 12 };

/** A kind of finding in one file. */
export interface FoundCode {
  readonly code: FindingCode;
  readonly severity: Severity;
  readonly times: number;
  /** Some of it is for whoever digitized the file to put right. */
  readonly asks: boolean;
}

/** What the summary needs of one file. */
export interface FileDigest {
  readonly path: string;
  /** Of its content, where it was asked for. */
  readonly sha256: string | null;
  readonly stitches: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly found: Readonly<Record<Severity, number>>;
  /** Where a fabric was named, of the file on it. */
  readonly level: VerdictLevel;
  readonly codes: readonly FoundCode[];
  readonly widths: readonly number[];
  readonly densities: readonly number[];
  /** Grade of the risk, 5 to 1, where a fabric was named. */
  readonly grade: number | null;
}

/**
 * Reduces a report to what the summary needs; each of its lists is gone through once.
 *
 * @example
 * ```ts
 * import { digestOf, factsOf, readDesignFile, shopOf } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * digestOf(vetting.report).found; // => { fail: 0, warn: 8, note: 0 }
 * ```
 * @param hashed whether to tell copies by the hash of the content, which takes reading all of it
 */
export function digestOf(report: VetReportInParts, hashed = false): FileDigest {
  const found: Record<Severity, number> = { fail: 0, warn: 0, note: 0 };
  const codes = new Map<string, FoundCode>();
  for (const { code, severity, fix, curedBy } of report.findings) {
    const key = `${severity} ${code}`;
    const { times, asks } = codes.get(key) ?? { times: 0, asks: false };
    const isAsked = fix?.do === 'ask-digitizer' && curedBy === undefined;
    found[severity]++;
    codes.set(key, { code, severity, times: times + 1, asks: asks || isAsked });
  }
  const widths = new Array<number>(WIDTH.steps).fill(0);
  const densities = new Array<number>(DENSITY.steps).fill(0);
  for (const { kind, widthMm, densityPerMm2 } of report.objects) {
    if (kind === 'satin' && widthMm !== null) widths[stepOf(widthMm.median, WIDTH)]++;
    if (kind !== 'run') densities[stepOf(densityPerMm2, DENSITY)]++;
  }
  return {
    path: report.file.path,
    sha256: hashed ? report.file.sha256 : null,
    stitches: report.design.stitches,
    widthMm: report.design.widthMm,
    heightMm: report.design.heightMm,
    found,
    level: verdictOf(report, found),
    codes: [...codes.values()],
    widths,
    densities,
    grade: report.risk?.grade ?? null,
  };
}

const stepOf = (value: number, { step, steps }: { step: number; steps: number }): number =>
  Math.min(steps - 1, Math.floor(value / step));

/** One of the worst files. */
export interface WorstFile {
  readonly path: string;
  readonly found: Readonly<Record<Severity, number>>;
  readonly grade: number | null;
}

/** Files that lie beside designs and are left alone. */
export interface OtherEnding {
  /** In small letters, with its dot; empty for a name without one. */
  readonly ending: string;
  readonly files: number;
}

/** How far a batch came that was stopped. */
export interface Stopped {
  readonly done: number;
  readonly of: number;
}

/** What is missing of an archive that was checked in parts. */
export interface Gaps {
  /** Into how many parts it was cut; 0 where no part says so, and whether all files are in is not known. */
  readonly parts: number;
  /** Parts of which nothing came, or not their end. */
  readonly missing: readonly number[];
  /** Parts that say they hold more than came of them, and how many files are left. */
  readonly unfinished: readonly { readonly part: number; readonly left: number }[];
  /** What differs from part to part: into how many it was cut, the list of files, or what they were checked against. */
  readonly unlike: readonly ('parts' | 'archive' | 'settings')[];
  /** Files that were reported twice and had changed in between; the first report counts. */
  readonly changed: readonly string[];
}

export interface BatchSummary {
  readonly schema: 'lieflat/vet-summary@1';
  /** How many of how many files were done with when the batch was stopped; null where it came to its end. */
  readonly stopped: Stopped | null;
  /** What is missing where it was put together from parts; null where nothing is. */
  readonly gaps: Gaps | null;
  readonly files: Readonly<Record<VerdictLevel | 'vetted' | 'unread', number>> & {
    /** Reported before and passed over. */
    readonly skipped: number;
  };
  readonly stitches: number;
  /** Files of folders and globs whose endings are not read, the most first. */
  readonly otherEndings: readonly OtherEnding[];
  /** In how many files each code was found and how often, most files first. */
  readonly findings: readonly {
    readonly code: FindingCode;
    readonly severity: Severity;
    readonly files: number;
    readonly times: number;
  }[];
  /** At most ten, worst first: most failures, then most warnings, then the roughest grade. */
  readonly worst: readonly WorstFile[];
  /** Median widths of satin columns. */
  readonly columnWidthMm: Histogram;
  /** Needle points a mm² of columns and fills. */
  readonly densityPerMm2: Histogram;
}

/**
 * Gathers digests, in whatever order they come: the summary is the same.
 *
 * @example
 * ```ts
 * import { BatchTally, digestOf, factsOf, readDesignFile, shopOf } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * const tally = new BatchTally();
 * tally.add(digestOf(vetting.report));
 * tally.summary().stitches; // => 938
 * ```
 */
export class BatchTally {
  readonly #files = { vetted: 0, sound: 0, warn: 0, fail: 0, unread: 0, skipped: 0 };
  readonly #codes = new Map<
    string,
    { code: FindingCode; severity: Severity; files: number; times: number }
  >();
  readonly #widths = new Array<number>(WIDTH.steps).fill(0);
  readonly #densities = new Array<number>(DENSITY.steps).fill(0);
  readonly #endings = new Map<string, number>();
  #stitches = 0;
  #worst: WorstFile[] = [];

  add({ path, stitches, found, level, codes, widths, densities, grade }: FileDigest): void {
    this.#files.vetted++;
    this.#files[level]++;
    this.#stitches += stitches;
    for (const { code, severity, times } of codes) {
      const key = `${severity} ${code}`;
      const known = this.#codes.get(key) ?? { code, severity, files: 0, times: 0 };
      known.files++;
      known.times += times;
      this.#codes.set(key, known);
    }
    widths.forEach((n, i) => {
      this.#widths[i] += n;
    });
    densities.forEach((n, i) => {
      this.#densities[i] += n;
    });
    if (found.fail + found.warn > 0)
      this.#worst = [...this.#worst, { path, found, grade }].sort(byWorst).slice(0, MOST_WORST);
  }

  /** Files that could not be read, paths that led nowhere, and files that an earlier report holds. */
  addOthers({ unread, skipped }: { unread: number; skipped: number }): void {
    this.#files.unread += unread;
    this.#files.skipped += skipped;
  }

  /** Files by the endings of their names that are not read. */
  addEndings(endings: ReadonlyMap<string, number>): void {
    for (const [ending, files] of endings)
      this.#endings.set(ending, files + (this.#endings.get(ending) ?? 0));
  }

  /**
   * @param stopped where the batch was stopped before its end
   * @param gaps what is missing of parts
   */
  summary(stopped: Stopped | null = null, gaps: Gaps | null = null): BatchSummary {
    return {
      schema: 'lieflat/vet-summary@1',
      stopped,
      gaps,
      files: { ...this.#files },
      stitches: this.#stitches,
      otherEndings: [...this.#endings]
        .map(([ending, files]) => ({ ending, files }))
        .sort((a, b) => b.files - a.files || compareText(a.ending, b.ending)),
      findings: [...this.#codes.values()].sort(
        (a, b) =>
          b.files - a.files ||
          SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) ||
          compareText(a.code, b.code),
      ),
      worst: this.#worst,
      columnWidthMm: { step: WIDTH.step, counts: [...this.#widths] },
      densityPerMm2: { step: DENSITY.step, counts: [...this.#densities] },
    };
  }
}

/** Most failures first, then most warnings, then the roughest grade. */
export function byWorst(a: WorstFile, b: WorstFile): number {
  return (
    b.found.fail - a.found.fail ||
    b.found.warn - a.found.warn ||
    (a.grade ?? 5) - (b.grade ?? 5) ||
    compareText(a.path, b.path)
  );
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
