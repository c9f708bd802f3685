/** One continuous path of needle points through the inner band of a column. */
import { type InnerBand, placeIn } from './inner-band.js';

/** Step in which a leg is traced before it is divided into stitches, mm. */
const TRACE_MM = 0.4;

/** A place in a band: along, mm, and across, −1 to 1. */
export type BandPlace = readonly [s: number, v: number];

export class LayPath {
  private x: number[] = [];
  private y: number[] = [];
  private at: BandPlace | null = null;

  /** @param leastMm no stitch is shorter */
  constructor(
    private readonly band: InnerBand,
    private readonly leastMm: number,
  ) {}

  /** The thread comes from a point that is a needle point already, beside that place of the band. */
  from(x: number, y: number, place: BandPlace): this {
    this.x.push(x);
    this.y.push(y);
    this.at = place;
    return this;
  }

  /** Puts the needle down; from the place before straight on, in stitches of at most `stitchMm`. */
  to(place: BandPlace, stitchMm: number): this {
    if (this.at === null) placeIn(this.band, place[0], place[1], this.x, this.y);
    else this.follow(this.at, place, stitchMm);
    this.at = place;
    return this;
  }

  /** The needle points, mm; with the one that it comes from, if there is one. */
  get points(): { x: Float64Array; y: Float64Array } {
    return { x: Float64Array.from(this.x), y: Float64Array.from(this.y) };
  }

  /** The leg from one place to another, straight in the column's own coordinates, in equal stitches. */
  private follow([s0, v0]: BandPlace, [s1, v1]: BandPlace, stitchMm: number): void {
    const { band, x, y } = this;
    const px = [x[x.length - 1]];
    const py = [y[y.length - 1]];
    const steps = Math.max(1, Math.ceil(Math.abs(s1 - s0) / TRACE_MM));
    for (let k = 1; k <= steps; k++) {
      const t = k / steps;
      placeIn(band, s0 + (s1 - s0) * t, v0 + (v1 - v0) * t, px, py);
    }
    const way = new Float64Array(px.length);
    for (let k = 1; k < px.length; k++) {
      way[k] = way[k - 1] + Math.hypot(px[k] - px[k - 1], py[k] - py[k - 1]);
    }
    const length = way[way.length - 1];
    if (length < this.leastMm) return;
    const count = Math.ceil(length / stitchMm - 1e-6);
    for (let n = 1, k = 1; n <= count; n++) {
      const goal = (length * n) / count;
      while (k < px.length - 1 && way[k] < goal) k++;
      const t = (goal - way[k - 1]) / (way[k] - way[k - 1] || 1);
      this.add(px[k - 1] + (px[k] - px[k - 1]) * t, py[k - 1] + (py[k] - py[k - 1]) * t);
    }
  }

  private add(px: number, py: number): void {
    const last = this.x.length - 1;
    if (Math.hypot(px - this.x[last], py - this.y[last]) < this.leastMm) return;
    this.x.push(px);
    this.y.push(py);
  }
}
