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
import { type Figure, once } from './figure.js';

const SIZE = 60_000;
/** Searches in vain take minutes on a jacket back. */
const SMALLER = 12_000;
const THREAD_MM = 0.4;
const RUNS = 5;
const FEW_RUNS = 3;
/** Moved so far no growth hides all. */
const MOVED_MM = 2;
const NEVER = { regenerated, widened };

export function resewFigures(): Figure[] {
  const design = once(() => designSewnAgain(SIZE));
  const smaller = once(() => designSewnAgain(SMALLER));
  const times = once(async () => coverTimes(await design()));
  const nothing = Object.entries(NEVER).map(
    ([mode, enlarge]): Figure => ({
      name: `smallest scale, ${mode}, nothing hides up to 12 % / one cover`,
      target: 15,
      unit: '×',
      measure: async () => neverHidden(await smaller(), enlarge),
    }),
  );
  return [
    {
      name: `cover of a jacket back's holes / vet of both designs`,
      target: 3,
      unit: '×',
      measure: async () => {
        const { proof, vet } = await times();
        return { value: proof / vet, on: `${((await design()).holes.count / 1000).toFixed(0)} k holes` };
      },
    },
    {
      name: 'smallest scale among 121, none hides all / one cover',
      target: 9,
      unit: '×',
      measure: async () => {
        const { scale, proof } = await times();
        return scale / proof;
      },
    },
    ...nothing,
    {
      name: 'better offset / one cover',
      target: 6,
      unit: '×',
      measure: async () => {
        const { offset, proof } = await times();
        return offset / proof;
      },
    },
  ];
}

const scaledBy = (share: number): Enlargement => ({ x: share, y: share, dx: 0, dy: 0 });

type SewnAgain = Awaited<ReturnType<typeof designSewnAgain>>;

async function designSewnAgain(size: number) {
  const bytes = await bigDesign(lib, size);
  const file = { path: 'bench.dst', format: 'dst' as const, bytes: bytes.length, sha256: '' };
  const shop = lib.shopOf();
  const { design, stitches, objects } = shop.vet(await decodeDesign(bytes, 'dst'), { file });
  const vet = (what: typeof design) => shop.vet(what, { file });
  return { vet, design, stitches, objects, holes: holesOf(stitches, objects) };
}

/** Best times of vetting both designs, of one cover, and of the searches, ms. */
function coverTimes({ vet, design, stitches, objects, holes }: SewnAgain) {
  const made = (by: Enlargement) => asWritten(machineScaled(design, stitches, objects)(by).whole());
  const coverAt = (share: number) => {
    const written = made(scaledBy(share));
    return coverOf(written.stitches, written.objects, THREAD_MM);
  };
  const larger = made(scaledBy(0.05)).design;
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
      vet(design);
      vet(larger);
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
  return best;
}

/** Time of looking in vain for the smallest scale, over that of one cover. */
function neverHidden(
  { design, stitches, objects, holes }: SewnAgain,
  enlarge: (typeof NEVER)[keyof typeof NEVER],
): number {
  const times = { proof: Infinity, scale: Infinity };
  for (let run = 0; run < FEW_RUNS; run++) {
    const grow = enlarge(design, stitches, objects);
    const moved = (share: number) => grow({ ...scaledBy(share), dx: MOVED_MM });
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
  return times.scale / times.proof;
}
