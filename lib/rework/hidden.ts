/** What the top stitching of a design hides, object by object; made where it is asked about. */
import { type BoxIndex, indexBoxes } from '../core/index2d.js';
import { boundsOf } from '../format/extent.js';
import type { Stitches } from '../format/stitches.js';
import type { ProvenObject } from './proof.js';
import { Surface, Threads } from './surface.js';
import { SQUARE_MM } from './thread-grid.js';

/** A place itself and four beside it. */
const AROUND = [
  [0, 0],
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

export class Hidden {
  private readonly index: BoxIndex;
  private readonly surfaces = new Map<number, Surface>();
  /** The object that hid the place asked about last: the next place mostly lies beneath it as well. */
  private last = -1;

  constructor(
    private readonly stitches: Stitches,
    private readonly objects: readonly ProvenObject[],
  ) {
    this.index = indexBoxes(
      objects.flatMap(({ range }) => {
        const { minX, minY, maxX, maxY } = boundsOf(stitches, range[0], range[1]);
        return [minX, minY, maxX, maxY];
      }),
    );
  }

  /** The surface of the object at place `k` of the list. */
  surface(k: number): Surface {
    let surface = this.surfaces.get(k);
    if (!surface) {
      const { range } = this.objects[k];
      surface = new Surface(new Threads().add(this.stitches, range[0], range[1]));
      this.surfaces.set(k, surface);
    }
    return surface;
  }

  /** The object, by its place in the list, that hides a place and is sewn later than a needle point; −1 where none does. */
  by(x: number, y: number, since: number, may: (k: number) => boolean = () => true): number {
    const hides = (k: number) => this.objects[k].range[0] > since && may(k) && this.surface(k).hides(x, y);
    if (this.last >= 0 && hides(this.last)) return this.last;
    let found = -1;
    this.index.some(x - SQUARE_MM, y - SQUARE_MM, x + SQUARE_MM, y + SQUARE_MM, (k) => {
      if (!hides(k)) return false;
      found = k;
      return true;
    });
    if (found >= 0) this.last = found;
    return found;
  }

  /** Objects, by their places in the list, whose box touches that of one. */
  touching(k: number): number[] {
    const { minX, minY, maxX, maxY } = boundsOf(this.stitches, ...this.objects[k].range);
    return this.index.touching(minX, minY, maxX, maxY);
  }

  /** Whether a place lies hidden so, or no farther than this beside what hides it, mm. */
  near(x: number, y: number, since: number, besideMm: number): boolean {
    return AROUND.some(([dx, dy]) => this.by(x + dx * besideMm, y + dy * besideMm, since) >= 0);
  }
}
