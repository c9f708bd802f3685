/** Time of proving what a design sewn again hides, against vetting the same stitches, and of the searches against one such proof. */
import { decodeDesign } from '../../lib/format/decode.js';
import * as lib from '../../lib/index.js';
import { coverOf, coverOfGrowing } from '../../lib/rework/cover.js';
import type { Enlargement } from '../../lib/rework/enlargement.js';
import { machineScaled } from '../../lib/rework/machine-scaled.js';
import { regenerated } from '../../lib/rework/regenerate.js';
import { HoleTests, holesOf } from '../../lib/rework/resew-holes.js';
import { betterOffset, smallestScale } from '../../lib/rework/resew-search.js';
import { asWritten } from '../../lib/rework/resew-written.js';
import { widened } from '../../lib/rework/widen.js';
import { bigDesign } from './big-design.js';
import type { BenchRow } from './row.js';

const SIZE = 60_000;
const THREAD_MM = 0.4;
const RUNS = 7;
const FEW_RUNS = 3;
/** Moved so far no growth hides all. */
const MOVED_MM = 2;
const NEVER = [
  { mode: 'regenerated', enlarge: regenerated },
  { mode: 'widened', enlarge: widened },
];

export async function resewRows(): Promise<BenchRow[]> {
  const bytes = await bigDesign(lib, SIZE);
  const file = { path: 'bench.dst', format: 'dst' as const, bytes: bytes.length, sha256: '' };
  const shop = lib.shopOf();
  const vetting = shop.vet(await decodeDesign(bytes, 'dst'), { file });
  const { design, stitches, objects } = vetting;
  const holes = holesOf(stitches, objects);
  const made = (by: Enlargement) => asWritten(machineScaled(design, stitches, objects)(by).whole());
  const at = (share: number): Enlargement => ({ x: share, y: share, dx: 0, dy: 0 });
  const coverAt = (share: number) => {
    const written = made(at(share));
    return coverOf(written.stitches, written.objects, THREAD_MM);
  };
  const larger = made(at(0.05)).design;
  const best = { vet: Infinity, proof: Infinity, scale: Infinity, offset: Infinity };
  let exposed = new HoleTests().exposed(holes, coverAt(0.05));
  // in turn, so that a busy machine slows all alike
  for (let run = 0; run < RUNS; run++) {
    const time = (what: keyof typeof best, work: () => void) => {
      const start = performance.now();
      work();
      best[what] = Math.min(best[what], performance.now() - start);
    };
    time('vet', () => {
      shop.vet(design, { file });
      shop.vet(larger, { file });
    });
    time('proof', () => {
      exposed = new HoleTests().exposed(holes, coverAt(0.05));
    });
    time('scale', () => {
      // a hole off every design is never hidden: no step may be left out
      const stray = { ...holes, x: Float64Array.from(holes.x), y: Float64Array.from(holes.y) };
      stray.x[holes.count - 1] += 1000;
      smallestScale(stray, (step) => coverAt(step / 1000), new HoleTests(), 0, Infinity);
    });
    time('offset', () => {
      betterOffset(holes, coverAt(0.05), new HoleTests(), exposed, 3 * holes.count);
    });
  }
  const nothing = NEVER.map(({ mode, enlarge }) => {
    const times = { proof: Infinity, scale: Infinity };
    for (let run = 0; run < FEW_RUNS; run++) {
      const grow = enlarge(design, stitches, objects);
      const moved = (share: number) => grow({ ...at(share), dx: MOVED_MM });
      let start = performance.now();
      const { stitches: sewn, objects: found } = asWritten(moved(0.05).whole());
      new HoleTests().exposed(holes, coverOf(sewn, found, THREAD_MM));
      times.proof = Math.min(times.proof, performance.now() - start);
      start = performance.now();
      const coverOfStep = (step: number) => coverOfGrowing(moved(step / 1000), objects.length, THREAD_MM);
      const { step } = smallestScale(holes, coverOfStep, new HoleTests(), 0, Infinity);
      if (step !== null) throw new Error(`moved by ${MOVED_MM} mm all is hidden at ${step} thousandths`);
      times.scale = Math.min(times.scale, performance.now() - start);
    }
    return {
      name: `smallest scale, ${mode}, nothing hides up to 12 % / one cover`,
      measured: times.scale / times.proof,
      target: 15,
      unit: '×' as const,
    };
  });
  const label = `${(holes.count / 1000).toFixed(0)} k holes`;
  return [
    {
      name: `cover of ${label} / vet of both designs`,
      measured: best.proof / best.vet,
      target: 3,
      unit: '×',
    },
    {
      name: `smallest scale among 121, none hides all / one cover`,
      measured: best.scale / best.proof,
      target: 9,
      unit: '×',
    },
    ...nothing,
    { name: `better offset / one cover`, measured: best.offset / best.proof, target: 6, unit: '×' },
  ];
}
