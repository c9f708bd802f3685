/** The page's side of its worker: jobs in, results out, and a new worker where one is stopped or fails. */
import type { Answer, Ask, Engine, OnNote, PageResult } from './protocol.js';

/** Why a job has no result: a line to show. */
export class JobEnded extends Error {
  constructor(
    line: string,
    /** The person asked for it. */
    readonly stopped: boolean,
  ) {
    super(line);
  }
}

interface Waiting {
  done(result: PageResult): void;
  fail(error: JobEnded): void;
  onNote: OnNote | undefined;
  note: string;
}

const STOPPED = 'Stopped. Nothing was changed.';
const FAILED = 'The work broke off: the browser may be out of memory. Close other pages and try again.';

/** @param workerText the program that the worker runs */
export function startEngine(workerText: string): Engine {
  const given = new Map<string, ArrayBuffer>();
  const waiting = new Map<number, Waiting>();
  const address = URL.createObjectURL(new Blob([workerText], { type: 'text/javascript' }));
  let asked = 0;
  let worker = started();

  function started(): Worker {
    const fresh = new Worker(address);
    fresh.onmessage = ({ data }: MessageEvent<Answer>) => take(data);
    fresh.onerror = (event) => {
      event.preventDefault();
      again(FAILED, false);
    };
    return fresh;
  }

  function send(ask: Omit<Ask, 'id'>, id = ++asked): void {
    worker.postMessage({ ...ask, id } satisfies Ask);
  }

  /** A new worker in the place of one that is of no more use, with the same files. */
  function again(line: string, stopped: boolean): void {
    worker.terminate();
    const ended = [...waiting.values()];
    waiting.clear();
    worker = started();
    if (given.size > 0) send({ files: [...given].map(([name, bytes]) => ({ name, bytes })) });
    for (const { fail } of ended) fail(new JobEnded(line, stopped));
  }

  function take(answer: Answer): void {
    const job = waiting.get(answer.id);
    if (job === undefined) return;
    if ('note' in answer) {
      job.note = answer.note;
      job.onNote?.(job.note, null);
    } else if ('share' in answer) job.onNote?.(job.note, answer.share);
    else {
      waiting.delete(answer.id);
      const { exit, stdout, stderr, files, kept } = answer;
      // What the worker has kept, a new one is to be given as well.
      for (const { name, bytes } of files) if (kept.includes(name)) given.set(name, bytes.slice(0));
      job.done({ exit, stdout, stderr, files, kept });
    }
  }

  return {
    run: (job, onNote) =>
      new Promise((done, fail) => {
        const id = ++asked;
        waiting.set(id, { done, fail, onNote, note: '' });
        send(job, id);
      }),
    give(files) {
      for (const { name, bytes } of files) given.set(name, bytes);
      send({ files });
    },
    forget(names) {
      for (const name of names) given.delete(name);
      send({ forget: names });
    },
    stop: () => again(STOPPED, true),
  };
}
