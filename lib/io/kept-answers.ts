/**
 * Answers kept in a folder, a file each, by the hash of what was asked. What goes wrong with a file there is no matter to anybody: the answer is
 * worked out anew. The folder is bounded: what has not been asked for longest is let go of.
 */
import { randomBytes } from 'node:crypto';
import v8 from 'node:v8';
import zlib from 'node:zlib';
import { type Answers, NOTHING_KEPT } from '../core/answers.js';
import { cacheFiles as files } from './drive.js';
import { sha256 } from './read-file.js';
import { own, system } from './system.js';

/** Where answers are kept; plain data, for a thread. */
export interface AnswersPlace {
  readonly folder: string;
  /** Who answers: the same question to another program is another question. */
  readonly by: string;
  /** Bytes that may lie in the folder. */
  readonly mostBytes?: number;
}

/** Some thousands of names, or some dozens of jacket backs. */
const MOST_BYTES = 200e6;
/** What is left of that when it is over. */
const LEFT = 0.75;
/** How often the folder is looked through: once so large a part of it has been written. */
const LOOKED_AFTER = 1 / 16;
const ENDING = '.answer';
/** Half-written files of a process that was killed. */
const PART = '.part';
const AN_HOUR_MS = 3_600_000;
/** Before the answer stands its hash, in letters. */
const HASH_BYTES = 64;

export function keptAnswers(place: AnswersPlace | undefined): Answers {
  return place ? new AnswersFolder(place) : NOTHING_KEPT;
}

class AnswersFolder implements Answers {
  /** Of what is asked about again and again, as a catalogue. */
  private readonly hashes = new WeakMap<object, string>();
  /** Since the folder was looked through; more than may be before that. */
  private written = Number.POSITIVE_INFINITY;

  constructor(private readonly place: AnswersPlace) {}

  of<T>(asked: readonly unknown[], work: () => T): T {
    const path = system().path.join(this.place.folder, this.keyOf(asked) + ENDING);
    const known = readAnswer(path);
    if (known) return known.answer as T;
    const answer = work();
    this.keep(path, answer);
    return answer;
  }

  private keyOf(asked: readonly unknown[]): string {
    // What another Node writes, this one may not be able to read, and its sums may differ in the last digit.
    const parts = [this.place.by, own.engine, ...asked.map((part) => this.hashOf(part))];
    return sha256(parts.join('\n'));
  }

  private hashOf(part: unknown): string {
    if (typeof part !== 'object' || part === null) return `${typeof part} ${String(part)}`;
    const known = this.hashes.get(part);
    if (known) return known;
    const hash = sha256(JSON.stringify(part, told));
    this.hashes.set(part, hash);
    return hash;
  }

  private keep(path: string, answer: unknown): void {
    const { folder } = this.place;
    const temporary = `${path}.${randomBytes(6).toString('hex')}${PART}`;
    try {
      files.makeFolder(folder);
      const packed = zlib.deflateRawSync(v8.serialize(answer), { level: 1 });
      files.write(temporary, Buffer.concat([Buffer.from(sha256(packed)), packed]));
      files.rename(temporary, path);
      this.written += packed.length;
    } catch {
      tried(() => files.unlink(temporary));
      return;
    }
    const { mostBytes = MOST_BYTES } = this.place;
    if (this.written > LOOKED_AFTER * mostBytes) {
      letGo(folder, mostBytes);
      this.written = 0;
    }
  }
}

/**
 * What JSON cannot tell apart, told apart. What Node writes of a value will not do: two writings of one value may differ, by whether a number was
 * worked out or stood there.
 */
function told(_key: string, value: unknown): unknown {
  if (ArrayBuffer.isView(value)) {
    const bytes = new Uint8Array(value.buffer, value.byteOffset, value.byteLength);
    return marked(value.constructor.name, sha256(bytes));
  }
  if (value instanceof Map || value instanceof Set) return marked('entries', [...value]);
  if (Object.is(value, -0) || (typeof value === 'number' && !Number.isFinite(value)))
    return marked('number', Object.is(value, -0) ? '-0' : String(value));
  if (value === undefined) return marked('undefined', 0);
  if (typeof value === 'function') throw new TypeError('an answer cannot hang on a function');
  return value;
}

/** No object of ours has such a key. */
const marked = (kind: string, content: unknown) => ({ [`\0${kind}`]: content });

/** An answer in a file; null where there is none, or none that is whole. */
function readAnswer(path: string): { answer: unknown } | null {
  try {
    const bytes = files.read(path);
    const packed = bytes.subarray(HASH_BYTES);
    if (sha256(packed) !== bytes.toString('latin1', 0, HASH_BYTES)) return null;
    const answer: unknown = v8.deserialize(zlib.inflateRawSync(packed));
    tried(() => files.touch(path));
    return { answer };
  } catch {
    return null;
  }
}

/** Lets go of what was not asked for longest, until there is room again, and of what killed processes left. */
function letGo(folder: string, mostBytes: number): void {
  tried(() => {
    const all = files.list(folder);
    // Of an answer that was kept just now, by the disk's own clock.
    const now = all.reduce((latest, { modifiedMs }) => Math.max(latest, modifiedMs), 0);
    for (const { path, modifiedMs } of all)
      if (path.endsWith(PART) && now - modifiedMs > AN_HOUR_MS) tried(() => files.unlink(path));
    const answers = all.filter(({ path }) => path.endsWith(ENDING));
    let bytes = answers.reduce((sum, { size }) => sum + size, 0);
    if (bytes <= mostBytes) return;
    for (const { path, size } of answers.toSorted((a, b) => a.changedMs - b.changedMs)) {
      if (bytes <= LEFT * mostBytes) break;
      tried(() => files.unlink(path));
      bytes -= size;
    }
  });
}

function tried(step: () => void): void {
  try {
    step();
  } catch {
    // Another process may have done it, or may not let us.
  }
}
