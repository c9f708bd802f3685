/** Points and paths in the plane, mm, Y up. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export const point = (x: number, y: number): Point => ({ x, y });

export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

export const between = (a: Point, b: Point, t: number): Point => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});

/** The point at `step` mm from `from` in the direction of `to`; `from` itself where the two coincide. */
export function toward(from: Point, to: Point, step: number): Point {
  const d = distance(from, to);
  return d === 0 ? from : between(from, to, step / d);
}

/** Running length at every point of a path, starting with 0. */
export function lengthsAlong(path: readonly Point[]): number[] {
  const along = [0];
  for (let i = 1; i < path.length; i++) along.push(along[i - 1] + distance(path[i - 1], path[i]));
  return along;
}

/** The place at length `s` of a path whose running lengths are `along`; clamped to its ends. */
export function placeAt(path: readonly Point[], along: readonly number[], s: number): Point {
  let low = 0;
  let high = along.length - 1;
  if (s <= 0) return path[0];
  if (s >= along[high]) return path[high];
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if (along[mid] <= s) low = mid;
    else high = mid;
  }
  const span = along[high] - along[low];
  return between(path[low], path[high], span === 0 ? 0 : (s - along[low]) / span);
}

/** `count` + 1 points at equal lengths along a path, both ends included. */
export function evenly(path: readonly Point[], count: number): Point[] {
  const along = lengthsAlong(path);
  const total = along[along.length - 1];
  return Array.from({ length: count + 1 }, (_, i) => placeAt(path, along, (total * i) / count));
}

/** Points at equal lengths of about `step` mm and no more, both ends included. */
export function stepped(path: readonly Point[], step: number): Point[] {
  const along = lengthsAlong(path);
  return evenly(path, Math.max(1, Math.ceil(along[along.length - 1] / step - 1e-9)));
}

/** Part of an ellipse, angles in degrees counter-clockwise from +X, dense enough to sew from. */
export function arc(centre: Point, rx: number, ry: number, fromDeg: number, toDeg: number): Point[] {
  const count = Math.max(8, Math.ceil((Math.abs(toDeg - fromDeg) / 360) * (Math.max(rx, ry) * 16 + 32)));
  return Array.from({ length: count + 1 }, (_, i) => {
    const a = ((fromDeg + ((toDeg - fromDeg) * i) / count) * Math.PI) / 180;
    return { x: centre.x + rx * Math.cos(a), y: centre.y + ry * Math.sin(a) };
  });
}

/** A cubic Bézier curve as a path. */
export function curve(a: Point, b: Point, c: Point, d: Point, count = 60): Point[] {
  return Array.from({ length: count + 1 }, (_, i) => {
    const t = i / count;
    const u = 1 - t;
    const [p, q, r, s] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return { x: p * a.x + q * b.x + r * c.x + s * d.x, y: p * a.y + q * b.y + r * c.y + s * d.y };
  });
}

/** A path that swings like a wave: `height` mm to each side of the line y, one crest every `length` mm. */
export function wave(x0: number, x1: number, y: number, height: number, length: number, phase = 0): Point[] {
  const count = Math.ceil(Math.abs(x1 - x0) / 0.25);
  return Array.from({ length: count + 1 }, (_, i) => {
    const x = x0 + ((x1 - x0) * i) / count;
    return { x, y: y + height * Math.sin((2 * Math.PI * x) / length + phase) };
  });
}

/** Where a drawing is put: turned by `turnDeg` about its own origin, then moved to `at`. */
export interface Placing {
  readonly at: Point;
  readonly turnDeg: number;
}

export function placed(p: Point, placing: Placing): Point {
  const a = (placing.turnDeg * Math.PI) / 180;
  return {
    x: placing.at.x + p.x * Math.cos(a) - p.y * Math.sin(a),
    y: placing.at.y + p.x * Math.sin(a) + p.y * Math.cos(a),
  };
}

export const mirrored = (path: readonly Point[]): Point[] => path.map((p) => ({ x: -p.x, y: p.y }));
