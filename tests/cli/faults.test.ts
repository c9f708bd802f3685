import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, onTestFinished } from 'vitest';
import { COMMANDS } from '../../cli/commands.js';
import { useDrive } from '../../lib/io/drive.js';
import { IN_FULL } from '../in-full.js';
import { FAILURES, type Failure, failingDrive } from '../io/failing-drive.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, type Ran } from './at-a-terminal.js';
import { unwritten, WRITING_LINES, type WritingLine, wordsOf, writersShop } from './writing-lines.js';

onACoarseMesh(2);

/**
 * All four ways at every operation. Without it each operation fails in one way, the ways in turn, and of a line the odd ones with an old
 * file and the even ones without; of a batch, which works on many files, only each ninth, of a command that works anew for a while at
 * every try each sixtieth, and none of a fit.
 */
const everyOf = (command: string): number => {
  if (IN_FULL) return 1;
  return COMMANDS[command].slow ? 60 : command === 'vet' || command === 'columns' ? 9 : 3;
};
/** All ways of a slow command take minutes, and several times that on a busy machine. */
const LONGEST_MS = IN_FULL ? 900_000 : 180_000;
const OLD = 'what was there before';

function shop(): string {
  const folder = mkdtempSync(join(tmpdir(), 'faults-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  writersShop(folder);
  return folder;
}

/** Everything in a folder and under it, by name. */
const contents = (folder: string): Map<string, string> =>
  new Map(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((path) => [path.slice(folder.length + 1), readFileSync(path, 'latin1')]),
  );

/** The files that a line writes, before it runs: there with old content, or not. */
function putBack(folder: string, { writes }: WritingLine, there: boolean): void {
  for (const name of Object.values(writes)) {
    rmSync(join(folder, name), { force: true });
    if (there) writeFileSync(join(folder, name), OLD);
  }
}

/** Runs a line on a drive whose nth operation fails. */
async function runFailing(folder: string, line: WritingLine, force: boolean, nth: number, code: Failure) {
  const { drive, failed } = failingDrive(nth, code);
  const giveBack = useDrive(drive);
  try {
    return { ...(await lieflat(wordsOf(line, force), { cwd: folder })), failed: failed() };
  } finally {
    giveBack();
  }
}

/**
 * A batch goes on without a file that it could not read, so what it writes is a whole list of the others: every row is one of the list of
 * all, and the first and the last thing in it are there.
 */
function isWholeOfFewer(text: string, all: string): boolean {
  if (all.startsWith('{"schema":"lieflat/vet@1"') || /^[\w,]+\r\n/.test(all)) {
    const rows = new Set(all.split('\n'));
    return text.split('\n').every((row) => rows.has(row) || isEndOfFewer(row));
  }
  if (all.startsWith('{')) return JSON.parse(text).files.unread > 0;
  if (all.startsWith('<!doctype html>')) return text.endsWith('</html>\n');
  return / not read\n$/.test(text);
}

/** The last line of a part says that something of it, or of the archive, could not be read. */
function isEndOfFewer(row: string): boolean {
  if (!row.startsWith('{"schema":"lieflat/vet-part@1"')) return false;
  const { unread, missing } = JSON.parse(row);
  return unread + missing > 0;
}

/** Every file is as it was or as it becomes where nothing fails; none is left over, and none gone. */
function holdFiles(
  where: string,
  ran: Ran,
  { before, after, now }: Record<'before' | 'after' | 'now', Map<string, string>>,
  { targets, isBatch }: { targets: readonly string[]; isBatch: boolean },
): void {
  for (const [name, text] of now) {
    expect(after.has(name) || before.has(name), `${where}: ${name} was left`).toBe(true);
    const mayBeNew = ran.code === 0 || targets.includes(name);
    const known = [before.get(name), ...(mayBeNew ? [after.get(name)] : [])];
    const isWhole =
      known.includes(text) || (isBatch && ran.code === 2 && isWholeOfFewer(text, after.get(name)!));
    expect(isWhole, `${where}: ${name} is neither old nor new`).toBe(true);
    if (ran.code === 0) expect(text, `${where}: ${name}`).toBe(after.get(name));
  }
  for (const name of before.keys()) expect(now.has(name), `${where}: ${name} is gone`).toBe(true);
}

/** One line tells of the failure; what it says of this computer when nothing fails (that it has no fonts) is no error. */
function holdLines(
  where: string,
  { out, err, code }: Ran,
  command: string,
  { usual, isBatch }: { usual: ReadonlySet<string>; isBatch: boolean },
): void {
  const lines = err
    .split('\n')
    .filter((said) => said !== '' && !said.startsWith('wrote ') && !usual.has(said));
  const errors = lines.filter((said) => said.startsWith('lieflat: '));
  // A log of sew-outs goes on without a design that cannot be read, and may then be too short.
  const most = command === 'calibrate' && errors[0]?.includes('log.csv: line ') ? 2 : 1;
  expect(errors.length > 0, where).toBe(code === 2);
  expect(errors.length, where).toBeLessThanOrEqual(most);
  // Beside it stands only the summary of a batch.
  expect(isBatch || lines.length === errors.length, where).toBe(true);
  expect(`${out}${err}`, where).not.toMatch(/inside lieflat|\bat .*:\d+:\d+/);
}

describe('every file operation of a command that writes, made to fail once', () => {
  let failures = 0;
  afterAll(() => {
    if (IN_FULL) console.log(`${failures} failures of file operations, ${FAILURES.length} ways at each`);
  });

  it('is tried with every option of every command that names a file to write', () => {
    expect(unwritten()).toEqual([]);
  });

  const cases = WRITING_LINES.filter(({ command }) => IN_FULL || command !== 'calibrate').flatMap((line) =>
    // What is slow takes its time at every try; whether its target was there before decides nothing of its reading.
    (COMMANDS[line.command].slow && !IN_FULL ? [true] : [true, false]).map(
      (force) => [wordsOf(line, force).join(' '), line, force] as const,
    ),
  );
  it.each(cases)(
    '%s',
    async (_, line, force) => {
      const folder = shop();
      putBack(folder, line, force);
      const before = contents(folder);
      const clean = await lieflat(wordsOf(line, force), { cwd: folder });
      expect(clean.code).toBe(0);
      const usual = new Set(clean.err.split('\n'));
      const after = contents(folder);
      const targets = Object.values(line.writes);
      expect([...after.keys()].sort()).toEqual([...new Set([...before.keys(), ...targets])].sort());
      const isBatch = line.command === 'vet' || line.command === 'columns';

      const every = everyOf(line.command);
      let tripped = true;
      for (let nth = every > 1 && !force ? 2 : 1; tripped; nth += every) {
        tripped = false;
        for (const code of IN_FULL ? FAILURES : [FAILURES[(nth >> 1) % FAILURES.length]]) {
          putBack(folder, line, force);
          const ran = await runFailing(folder, line, force, nth, code);
          tripped ||= ran.failed !== null;
          if (ran.failed !== null) failures++;
          const where = `operation ${nth} (${ran.failed}) failed with ${code}: exit ${ran.code}, ${ran.err}`;
          holdFiles(where, ran, { before, after, now: contents(folder) }, { targets, isBatch });
          expect([0, 2], where).toContain(ran.code);
          holdLines(where, ran, line.command, { usual, isBatch });
        }
      }
    },
    LONGEST_MS,
  );
});
