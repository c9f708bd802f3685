/** A failing trial made smaller as long as it fails in the same way. */
import { bytesOf, type Content, contentOf, type Trial } from './trial.js';

const HEADER = 512;
/** A small case is worth some time, not any; and while it is made smaller its process says nothing. */
const MOST_TRIES = 120;
const MOST_SECONDS = 45;

/** What fails and how, without the figures of the case; null where it holds. */
export type Fails = (trial: Trial) => Promise<string | null>;

/** @param wrong how it fails */
export async function shrink(trial: Trial, wrong: string, fails: Fails): Promise<Trial> {
  let smallest = trial;
  let tries = 0;
  const until = performance.now() + 1000 * MOST_SECONDS;
  const enough = (): boolean => tries >= MOST_TRIES || performance.now() > until;
  const take = async (smaller: Trial): Promise<boolean> => {
    if (enough()) return false;
    tries++;
    if ((await fails(smaller)) !== wrong) return false;
    smallest = smaller;
    return true;
  };
  for (const key of ['columns', 'stop', 'stdin'] as const) {
    const { [key]: given, ...without } = smallest;
    if (given !== undefined) await take(without);
  }
  // An option with its value first, then whatever word can be spared.
  for (const length of [2, 1])
    for (let i = 1; i < smallest.argv.length; )
      if (
        (length === 2 && !smallest.argv[i].startsWith('-')) ||
        !(await take({ ...smallest, argv: smallest.argv.toSpliced(i, length) }))
      )
        i++;
  for (const name of Object.keys(smallest.files)) {
    const { [name]: _, ...others } = smallest.files;
    if (await take({ ...smallest, files: others })) continue;
    await shrinkFile(name);
  }
  return smallest;

  async function shrinkFile(name: string): Promise<void> {
    for (let part = 2; part <= 32; ) {
      let less = false;
      for (let k = 0; k < part && !less; k++) {
        const content = without(smallest.files[name], k / part, (k + 1) / part);
        if (content !== null)
          less = await take({ ...smallest, files: { ...smallest.files, [name]: content } });
      }
      if (!less) part *= 2;
      if (enough()) return;
    }
  }
}

/** The content without a stretch of its records or lines; null where there is nothing to leave out. */
function without(content: Content, from: number, to: number): Content | null {
  if (typeof content === 'string') {
    const lines = content.split('\n');
    const [first, last] = [from, to].map((share) => 1 + Math.floor(share * (lines.length - 1)));
    return last > first ? lines.toSpliced(first, last - first).join('\n') : null;
  }
  const bytes = bytesOf(content);
  const records = Math.floor((bytes.length - HEADER) / 3);
  if (records < 1) return null;
  const [first, last] = [from, to].map((share) => HEADER + 3 * Math.floor(share * records));
  return last > first ? contentOf(Buffer.concat([bytes.subarray(0, first), bytes.subarray(last)])) : null;
}
