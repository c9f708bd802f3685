import type { Enlargement } from './enlargement.js';

/**
 * How far an outline is moved outward: the same everywhere where growth is the same along x and y, else more in the direction of the
 * greater. In all, an outline is widened by an ellipse whose axes lie along x and y.
 */
export class Allowance {
  private readonly ax: number;
  private readonly ay: number;

  /** @param widthMm the width that grows by the shares of the enlargement, half to each side, mm */
  constructor(by: Enlargement, widthMm: number) {
    this.ax = (Math.abs(by.x) * widthMm) / 2;
    this.ay = (Math.abs(by.y) * widthMm) / 2;
  }

  /** Furthest that any edge moves, mm. */
  get most(): number {
    return Math.max(this.ax, this.ay);
  }

  /** How far an edge moves whose outward unit normal is given, mm. */
  outward(nx: number, ny: number): number {
    return Math.hypot(nx * this.ax, ny * this.ay);
  }

  /**
   * How far the widened place of a point reaches along a direction on a line that passes the point at a distance.
   *
   * @param ux, uy unit direction; `off` the distance, mm, along its left normal
   * @returns null where the line passes beyond reach
   */
  along(ux: number, uy: number, off: number): number | null {
    // a growth of nothing along one axis leaves the ellipse a line: a hair's breadth keeps it whole
    const [ax, ay] = [Math.max(this.ax, 1e-6), Math.max(this.ay, 1e-6)];
    const [px, py] = [ux / ax, uy / ay];
    const [qx, qy] = [(-uy * off) / ax, (ux * off) / ay];
    const a = px * px + py * py;
    const b = px * qx + py * qy;
    const root = b * b - a * (qx * qx + qy * qy - 1);
    return root < 0 ? null : (Math.sqrt(root) - b) / a;
  }
}
