import { type Bounds, grownBy } from '../core/bounds.js';
import { type BoxIndex, indexBoxes } from '../core/index2d.js';
import { memoize } from '../core/memoize.js';
import { UNITS_PER_MM } from '../format/dst-record.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { CoveringObject, UNEVEN_MM } from './covering-object.js';
import type { Growing } from './enlargement.js';
import { asWritten } from './resew-written.js';

/** What the top stitching of a design hides: a hole beneath it is a place, mm. */
export interface Cover {
  /** Whether a thread of top stitching passes within half a thread width of the place. */
  underThread(x: number, y: number): boolean;
  /** Whether the place is under a thread, or inside a column or fill whose lines are at most a thread width apart and no farther from one than the step of a file beyond its edge. */
  hides(x: number, y: number): boolean;
  /** Whether the place is in sight for sure, told by where objects lie and without laying any; where this says no it may be in sight all the same. */
  surelyShows(x: number, y: number): boolean;
  /** From the place to the nearest edge of a thread of top stitching, mm; null where there is no such thread. */
  gapMm(x: number, y: number): number | null;
}

/**
 * The cover of a design. Underlay, ties and travel between objects hide nothing: they are not to be seen, nor to be relied on.
 * Making it is linear in the stitches; a query looks at the threads near the place alone.
 *
 * @param threadMm width of fabric that one thread covers
 */
export function coverOf(stitches: Stitches, objects: readonly StitchObject[], threadMm: number): Cover {
  const covering = objects.map((object) => new CoveringObject(stitches, object, threadMm));
  return coverFrom(
    covering.map(({ bounds }) => bounds),
    (k) => covering[k],
    () => true,
    threadMm,
  );
}

/**
 * The cover of a design of which an object is only laid when a place is asked about that it may lie over.
 *
 * @param count of its objects; it says of places what {@link coverOf} says of the whole as its file holds it
 */
export function coverOfGrowing(growing: Growing, count: number, threadMm: number): Cover {
  const covering = memoize((k: number) => {
    const { stitches, objects } = asWritten(growing.alone(k));
    return new CoveringObject(stitches, objects[0], threadMm);
  });
  return coverFrom(
    Array.from({ length: count }, (_, k) => grownBy(growing.reach(k), STEP_MM)),
    covering,
    (k, x, y, reach) => growing.mayHold(k, x, y, reach + ROUNDED_MM),
    threadMm,
  );
}

/**
 * @param boxes each holds the needle points of one object; `minX` above `maxX` where it lays no thread
 * @param mayHold whether an object may have a thread within reach of a place; where not it is not asked for
 */
function coverFrom(
  boxes: readonly Bounds[],
  objectAt: (k: number) => CoveringObject,
  mayHold: Growing['mayHold'],
  threadMm: number,
): Cover {
  const half = threadMm / 2;
  const enclosedWithin = half + UNEVEN_MM;
  const laying = boxes.flatMap(({ minX, maxX }, k) => (maxX >= minX ? [k] : []));
  const index: BoxIndex = indexBoxes(
    laying.flatMap((k) => [boxes[k].minX, boxes[k].minY, boxes[k].maxX, boxes[k].maxY]),
  );
  const any = (x: number, y: number, reach: number, test: (object: CoveringObject) => boolean) =>
    index.some(
      x - reach,
      y - reach,
      x + reach,
      y + reach,
      (k) => mayHold(laying[k], x, y, reach) && test(objectAt(laying[k])),
    );
  const most = Math.max(half + SAFE_MM, enclosedWithin);
  const underThread = (x: number, y: number) =>
    any(x, y, half + SAFE_MM, (object) => object.threadWithin(x, y, half));
  return {
    underThread,
    hides: (x, y) => underThread(x, y) || any(x, y, enclosedWithin, (object) => object.encloses(x, y)),
    surelyShows: (x, y) =>
      !index.some(x - most, y - most, x + most, y + most, (k) => mayHold(laying[k], x, y, most)),
    gapMm: (x, y) => {
      if (laying.length === 0) return null;
      for (let reach = 2 * threadMm; ; reach *= 2) {
        let least = Number.POSITIVE_INFINITY;
        any(x, y, reach, (object) => {
          least = Math.min(least, object.nearestThread(x, y, Math.min(reach, least)));
          return false;
        });
        if (least <= reach) return Math.max(0, least - half);
      }
    },
  };
}

/** Objects that only touch the reach of a thread by the last digit are asked as well, mm. */
const SAFE_MM = 1e-6;
/** The step of a file: a rounded place is off by half of it along each axis at most. */
const STEP_MM = 1 / UNITS_PER_MM;
const ROUNDED_MM = STEP_MM * Math.SQRT1_2;
