import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { Cover } from './cover.js';

/** The needle holes that a design has left, and whose they are. */
export interface Holes {
  readonly count: number;
  /** mm, in sewing order: one a needle penetration, underlay, ties and travel included. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Which object it belongs to, counted from 1; 0 for ties and travel between objects. */
  readonly owner: Int32Array;
  /** Number of objects, and one for what belongs to none. */
  readonly owners: number;
}

export function holesOf({ count, x, y }: Stitches, objects: readonly StitchObject[]): Holes {
  const owner = new Int32Array(count);
  objects.forEach(({ underlay: { range } }, i) => {
    if (range) owner.fill(i + 1, range[0], range[1] + 1);
  });
  // the underlay of one object may be sewn before and after another: what is sewn on top is the other's own
  objects.forEach(({ range }, i) => {
    owner.fill(i + 1, range[0], range[1] + 1);
  });
  return { count, x, y, owner, owners: objects.length + 1 };
}

/** The numbers of all holes, in sewing order. */
export const everyHole = ({ count }: Holes): Int32Array => Int32Array.from({ length: count }, (_, h) => h);

/** A hole that stays in sight. */
export interface ExposedHole {
  /** Which: its stitch index in the design that was picked out. */
  readonly hole: number;
  /** To the nearest edge of a thread, mm; null where the new design lays no top stitching at all. */
  readonly gapMm: number | null;
}

/** Eight ways that a design can be hooped off. */
const WAYS = Array.from({ length: 8 }, (_, k) => [Math.cos((k * Math.PI) / 4), Math.sin((k * Math.PI) / 4)]);

/** Asks covers about holes, and counts how often. */
export class HoleTests {
  /** Places asked about so far. */
  asked = 0;

  /** Whether hole `h` is hidden when the new design lies (`dx`, `dy`) mm beside where the cover has it. */
  hidden({ x, y }: Holes, h: number, cover: Cover, dx = 0, dy = 0): boolean {
    this.asked++;
    return cover.hides(x[h] - dx, y[h] - dy);
  }

  /** Whether it is hidden where the cover is, and as far off as `slackMm` in any of eight directions. */
  hiddenWithin(holes: Holes, h: number, cover: Cover, slackMm: number): boolean {
    return (
      this.hidden(holes, h, cover) &&
      (slackMm === 0 || WAYS.every(([ux, uy]) => this.hidden(holes, h, cover, ux * slackMm, uy * slackMm)))
    );
  }

  /** Whether it is in sight for sure where the cover is or as far off, told without laying anything. */
  surelyShown({ x, y }: Holes, h: number, cover: Cover, slackMm: number): boolean {
    return (
      cover.surelyShows(x[h], y[h]) ||
      (slackMm > 0 && WAYS.some(([ux, uy]) => cover.surelyShows(x[h] - ux * slackMm, y[h] - uy * slackMm)))
    );
  }

  /** Every hole that stays in sight, in sewing order. */
  exposed(holes: Holes, cover: Cover): ExposedHole[] {
    const out: ExposedHole[] = [];
    for (let h = 0; h < holes.count; h++) {
      if (!this.hidden(holes, h, cover)) out.push({ hole: h, gapMm: cover.gapMm(holes.x[h], holes.y[h]) });
    }
    return out;
  }
}

/** Holes in the order in which they are tried, a move-to-front list: what was seen last is likeliest to be seen again. */
export class Suspects {
  /** @param order hole numbers; taken over and put in another order */
  constructor(private readonly order: Int32Array) {}

  /** The first hole that the test shows exposed, or -1. */
  find(isHidden: (hole: number) => boolean): number {
    const { order } = this;
    for (let p = 0; p < order.length; p++) {
      const hole = order[p];
      if (isHidden(hole)) continue;
      this.moveToFront(p);
      return hole;
    }
    return -1;
  }

  /** The first of some holes, spread over all, of which the test holds, or -1; it is tried first from then on. */
  pick(most: number, holds: (hole: number) => boolean): number {
    const { order } = this;
    const stride = Math.max(1, Math.floor(order.length / most));
    for (let p = 0; p < order.length; p += stride) {
      const hole = order[p];
      if (!holds(hole)) continue;
      this.moveToFront(p);
      return hole;
    }
    return -1;
  }

  get first(): number {
    return this.order.length > 0 ? this.order[0] : -1;
  }

  private moveToFront(p: number): void {
    const hole = this.order[p];
    this.order.copyWithin(1, 0, p);
    this.order[0] = hole;
  }
}

/** Largest way off that is looked at, and the steps to it, mm. */
const FURTHEST_OFF_MM = 1;
export const OFF_STEP_MM = 0.1;

/**
 * How far off the second hooping may be, in any of eight directions, with every hole still hidden, mm: to 0.1 mm, at most 1 mm; null where not even an
 * exact hooping hides all.
 */
export function roomMm(holes: Holes, cover: Cover, tests: HoleTests, exposed: number): number | null {
  if (exposed > 0) return null;
  const suspects = new Suspects(everyHole(holes));
  for (let steps = Math.round(FURTHEST_OFF_MM / OFF_STEP_MM); steps > 0; steps--) {
    const off = steps * OFF_STEP_MM;
    if (suspects.find((h) => tests.hiddenWithin(holes, h, cover, off)) < 0) return off;
  }
  return 0;
}
