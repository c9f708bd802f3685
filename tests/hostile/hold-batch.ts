/** What has to be true of a batch over an archive: every good file reported and right, every other one told of once, none of it by how many worked on it. */
import { printable } from '../../lib/report/render/printable.js';
import type { Archive } from './archive.js';
import type { Outcome } from './hostile-files.js';

/** What a run printed, and how it ended. */
export interface Batch {
  code: number | null;
  /** JSON, a line a design. */
  out: string;
  err: string;
}

interface Expected {
  allowed: readonly Outcome[];
  /** The report that it has to be, as JSON. */
  report?: string;
  /** What its line has to name. */
  option?: string;
}

const linesOf = (text: string): string[] => text.split('\n').filter((line) => line !== '');

/**
 * What is wrong with it, a line each.
 *
 * @param singles what the vet of each good file alone reports, as JSON, by path
 * @param named the files were named one by one, not found in their folder
 */
export function wrongWith(
  { code, out, err }: Batch,
  { good, hostile, over }: Archive,
  singles: ReadonlyMap<string, string>,
  named: boolean,
): string[] {
  const expected = new Map<string, Expected>([
    ...good.map((path) => [path, { allowed: ['report'], report: singles.get(path) }] as [string, Expected]),
    ...hostile.map((file) => [file.path, { allowed: named ? file.named : file.found }] as [string, Expected]),
    ...over.map(({ path, option }) => [path, { allowed: ['line'], option }] as [string, Expected]),
  ]);
  const wrong: string[] = [];
  if (code !== 2) wrong.push(`it ended with ${code}, not 2`);
  const reports = reportsByPath(out, wrong);
  const errors = errorsByPath(err, [...expected.keys()], wrong);
  for (const path of reports.keys())
    if (!expected.has(path)) wrong.push(`${printable(path)} is reported, and nobody made it`);
  for (const [path, due] of expected) {
    const [own, lines] = [reports.get(path) ?? [], errors.get(path) ?? []];
    wrong.push(...wrongWithOne(due, own, lines).map((what) => `${printable(path)} ${what}`));
  }
  return wrong;
}

function wrongWithOne({ allowed, report, option }: Expected, own: string[], lines: string[]): string[] {
  if (own.length + lines.length > 1)
    return [`has ${own.length} reports and ${lines.length} lines: ${lines.join(' | ')}`];
  const outcome: Outcome = own.length ? 'report' : lines.length ? 'line' : 'nothing';
  if (!allowed.includes(outcome))
    return [`has come to ${outcome}, not ${allowed.join(' or ')}: ${lines.join('')}`];
  if (report !== undefined && own[0] !== report) return ['is reported otherwise than alone'];
  if (option !== undefined && !lines[0].includes(option))
    return [`is not told to try ${option}: ${lines[0]}`];
  return [];
}

function reportsByPath(out: string, wrong: string[]): Map<string, string[]> {
  const reports = new Map<string, string[]>();
  if (out !== '' && !out.endsWith('\n')) wrong.push('the last report is cut off');
  for (const line of linesOf(out)) {
    try {
      const { path } = JSON.parse(line).file as { path: string };
      reports.set(path, [...(reports.get(path) ?? []), line]);
    } catch {
      wrong.push(`a line of the report is none: ${line.slice(0, 200)}`);
    }
  }
  return reports;
}

/** Every line names a file, what is wrong and what to do, and holds nothing that a terminal would take for a command. */
function errorsByPath(err: string, paths: readonly string[], wrong: string[]): Map<string, string[]> {
  const byStart = new Map(paths.map((path) => [`lieflat: ${printable(path)}: `, path]));
  // A name may begin like a shorter one and its line.
  const starts = [...byStart.keys()].sort((a, b) => b.length - a.length);
  const errors = new Map<string, string[]>();
  for (const line of linesOf(err)) {
    const start = starts.find((text) => line.startsWith(text));
    if (start === undefined) {
      wrong.push(`a line of standard error names no file: ${printable(line.slice(0, 300))}`);
      continue;
    }
    if (
      line !== printable(line) ||
      !/.; .+/.test(line.slice(start.length)) ||
      line.includes('inside lieflat')
    )
      wrong.push(`it is no line for people: ${printable(line)}`);
    const path = byStart.get(start)!;
    errors.set(path, [...(errors.get(path) ?? []), line]);
  }
  return errors;
}

/** Where two runs differ that must not; `unordered`: but for the order of their lines. */
export function differences(one: Batch, other: Batch, unordered = false): string[] {
  const set = (text: string): string => (unordered ? linesOf(text).sort().join('\n') : text);
  return (['out', 'err'] as const)
    .filter((stream) => set(one[stream]) !== set(other[stream]))
    .map((stream) => {
      const [a, b] = [linesOf(set(one[stream])), linesOf(set(other[stream]))];
      const at = a.findIndex((line, i) => line !== b[i]);
      return `standard ${stream} differs, first in line ${at + 1}: ${a[at]?.slice(0, 200)} | ${b[at]?.slice(0, 200)}`;
    });
}
