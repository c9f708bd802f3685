/** How long and how much memory `vet` takes on large designs, against a bare loop over the same bytes. */
import { bigDesign, decodeAndSum } from './big-design.js';
import { type Figure, once } from './figure.js';

type Lib = typeof import('../../lib/index.js');

const SIZES = [10_000, 100_000, 1_000_000];

interface VetRun {
  /** Best times, ms. */
  vetMs: number;
  bareMs: number;
  bytesAStitch: number;
  stitches: number;
}

export function vetFigures(lib: () => Promise<Lib>): Figure[] {
  const runs = SIZES.map((size) => once(async () => vetted(await lib(), size)));
  const on = ({ stitches }: VetRun): string => `${(stitches / 1000).toFixed(0)} k stitches`;
  const each = SIZES.flatMap((size, at): Figure[] => {
    const label = `${size / 1000} k stitches`;
    return [
      {
        name: `vet / bare decode and sum, ${label}`,
        target: 40,
        unit: '×',
        measure: async () => {
          const run = await runs[at]();
          return { value: run.vetMs / run.bareMs, on: on(run) };
        },
      },
      {
        name: `memory held by vet, ${label}`,
        target: 120,
        unit: 'bytes a stitch',
        measure: async () => (await runs[at]()).bytesAStitch,
      },
    ];
  });
  const growth: Figure = {
    name: 'growth: vet of 1 M / 100 k stitches',
    target: 11,
    unit: '×',
    measure: async () => {
      const [hundred, million] = [await runs[1](), await runs[2]()];
      return million.vetMs / hundred.vetMs / (million.stitches / hundred.stitches / 10);
    },
  };
  return [...each, growth];
}

async function vetted(lib: Lib, size: number): Promise<VetRun> {
  const shop = lib.shopOf();
  const bytes = await bigDesign(lib, size);
  const file = { path: 'bench.dst', format: 'dst' as const, bytes: bytes.length, sha256: '' };
  const vet = async () => shop.vet(await lib.decodeDesign(bytes, 'dst'), { file });
  let bareMs = Infinity;
  let vetMs = Infinity;
  let checksum = 0;
  // the two in turn, so that a busy machine slows both alike
  for (let i = 0; i < (size >= 1_000_000 ? 12 : 60); i++) {
    let start = performance.now();
    checksum += decodeAndSum(bytes);
    bareMs = Math.min(bareMs, performance.now() - start);
    start = performance.now();
    await vet();
    vetMs = Math.min(vetMs, performance.now() - start);
  }
  if (!Number.isFinite(checksum)) throw new Error('the bare loop went wrong');
  await collect();
  const before = held();
  const result = await vet();
  await collect();
  const stitches = result.stitches.count;
  return { vetMs, bareMs, bytesAStitch: (held() - before) / stitches, stitches };
}

/** Lets go of everything that nothing holds; buffers go a little later than the objects that held them. */
async function collect(): Promise<void> {
  for (let round = 0; round < 3; round++) {
    globalThis.gc?.();
    await new Promise((resolve) => setTimeout(resolve, 60));
  }
}

function held(): number {
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
