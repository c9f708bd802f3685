/** Commands that do the same to one design or to several: one file is reported as it is, several are a batch. */
import { LieflatError, printable } from '../../lib/index.js';
import { fileState, refuseSameTargets, refuseTarget } from '../../lib/io/index.js';
import { badArgument } from '../bad-argument.js';
import { EXIT } from '../command.js';
import { type Io, print } from '../io.js';
import { jointOf } from '../joint.js';
import type { Everywhere, Many, Report, TypedWords } from '../options.js';
import { type Output, outputOf, underNotice, writeAll, writeOut } from '../output.js';
import { keepForRewritten } from '../set-right.js';
import { pathFrom, targetFrom } from '../settings.js';
import { type BatchJob, workAlone } from './job.js';
import { listFiles } from './list.js';
import { listenForStop, runBatch, stoppedLine } from './run-batch.js';
import type { FileDone } from './task.js';
import { workersFor } from './worker-pool.js';

export type EachArgs = TypedWords & Everywhere & Many & Report & { format: 'text' | 'json' | 'html' };

/** What a command does with its files. */
export interface EachFile {
  /** The one file, or null for several. */
  alone: string | null;
  job: BatchJob;
  /** What is said on a terminal meanwhile. */
  notice: string;
  /** What a file that is made of a design is called, where several are; null where none is made. */
  nameOf: ((path: string) => string) | null;
  /** Where the report of all goes; null where the files are all. */
  report: 'out' | 'terminal' | null;
  /** Options that were given and that are of one design or one file. */
  ofOne: readonly string[];
  /** What else is written of the one file. */
  beside?: (done: FileDone) => Promise<void>;
}

/** The path where the words name one file; null where they name several, a folder, a pattern or a list. */
export async function aloneIn(words: readonly string[], io: Io): Promise<string | null> {
  const [word] = words;
  if (words.length !== 1 || word === '-') return null;
  const path = pathFrom(io, word);
  const state = await fileState(path);
  if (state === null) return /[*?[\]{}]/.test(word) ? null : path;
  return state.kind === 'folder' ? null : path;
}

/** Does it, and gives the exit code. */
export function eachFile(asked: EachFile, args: EachArgs, io: Io): Promise<number> {
  return asked.alone === null ? several(asked, args, io) : one(asked, asked.alone, args, io);
}

async function one({ job, notice, report, beside }: EachFile, path: string, args: EachArgs, io: Io) {
  const output = reportOf(report, args, io);
  const done = await underNotice(notice, io, async () => (await workAlone(job))({ path, number: 1 }));
  await writeMade(done, args, io);
  await beside?.(done);
  if (report !== null) {
    await writeAll(output, done.pieces);
    await output.finish();
  }
  return done.found ? EXIT.found : EXIT.clean;
}

async function several(asked: EachFile, args: EachArgs, io: Io): Promise<number> {
  const { job, notice, nameOf, report, ofOne } = asked;
  if (ofOne.length > 0)
    throw badArgument(
      `${ofOne[0]} goes with one design, and there are several`,
      nameOf
        ? 'give one file, or leave it out and write --out-dir and a folder'
        : 'give one file, or leave it out',
    );
  if (nameOf && io.outDir === undefined)
    throw badArgument('several files need a folder to be written into', 'write --out-dir and the folder');
  const { files, missing } = await listFiles(args.words, io);
  if (nameOf) await refuseMade(files, nameOf, args.force, io);
  const output = reportOf(report, args, io);
  const { stop, letGo } = listenForStop(io, null);
  const joint = jointOf(args.format === 'json' ? 'json' : 'text', files.length, () => '');
  let [open, found] = [true, false];
  try {
    if (report !== null) open = await output.write(joint.before);
    const { done, unread, stopped } = await runBatch(
      {
        job,
        stop,
        paths: () => files,
        listed: files,
        workers: workersFor(args.workers, files.length, true),
        ordered: args.ordered || args.format === 'text',
        writesOut: report === 'out' && args.out !== undefined,
        notice,
      },
      io,
      async (one) => {
        found ||= one.found === true;
        await writeMade(one, args, io);
        if (report !== null) open = await writeAll(output, joint.one(one.pieces));
        return open;
      },
    );
    if (open && report !== null) await output.write(joint.after);
    if (stopped) {
      await print(io.stderr, stoppedLine(done + unread, files.length, await output.setAside()));
      return EXIT.stopped;
    }
    if (done === 0) await output.abandon();
    else if (report !== null) await output.finish();
    return missing + unread > 0 ? EXIT.unable : found ? EXIT.found : EXIT.clean;
  } finally {
    await output.abandon();
    letGo();
  }
}

/** The report on standard output; `--out` names its file only where it is no stitch file's or page's name. */
const reportOf = (report: EachFile['report'], args: EachArgs, io: Io): Output =>
  outputOf(report === 'out' ? args : { ...args, out: undefined }, io);

async function writeMade({ made }: FileDone, args: EachArgs, io: Io): Promise<void> {
  if (made === undefined) return;
  await writeOut(made.name, made.content, args.force, io);
  const { name: out, content: bytes, set } = made;
  if (set && typeof bytes !== 'string') await keepForRewritten(args, io, { out, bytes }, { set });
}

/** Refuses what could not be written in the end, before any work is done: also two designs of one name. */
async function refuseMade(
  files: readonly string[],
  nameOf: (path: string) => string,
  force: boolean,
  io: Io,
): Promise<void> {
  const first = new Map<string, string>();
  for (const file of files) {
    const name = nameOf(file);
    const other = first.get(name);
    if (other !== undefined)
      throw new LieflatError({
        code: 'bad-argument',
        place: file,
        what: `it would be written as ${printable(name)}, and so would ${other}`,
        todo: 'rename one of the two, or write them into two folders',
      });
    first.set(name, file);
  }
  const targets = [...first.keys()].map((name) => targetFrom(io, name));
  for (const { path, within } of targets) await refuseTarget(path, { force, inputs: io.inputs, within });
  await refuseSameTargets(targets.map(({ path }) => path));
}
