/** The packed program on an archive, and the sources on each of its good files alone. */
import { spawn } from 'node:child_process';
import { run } from '../../cli/run.js';
import { nativePath } from '../../lib/io/name-bytes.js';
import { saidBy } from '../cli/said-by.js';
import { sinkInto } from '../cli/sink.js';
import { type Archive, MEGABYTES } from './archive.js';
import { type Batch, differences, wrongWith } from './hold-batch.js';

const VET = ['--format', 'jsonl', '--fail-on', 'never', '--quiet'];

/** What each good file alone comes to, in this process, without a batch or a budget. */
export async function singlesOf({ good }: Archive): Promise<Map<string, string>> {
  const singles = new Map<string, string>();
  for (const path of good) {
    const [out, err]: string[][] = [[], []];
    await run(['vet', path, ...VET], {
      stdout: sinkInto(out),
      stderr: sinkInto(err),
      stdin: (async function* () {})(),
      cwd: '/',
      env: {},
      isTTY: false,
      columns: undefined,
    });
    if (err.length > 0) throw new Error(`${path} is no good file: ${err.join('')}`);
    singles.set(path, out.join('').trimEnd());
  }
  return singles;
}

/** `lieflat vet` of the archive's folder, or of all that is in it as a list on standard input. */
function vetBatch(
  program: string,
  { folder, seconds, ...files }: Archive,
  named: boolean,
  more: readonly string[],
): Promise<Batch> {
  const list = Buffer.concat(
    [...files.good, ...files.hostile.map(({ path }) => path), ...files.over.map(({ path }) => path)].map(
      (path) => Buffer.concat([Buffer.from(nativePath(path)), Buffer.of(0)]),
    ),
  );
  const time = seconds === null ? [] : ['--max-seconds', `${seconds}`];
  const bounds = [...time, '--max-memory', `${MEGABYTES}MB`];
  const words = ['vet', named ? '-' : folder, ...VET, ...bounds, ...more];
  const child = spawn(process.execPath, [program, ...words], { cwd: '/', stdio: ['pipe', 'pipe', 'pipe'] });
  child.stdin.end(named ? list : '');
  return saidBy(child);
}

/** A way to vet all of them. */
interface Way {
  /** One by one, by a list on standard input. */
  named: boolean;
  workers: 1 | 2;
  /** Reported in their order, not as they are finished. */
  ordered: boolean;
}

export const WAYS: readonly Way[] = [false, true].flatMap((named) => [
  { named, workers: 1, ordered: true },
  { named, workers: 2, ordered: true },
  { named, workers: 2, ordered: false },
]);
/** Each kind of them once. */
export const SOME_WAYS: readonly Way[] = [WAYS[0], WAYS[1], WAYS[5]];

/**
 * Vets the archive in each way.
 *
 * @param program what Node runs
 * @param tell what is said of each run as it ends
 * @returns what is wrong, a line each
 */
export async function holdArchive(
  program: string,
  archive: Archive,
  ways: readonly Way[] = WAYS,
  tell: (said: string) => void = () => {},
): Promise<string[]> {
  const singles = await singlesOf(archive);
  tell(`${singles.size} good files vetted alone`);
  const wrong: string[] = [];
  const first = new Map<boolean, Batch>();
  for (const { named, workers, ordered } of ways) {
    const started = performance.now();
    const order = ordered ? ['--ordered'] : [];
    const batch = await vetBatch(program, archive, named, ['--workers', `${workers}`, ...order]);
    const found = wrongWith(batch, archive, singles, named);
    const alone = first.get(named);
    if (alone) found.push(...differences(alone, batch, !ordered));
    else first.set(named, batch);
    const how = `${named ? 'a list' : 'the folder'}, ${workers} at work${ordered ? ', in order' : ''}`;
    wrong.push(...found.map((what) => `${how}: ${what}`));
    const count = (text: string): number => text.split('\n').length - 1;
    const seconds = ((performance.now() - started) / 1000).toFixed(0);
    tell(
      `${how}: ${count(batch.out)} reports, ${count(batch.err)} lines, ${found.length} wrong, ${seconds} s`,
    );
  }
  return wrong;
}
