/** Finds the tops that lie near a place and are sewn later, soonest first. */
import { type Bounds, grownBy } from '../core/bounds.js';
import { PlacedBoxes } from '../core/placed-boxes.js';
import { FINDER } from './parameters.js';
import type { Top } from './tops.js';

const REACH_MM = FINDER.aboveReach.value;

/** Tops put in from the last to the first, by place. */
export class Above {
  private readonly tops: Top[] = [];
  private readonly boxes = new PlacedBoxes();

  add(top: Top): void {
    this.tops.push(top);
    this.boxes.add(top.bounds);
  }

  /** At most `most` of the tops whose box comes near the box, those sewn soonest first. */
  over(box: Bounds, most: number): Top[] {
    const near: number[] = [];
    this.boxes.some(grownBy(box, REACH_MM), (number) => near.push(number) < 0, most);
    return near
      .sort((a, b) => b - a)
      .slice(0, most)
      .map((number) => this.tops[number]);
  }
}
