/**
 * Gives lieflat spoiled and random input and holds it to what must be true of any.
 *
 *     npm run fuzz [-- --count 200000 --seed 1 --only dst|csv|profile]
 *     npm run fuzz -- --replay .cache/fuzz/dst-1234.hex
 *
 * Input number N is made of seed + N alone. One that fails is written as a hex file to replay.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { hold, type Outcome } from './hold.js';
import { type InputKind, inputOf } from './inputs.js';

const FOLDER = '.cache/fuzz';
/** Every so many inputs one is looked at on goods as well. */
const GOODS_EVERY = 10_000;
const MOST_FAILURES = 20;

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '200000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    goods: { type: 'string', default: String(GOODS_EVERY) },
    replay: { type: 'string' },
  },
});

const told = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);

async function replay(path: string): Promise<number> {
  const kind = basename(path).split('-')[0] as InputKind;
  const bytes = Uint8Array.from(Buffer.from(readFileSync(path, 'utf8').replace(/\s/g, ''), 'hex'));
  console.log(`${kind}, ${bytes.length} bytes: ${await hold({ kind, bytes }, true)}`);
  return 0;
}

async function fuzz(): Promise<number> {
  const [count, first, every] = [values.count, values.seed, values.goods].map(Number);
  const outcomes: Partial<Record<Outcome, number>> = {};
  let failures = 0;
  for (let n = 0; n < count && failures < MOST_FAILURES; n++) {
    const seed = first + n;
    const input = inputOf(seed, values.only as InputKind | undefined);
    try {
      const outcome = await hold(input, n % every === every - 1);
      outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
    } catch (error) {
      failures++;
      mkdirSync(FOLDER, { recursive: true });
      const path = `${FOLDER}/${input.kind}-${seed}.hex`;
      writeFileSync(path, `${Buffer.from(input.bytes).toString('hex')}\n`);
      console.error(`seed ${seed}: ${told(error)}\nagain: npm run fuzz -- --replay ${path}\n`);
    }
  }
  console.log(`${count} inputs from seed ${first}: ${JSON.stringify(outcomes)}, ${failures} failed`);
  return failures > 0 ? 1 : 0;
}

process.exitCode = values.replay === undefined ? await fuzz() : await replay(values.replay);
