/** How long and how much memory `vet` takes on large designs, against a bare loop over the same bytes. */
import { bigDesign, decodeAndSum } from './big-design.js';
import { type Figure, once } from './figure.js';

type Lib = typeof import('../../lib/index.js');

const SIZES = [10_000, 100_000, 1_000_000];
/** Rounds that count, after one in which code gets optimized. */
const ROUNDS = 5;
/** Bare loops a vetting: each is so short that one alone says little. */
const BARE_LOOPS = 4;
/** Share of what is held by which other memory of the process may come or go meanwhile. */
const MOST_BESIDES = 0.2;

/** A design of one size, and how often it is vetted in a round: designs of all sizes together have as many stitches. */
interface Bench {
  bytes: Uint8Array;
  stitches: number;
  times: number;
  vet: () => Promise<unknown>;
}

/** Processor time of a million stitches, ms, a round each. */
interface Times {
  vet: number[];
  bare: number[];
}

export function vetFigures(lib: () => Promise<Lib>): Figure[] {
  const benches = SIZES.map((size) => once(async () => benchOf(await lib(), size)));
  const times = once(async () => timesOf(await Promise.all(benches.map((bench) => bench()))));
  const each = SIZES.flatMap((size, at): Figure[] => {
    const label = `${size / 1000} k stitches`;
    return [
      {
        name: `vet / bare decode and sum, ${label}`,
        target: 40,
        unit: '×',
        measure: async () => {
          const { vet, bare } = (await times())[at];
          const { stitches } = await benches[at]();
          return { value: middleRatio(vet, bare), on: `${(stitches / 1000).toFixed(0)} k stitches` };
        },
      },
      {
        name: `memory held by vet, ${label}`,
        target: 120,
        unit: 'bytes a stitch',
        measure: async () => bytesAStitch(await benches[at]()),
      },
    ];
  });
  const growth: Figure = {
    name: 'growth: vet of 1 M / 100 k stitches',
    target: 11,
    unit: '×',
    measure: async () => {
      const [, hundred, million] = await times();
      return 10 * middleRatio(million.vet, hundred.vet);
    },
  };
  return [...each, growth];
}

async function benchOf(lib: Lib, size: number): Promise<Bench> {
  const shop = lib.shopOf();
  const bytes = await bigDesign(lib, size);
  const file = { path: 'bench.dst', format: 'dst' as const, bytes: bytes.length, sha256: '' };
  const vet = async () => shop.vet(await lib.decodeDesign(bytes, 'dst'), { file });
  const stitches = (await vet()).stitches.count;
  return { bytes, stitches, times: Math.max(1, Math.round(SIZES[SIZES.length - 1] / stitches)), vet };
}

/**
 * All sizes and the bare loop in turn, as many stitches of each, so that a busy machine slows all alike: the least of many short runs
 * would fall between the work of others, that of a few long ones cannot.
 */
async function timesOf(benches: readonly Bench[]): Promise<Times[]> {
  const times = benches.map((): Times => ({ vet: [], bare: [] }));
  let checksum = 0;
  for (let round = -1; round < ROUNDS; round++) {
    for (const [at, bench] of benches.entries()) {
      const a = processorMs();
      for (let i = 0; i < BARE_LOOPS * bench.times; i++) checksum += decodeAndSum(bench.bytes);
      const b = processorMs();
      for (let i = 0; i < bench.times; i++) await bench.vet();
      const c = processorMs();
      if (round < 0) continue;
      const millions = (bench.times * bench.stitches) / 1e6;
      times[at].bare.push((b - a) / BARE_LOOPS / millions);
      times[at].vet.push((c - b) / millions);
    }
  }
  if (!Number.isFinite(checksum)) throw new Error('the bare loop went wrong');
  return times;
}

/** The middle of the ratios of rounds. */
function middleRatio(above: readonly number[], below: readonly number[]): number {
  const ratios = above.map((ms, round) => ms / below[round]).sort((a, b) => a - b);
  return ratios[ratios.length >> 1];
}

/** Time that processors have spent on this process: that of others does not count. */
function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/**
 * What results hold, of so many at once that they outweigh all else in the process. What that was before they came and after they went
 * tells how far it moved meanwhile; the worse counts.
 *
 * @throws Error where it moved too far to tell
 */
async function bytesAStitch({ vet, times, stitches }: Bench): Promise<number> {
  const before = await held();
  const results: unknown[] = [];
  for (let i = 0; i < times; i++) results.push(await vet());
  const full = await held();
  results.length = 0;
  const after = await held();
  const [least, most] = [Math.max(before, after), Math.min(before, after)].map(
    (without) => (full - without) / (times * stitches),
  );
  if (!(least > (1 - MOST_BESIDES) * most)) {
    const range = `${least.toFixed(1)} to ${most.toFixed(1)} bytes a stitch`;
    throw new Error(`other memory of the process came and went: ${range}`);
  }
  return most;
}

/** Bytes held, once everything that nothing holds is let go of; buffers go a little later than the objects that held them. */
async function held(): Promise<number> {
  if (!globalThis.gc) throw new Error('memory can be told only with --expose-gc');
  for (let round = 0; round < 3; round++) {
    globalThis.gc();
    await new Promise((resolve) => setTimeout(resolve, 60));
  }
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
