/** A process that works on inputs of `run.ts`, one after another; it tells how each ended. */
import { DECODERS, type Ended, fuzzOnce } from './targets.js';

export interface Chunk {
  target: string;
  /** Seeds, the last one left out. */
  from: number;
  to: number;
}

export type Told = Ended;

/** Every so many inputs of the decoders one is looked at on fabric as well. */
const FABRIC_EVERY = 10_000;
/** Memory that no input needs, and one that takes without bound passes, kB. */
const MOST_MEMORY_KB = 3_000_000;

process.on('message', async ({ target, from, to }: Chunk) => {
  for (let seed = from; seed < to; seed++) {
    const before = process.resourceUsage().maxRSS;
    const ended = await fuzzOnce(target, seed, target === DECODERS && seed % FABRIC_EVERY === 0);
    const { maxRSS } = process.resourceUsage();
    // What is left of the inputs before is not this one's.
    if (maxRSS > MOST_MEMORY_KB && maxRSS > before) {
      process.stderr.write(`${target}, seed ${seed}: ${Math.round(maxRSS / 1000)} MB of memory\n`);
      process.exit(3);
    }
    process.send!(ended);
  }
});
