/** An upright box, mm. */
export interface Bounds {
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/** The box that holds nothing: every point grows it. */
export function emptyBounds(): Bounds {
  return { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
}

/** Grows a box to hold a point. */
export function growBounds(box: Bounds, x: number, y: number): void {
  if (x < box.minX) box.minX = x;
  if (x > box.maxX) box.maxX = x;
  if (y < box.minY) box.minY = y;
  if (y > box.maxY) box.maxY = y;
}

/** Share of box `a` that lies within box `b` grown by `margin` mm on all sides, from 0 to 1. */
export function shareWithin(a: Bounds, b: Bounds, margin: number): number {
  const overlap = (low: number, high: number, from: number, to: number) => {
    const span = Math.max(high - low, 1e-9);
    return Math.max(0, Math.min(high, to + margin) - Math.max(low, from - margin)) / span;
  };
  return overlap(a.minX, a.maxX, b.minX, b.maxX) * overlap(a.minY, a.maxY, b.minY, b.maxY);
}

/** Whether a point lies in a box grown by `margin` mm. */
export function holds(box: Bounds, x: number, y: number, margin: number): boolean {
  return x >= box.minX - margin && x <= box.maxX + margin && y >= box.minY - margin && y <= box.maxY + margin;
}

/** A box larger by `margin` mm on all sides. */
export function grownBy({ minX, minY, maxX, maxY }: Bounds, margin: number): Bounds {
  return { minX: minX - margin, minY: minY - margin, maxX: maxX + margin, maxY: maxY + margin };
}

/** Boxes larger by `margin` mm on all sides, four values a box: for what is asked of many boxes at every stitch. */
export function packed(boxes: readonly Bounds[], margin: number): Float64Array {
  const out = new Float64Array(4 * boxes.length);
  boxes.forEach((box, k) => {
    const { minX, minY, maxX, maxY } = grownBy(box, margin);
    out.set([minX, minY, maxX, maxY], 4 * k);
  });
  return out;
}

/** Whether box `k` of {@link packed} ones holds a point. */
export function packedHolds(boxes: Float64Array, k: number, x: number, y: number): boolean {
  const b = 4 * k;
  return x >= boxes[b] && y >= boxes[b + 1] && x <= boxes[b + 2] && y <= boxes[b + 3];
}

/** Whether two boxes have a point in common. */
export const overlap = (a: Bounds, b: Bounds): boolean =>
  a.minX <= b.maxX && a.maxX >= b.minX && a.minY <= b.maxY && a.maxY >= b.minY;

/** The box around two boxes. */
export const union = (a: Bounds, b: Bounds): Bounds => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});

/** The middle of a box. */
export const middleOf = ({ minX, minY, maxX, maxY }: Bounds): { x: number; y: number } => ({
  x: (minX + maxX) / 2,
  y: (minY + maxY) / 2,
});
