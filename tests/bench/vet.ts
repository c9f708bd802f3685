/** How long and how much memory `vet` takes on large designs, against a bare loop over the same bytes. */
import { bigDesign, decodeAndSum } from './big-design.js';
import type { BenchRow } from './row.js';

type Lib = typeof import('../../lib/index.js');

const SIZES = [10_000, 100_000, 1_000_000];

export async function vetRows(lib: Lib): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  const vetMs: number[] = [];
  const stitches: number[] = [];
  const shop = lib.shopOf();
  for (const size of SIZES) {
    const bytes = await bigDesign(lib, size);
    const file = { path: 'bench.dst', format: 'dst' as const, bytes: bytes.length, sha256: '' };
    const vet = async () => shop.vet(await lib.decodeDesign(bytes, 'dst'), { file });
    const runs = size >= 1_000_000 ? 12 : 60;
    let bareMs = Infinity;
    let best = Infinity;
    let checksum = 0;
    // the two in turn, so that a busy machine slows both alike
    for (let i = 0; i < runs; i++) {
      let start = performance.now();
      checksum += decodeAndSum(bytes);
      bareMs = Math.min(bareMs, performance.now() - start);
      start = performance.now();
      await vet();
      best = Math.min(best, performance.now() - start);
    }
    if (!Number.isFinite(checksum)) throw new Error('the bare loop went wrong');

    await collect();
    const before = held();
    const result = await vet();
    await collect();
    const bytesAStitch = (held() - before) / result.stitches.count;
    vetMs.push(best);
    stitches.push(result.stitches.count);
    const label = `${(result.stitches.count / 1000).toFixed(0)} k stitches`;
    rows.push({
      name: `vet / bare decode and sum, ${label}`,
      measured: best / bareMs,
      target: 40,
      unit: '×',
    });
    rows.push({
      name: `memory held by vet, ${label}`,
      measured: bytesAStitch,
      target: 120,
      unit: 'bytes a stitch',
    });
  }
  const [, hundred, million] = vetMs;
  const scale = stitches[2] / stitches[1] / 10;
  rows.push({
    name: 'vet of 1 M / 100 k stitches',
    measured: million / hundred / scale,
    target: 11,
    unit: '×',
  });
  return rows;
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
