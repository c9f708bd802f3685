import { type NeedleCells, slotOf } from './needle-cells.js';

/** A circle and the points in it. */
export interface Pile {
  points: number;
  x: number;
  y: number;
  /** The last of its points, as the cells number them; −1 for none. */
  last: number;
}

/** Points exactly as far apart as the circle is wide are both in it, whatever the last digits say, mm. */
const SLACK_MM = 1e-6;

/**
 * Looks for the circle, as wide as a cell, that holds the most points around a cell.
 *
 * The search is exact where it can be afforded: a fullest circle has a point in its middle or two on its edge. Beyond
 * that, where hundreds of points are crowded everywhere, the circle moves three times to the middle of the points that
 * it holds. What it is said to hold it holds in either case.
 */
export class CircleSearch {
  private readonly near = new Int32Array(9);
  private readonly spots: Pile[] = [];

  /** @param work circles times points that may be looked at exactly, over all cells together */
  constructor(
    private readonly cells: NeedleCells,
    private work: number,
  ) {}

  /** The fullest circle around a cell, or null where it cannot hold more than `most`. */
  around(slot: number, most: number): Pile | null {
    if (this.fullestBlock(slot) <= most) return null;
    this.findSpots();
    const cost = this.spots.length ** 3;
    if (cost > this.work) return this.drift(slot);
    this.work -= cost;
    return this.fullest();
  }

  /** Finds the cell's neighbours; returns the most points in a block of two by two cells that it is part of. */
  private fullestBlock(slot: number): number {
    const { head, size, x, y, cellMm } = this.cells;
    const { near } = this;
    const i = Math.floor(x[head[slot]] / cellMm);
    const j = Math.floor(y[head[slot]] / cellMm);
    for (let k = 0; k < 9; k++) near[k] = slotOf(this.cells, i - 1 + (k % 3), j - 1 + Math.floor(k / 3));
    const n = (k: number) => size[near[k]];
    return Math.max(
      n(0) + n(1) + n(3) + n(4),
      n(1) + n(2) + n(4) + n(5),
      n(3) + n(4) + n(6) + n(7),
      n(4) + n(5) + n(7) + n(8),
    );
  }

  /** Puts points of one and the same place together. */
  private findSpots(): void {
    const { head, next, x, y } = this.cells;
    this.spots.length = 0;
    for (const cell of this.near) {
      const first = this.spots.length;
      for (let k = head[cell]; k >= 0; k = next[k]) {
        let s = first;
        while (s < this.spots.length && (this.spots[s].x !== x[k] || this.spots[s].y !== y[k])) s++;
        if (s === this.spots.length) this.spots.push({ points: 1, x: x[k], y: y[k], last: k });
        else this.spots[s].points++;
      }
    }
  }

  private fullest(): Pile {
    const { spots } = this;
    const radius = this.cells.cellMm / 2;
    let best: Pile = { points: 0, x: 0, y: 0, last: -1 };
    const tryAt = (x: number, y: number) => {
      const pile = this.held(x, y);
      if (pile.points > best.points) best = pile;
    };
    for (let a = 0; a < spots.length; a++) {
      tryAt(spots[a].x, spots[a].y);
      for (let b = 0; b < a; b++) {
        const dx = spots[a].x - spots[b].x;
        const dy = spots[a].y - spots[b].y;
        const d = Math.sqrt(dx * dx + dy * dy);
        // The square of a distance can come out as nothing: then they are one place, and there is no line through both.
        if (d === 0 || d > 2 * (radius + SLACK_MM)) continue;
        const mx = (spots[a].x + spots[b].x) / 2;
        const my = (spots[a].y + spots[b].y) / 2;
        const h = Math.sqrt(Math.max(0, radius * radius - (d * d) / 4)) / d;
        tryAt(mx - h * dy, my + h * dx);
        tryAt(mx + h * dy, my - h * dx);
      }
    }
    return best;
  }

  private drift(slot: number): Pile {
    const { head, next, size, x, y } = this.cells;
    let cx = 0;
    let cy = 0;
    for (let k = head[slot]; k >= 0; k = next[k]) {
      cx += x[k] / size[slot];
      cy += y[k] / size[slot];
    }
    let best = this.held(cx, cy);
    for (let step = 0; step < 3; step++) {
      const { x: mx, y: my } = this.middleOf(best);
      const moved = this.held(mx, my);
      if (moved.points <= best.points) break;
      best = moved;
    }
    return best;
  }

  private held(x: number, y: number): Pile {
    const reach2 = (this.cells.cellMm / 2 + SLACK_MM) ** 2;
    let points = 0;
    let last = -1;
    for (const spot of this.spots) {
      if ((spot.x - x) ** 2 + (spot.y - y) ** 2 > reach2) continue;
      points += spot.points;
      if (spot.last > last) last = spot.last;
    }
    return { points, x, y, last };
  }

  /** Middle of the points in a circle. */
  private middleOf({ points, x, y }: Pile): { x: number; y: number } {
    const reach2 = (this.cells.cellMm / 2 + SLACK_MM) ** 2;
    let sumX = 0;
    let sumY = 0;
    for (const spot of this.spots) {
      if ((spot.x - x) ** 2 + (spot.y - y) ** 2 > reach2) continue;
      sumX += (spot.x - x) * spot.points;
      sumY += (spot.y - y) * spot.points;
    }
    return points > 0 ? { x: x + sumX / points, y: y + sumY / points } : { x, y };
  }
}
