/** Threads by the place where they lie, and the surface that some of them make together: what cannot be seen beneath them. */
import { type Bounds, emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { memoize } from '../core/memoize.js';
import { Break, type Stitches } from '../format/stitches.js';
import { SQUARE_MM, squareOf, ThreadGrid, type Window } from './thread-grid.js';

/** Width of fabric that a thread of the usual weight (40) covers, mm (common practice, no source). */
export const THREAD_MM = 0.4;
/** Edge of a tile, in squares. */
const TILE = 128;
/** Threads as far as this from a tile are drawn with it, in squares: no radius may reach farther. */
const MARGIN = 31;
/** Threads are looked for at the side of a thread up to this far, mm: farther apart they make no surface. */
const LOOKED_MM = 3;
/** Places of threads at which that is done, and where along them. */
const LOOKED_AT = 240;
const ALONG = [0.1, 0.5, 0.9];
/** A thread by itself takes this many squares to either side. */
const OWN = 1.5;
/** If fewer of the looks find a thread it is a line rather than a surface. */
const LEAST_FOUND = 0.5;
/** So many of the looks that found one found it no farther. */
const MOST_FOUND = 0.9;

/** How the places of a design are moved, if at all. */
export type Carry = (x: number, y: number) => readonly [x: number, y: number];

/** Threads of a design, found by the tile that they lie in or near. Making it is linear in the thread. */
export class Threads {
  readonly bounds: Bounds = emptyBounds();
  private readonly ends: number[] = [];
  private readonly tiles = new Map<number, number[]>();

  /** Adds the threads between needle points `first` and `last` that the machine has not cut. */
  add({ x, y, breakBefore, count }: Stitches, first: number, last: number, carry: Carry | null = null): this {
    const place = (i: number) => (carry ? carry(x[i], y[i]) : ([x[i], y[i]] as const));
    for (let i = Math.max(first, 0) + 1; i <= last && i < count; i++) {
      if (breakBefore[i] < Break.trim) this.addThread(...place(i - 1), ...place(i));
    }
    return this;
  }

  get count(): number {
    return this.ends.length / 4;
  }

  /** Tiles that some square of the threads' box lies in, as windows; none where there are no threads. */
  *windows(): Generator<Window> {
    if (this.count === 0) return;
    const { minX, minY, maxX, maxY } = this.bounds;
    for (const key of this.tiles.keys()) {
      const tile = tileWindow(key);
      const beside = squareOf(maxX) < tile.x || squareOf(minX) >= tile.x + tile.width;
      const below = squareOf(maxY) < tile.y || squareOf(minY) >= tile.y + tile.height;
      if (!beside && !below) yield tile;
    }
  }

  /** The threads in and around a tile, as squares. */
  drawn(tile: Window, within: Bounds = this.bounds): ThreadGrid {
    const grid = new ThreadGrid(around(tile, within));
    const { ends } = this;
    for (const k of this.tiles.get(keyOf(tile.x / TILE, tile.y / TILE)) ?? []) {
      grid.draw(ends[k], ends[k + 1], ends[k + 2], ends[k + 3]);
    }
    return grid;
  }

  /** Some of the threads, evenly along them. */
  *some(count: number): Generator<readonly [ax: number, ay: number, bx: number, by: number]> {
    const step = Math.max(1, this.count / count);
    for (let at = 0; at < this.count; at += step) {
      const k = 4 * Math.floor(at);
      yield [this.ends[k], this.ends[k + 1], this.ends[k + 2], this.ends[k + 3]];
    }
  }

  private addThread(ax: number, ay: number, bx: number, by: number): void {
    growBounds(this.bounds, ax, ay);
    growBounds(this.bounds, bx, by);
    // a long one is put down in parts, so that it is in no tile that it is far from
    const parts = Math.ceil(distance(ax, ay, bx, by) / (TILE * SQUARE_MM)) || 1;
    const at = (k: number): [number, number] =>
      k === parts ? [bx, by] : [ax + ((bx - ax) * k) / parts, ay + ((by - ay) * k) / parts];
    for (let k = 0; k < parts; k++) {
      const [[px, py], [qx, qy]] = [at(k), at(k + 1)];
      const n = this.ends.push(px, py, qx, qy) - 4;
      const tile = (mm: number, margin: number) => Math.floor((squareOf(mm) + margin) / TILE);
      for (let ty = tile(Math.min(py, qy), -MARGIN); ty <= tile(Math.max(py, qy), MARGIN); ty++) {
        for (let tx = tile(Math.min(px, qx), -MARGIN); tx <= tile(Math.max(px, qx), MARGIN); tx++) {
          const key = keyOf(tx, ty);
          const list = this.tiles.get(key);
          if (list) list.push(n);
          else this.tiles.set(key, [n]);
        }
      }
    }
  }
}

/** Places that lie near some threads. */
export class NearThreads {
  private readonly near = new Map<number, ThreadGrid>();
  private readonly threads: () => Threads;

  /** @param threads asked for once, when the first place is */
  constructor(
    threads: () => Threads,
    private readonly withinMm: number,
  ) {
    let made: Threads | null = null;
    this.threads = () => (made ??= threads());
  }

  holds(x: number, y: number): boolean {
    const key = tileAt(x, y);
    let grid = this.near.get(key);
    if (!grid) {
      grid = this.threads()
        .drawn(tileWindow(key))
        .grown(this.withinMm / SQUARE_MM);
      this.near.set(key, grid);
    }
    return grid.has(squareOf(x), squareOf(y));
  }
}

/** What threads of one object cover: themselves, and what lies between neighbors that are as near as they are for the most part. */
export class Surface {
  /** How far neighboring threads lie apart where they lie apart most, mm; 0 for a line, that has no neighbors. */
  readonly apartMm: number;
  private readonly covers = new Map<number, { surface: ThreadGrid; seenThrough: ThreadGrid }>();

  constructor(readonly threads: Threads) {
    this.apartMm = apartMm(threads);
  }

  /** The surface in a tile, with the gaps closed that are narrower than twice the radius, mm. */
  closedIn(tile: Window, radiusMm: number): ThreadGrid {
    return this.threads.drawn(tile).closed(radiusMm / SQUARE_MM);
  }

  /** Whether a place lies beneath the surface, or no more than one step of the file beside it. */
  hides(x: number, y: number): boolean {
    return this.at(x, y).surface.has(squareOf(x), squareOf(y));
  }

  /** Whether a place beneath the surface shows between its threads all the same. */
  showsThrough(x: number, y: number): boolean {
    return this.at(x, y).seenThrough.has(squareOf(x), squareOf(y));
  }

  private at(x: number, y: number): { surface: ThreadGrid; seenThrough: ThreadGrid } {
    const key = tileAt(x, y);
    let found = this.covers.get(key);
    if (!found) {
      const drawn = this.threads.drawn(tileWindow(key));
      const radiusMm = Math.min(1, Math.max(THREAD_MM, 1.25 * this.apartMm));
      const surface = drawn.closed(radiusMm / SQUARE_MM).grown(1);
      found = {
        surface,
        seenThrough: surface.without(drawn.grown(THREAD_MM / 2 / SQUARE_MM + 0.5)),
      };
      this.covers.set(key, found);
    }
    return found;
  }
}

/** Tiles are numbered so that no two within thirty meters of the origin share a number. */
const ROW_OF_TILES = 1 << 20;
const keyOf = (tx: number, ty: number): number =>
  (ty + ROW_OF_TILES / 2) * ROW_OF_TILES + tx + ROW_OF_TILES / 2;

const tileAt = (x: number, y: number): number =>
  keyOf(Math.floor(squareOf(x) / TILE), Math.floor(squareOf(y) / TILE));

function tileWindow(key: number): Window {
  const ty = Math.floor(key / ROW_OF_TILES) - ROW_OF_TILES / 2;
  const tx = (key % ROW_OF_TILES) - ROW_OF_TILES / 2;
  return { x: tx * TILE, y: ty * TILE, width: TILE, height: TILE };
}

/** A tile with its margin, without what lies farther than the margin from a box. */
function around(tile: Window, { minX, minY, maxX, maxY }: Bounds): Window {
  const x = Math.max(tile.x, squareOf(minX)) - MARGIN;
  const y = Math.max(tile.y, squareOf(minY)) - MARGIN;
  const endX = Math.min(tile.x + tile.width, squareOf(maxX) + 1) + MARGIN;
  const endY = Math.min(tile.y + tile.height, squareOf(maxY) + 1) + MARGIN;
  return { x, y, width: Math.max(0, endX - x), height: Math.max(0, endY - y) };
}

/** Looks from some threads to both sides for the next. */
function apartMm(threads: Threads): number {
  const found: number[] = [];
  let looks = 0;
  const gridAt = memoize((key: number) => threads.drawn(tileWindow(key)));
  for (const [ax, ay, bx, by] of threads.some(LOOKED_AT)) {
    const length = distance(ax, ay, bx, by);
    if (length === 0) continue;
    const [nx, ny] = [-(by - ay) / length, (bx - ax) / length];
    for (const share of ALONG) {
      const [x, y] = [ax + (bx - ax) * share, ay + (by - ay) * share];
      const grid = gridAt(tileAt(x, y));
      for (const side of [-1, 1]) {
        looks++;
        const at = nextThread(grid, x, y, side * nx, side * ny);
        if (at !== null) found.push(at);
      }
    }
  }
  if (found.length === 0 || found.length < LEAST_FOUND * looks) return 0;
  found.sort((a, b) => a - b);
  return found[Math.floor(MOST_FOUND * (found.length - 1))];
}

function nextThread(grid: ThreadGrid, x: number, y: number, nx: number, ny: number): number | null {
  for (let d = OWN * SQUARE_MM; d <= LOOKED_MM; d += SQUARE_MM / 2) {
    if (grid.has(squareOf(x + nx * d), squareOf(y + ny * d))) return d;
  }
  return null;
}
