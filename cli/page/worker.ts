/** The page's worker: runs commands over files in memory, one after another, just as the command line does. */
import { PROFILE_NAME, SET_OBJECTS_NAME } from '../../lib/index.js';
import { memoryDrive, useDrive } from '../../lib/io/index.js';
import { badArgument } from '../bad-argument.js';
import { COMMANDS } from '../commands.js';
import type { Io } from '../io.js';
import { checkedJob } from '../mistakes.js';
import { runJob, told } from '../run-job.js';
import type { Answer, Ask, PageFile, PageJob, PageResult } from './protocol.js';

/** What this thread is to the page that started it. */
interface WorkerThread {
  onmessage: (event: { data: Ask }) => void;
  postMessage(answer: Answer, transfer?: ArrayBuffer[]): void;
}

const thread = globalThis as unknown as WorkerThread;
const drive = memoryDrive();
useDrive(drive);

/** What a shop says once and for all stays, and so does what was given; whatever else is written is handed over. */
const KEPT = [PROFILE_NAME, SET_OBJECTS_NAME];

let last: Promise<void> = Promise.resolve();
thread.onmessage = ({ data }) => {
  last = last.then(() => answer(data)).catch(breakOff);
};

/** Tells the page that the worker is of no more use: an error in a promise would reach nobody. */
function breakOff(error: unknown): void {
  setTimeout(() => {
    throw error;
  });
}

async function answer({
  id,
  files = [],
  forget = [],
  command,
  options = {},
  words = [],
}: Ask): Promise<void> {
  for (const name of forget) drive.drop(`/${name}`);
  for (const file of files) keep(file);
  if (command === undefined) return;
  const result = await done({ command, options, words }, id);
  thread.postMessage(
    { id, ...result },
    result.files.map(({ bytes }) => bytes),
  );
}

/** One that cannot be kept is not there, as whoever reads it says. */
function keep({ name, bytes }: PageFile): void {
  const array = new Uint8Array(bytes);
  try {
    drive.put(`/${name}`, array);
  } catch {}
}

async function done(job: PageJob, id: number): Promise<PageResult> {
  const before = drive.files();
  const [stdout, stderr] = [[] as string[], [] as string[]];
  const sinkOf = (pieces: string[]): Io['stdout'] => ({
    write(text, taken) {
      pieces.push(text);
      taken();
    },
  });
  const io: Io = {
    stdout: sinkOf(stdout),
    stderr: sinkOf(stderr),
    stdin: (async function* () {})(),
    cwd: '/',
    env: {},
    isTTY: false,
    columns: undefined,
    onNotice: (note, share) => {
      thread.postMessage({ id, note });
      if (share !== undefined) thread.postMessage({ id, share });
    },
  };
  const exit = await told((world) => work(job, world), io, false);
  return { exit, stdout: stdout.join(''), stderr: stderr.join(''), ...written(before) };
}

async function work({ command: name, options, words }: PageJob, io: Io): Promise<number> {
  if (!Object.hasOwn(COMMANDS, name)) throw badArgument(`there is no command ${name}`, 'choose another');
  const typed = new Map(
    Object.entries(options).map(([option, value]) => [option, Array.isArray(value) ? value : [value]]),
  );
  return runJob(await checkedJob({ name, command: COMMANDS[name], argv: [] }, typed, words), io);
}

/** Files that are new or other than before, by the names that a command gave them. */
function written(before: ReadonlyMap<string, Uint8Array>): Pick<PageResult, 'files' | 'kept'> {
  const [files, kept] = [[] as PageFile[], [] as string[]];
  for (const [path, bytes] of drive.files()) {
    if (before.get(path) === bytes) continue;
    const name = path.slice(1);
    files.push({ name, bytes: bytes.slice().buffer as ArrayBuffer });
    if (before.has(path) || KEPT.includes(name)) kept.push(name);
    else drive.drop(path);
  }
  return { files, kept };
}
