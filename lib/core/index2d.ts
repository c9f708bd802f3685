import Flatbush from 'flatbush';

/** The library takes none but the classes that there were when it was loaded. */
const Coordinates = Float64Array;

/** Finds boxes (or points: boxes without extent) by place. */
export interface BoxIndex {
  /** Numbers of the boxes that touch the given box, ascending. */
  touching(minX: number, minY: number, maxX: number, maxY: number): number[];
  /** Whether the test holds of any box that touches the given box; boxes after the first of which it holds are not tried. */
  some(minX: number, minY: number, maxX: number, maxY: number, test: (box: number) => boolean): boolean;
  /** Numbers of the boxes nearest to the point, nearest first, at most `count` of them within `reach`. */
  nearest(x: number, y: number, count: number, reach?: number): number[];
}

/**
 * Builds the index.
 *
 * @param boxes four values a box: minX, minY, maxX, maxY; may be empty
 * @throws RangeError on a length that is no multiple of four or a value that is not finite
 */
export function indexBoxes(boxes: ArrayLike<number>): BoxIndex {
  const count = boxes.length / 4;
  if (!Number.isInteger(count)) throw new RangeError(`${boxes.length} values are no whole number of boxes`);
  // the library refuses to be built for nothing
  if (count === 0) return { touching: () => [], some: () => false, nearest: () => [] };
  const tree = new Flatbush(count, undefined, Coordinates);
  for (let i = 0; i < count; i++) {
    const [a, b, c, d] = [boxes[4 * i], boxes[4 * i + 1], boxes[4 * i + 2], boxes[4 * i + 3]];
    if (!Number.isFinite(a + b + c + d)) throw new RangeError(`box ${i} is not finite`);
    tree.add(a, b, c, d);
  }
  tree.finish();
  return {
    touching: (minX, minY, maxX, maxY) => tree.search(minX, minY, maxX, maxY).sort((a, b) => a - b),
    some: (minX, minY, maxX, maxY, test) => {
      let found = false;
      // what the filter turns down is not gathered
      tree.search(minX, minY, maxX, maxY, (box) => {
        found ||= test(box);
        return false;
      });
      return found;
    },
    nearest: (x, y, n, reach) => tree.neighbors(x, y, n, reach),
  };
}
