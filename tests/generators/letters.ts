import { ellipse, rounded, segment } from './curve.js';
import { type Vec, vec } from './plane.js';

/** One stroke of a letter: its centre line. `closed` for a ring. */
export interface Stroke {
  line: Vec[];
  closed: boolean;
}

const open = (line: Vec[]): Stroke => ({ line, closed: false });
const straight = (x1: number, y1: number, x2: number, y2: number): Stroke =>
  open(segment(vec(x1, y1), vec(x2, y2)).points());
const bent = (corners: [number, number][], radius: number): Stroke =>
  open(
    rounded(
      corners.map(([x, y]) => vec(x, y)),
      radius,
    ),
  );

/** Width of a letter as a part of its height. */
export function letterWidth(letter: string): number {
  if ('MW'.includes(letter)) return 0.95;
  if ('ILJ'.includes(letter)) return letter === 'I' ? 0 : 0.5;
  if ('OQDGCU'.includes(letter)) return 0.74;
  return 0.64;
}

/**
 * A small block alphabet as strokes, in the order of writing. `w`, `h`: outer size; `t`: stroke width; `lap`: how far a
 * stroke that butts against another reaches into it. Lines are centre lines, so they keep half a stroke from the box.
 */
export function strokes(letter: string, w: number, h: number, t: number, lap: number): Stroke[] {
  const a = t / 2;
  const r = w - a;
  const top = h - a;
  const mid = h / 2;
  // Where a stroke that leaves an upright begins: at its edge, reaching in by the lap.
  const edge = t - lap;
  const stem = straight(a, 0, a, h);
  const bowl = (low: number, high: number, right: number): Stroke =>
    bent(
      [
        [edge, high],
        [right, high],
        [right, low],
        [edge, low],
      ],
      (high - low) / 2,
    );
  const drop = (x1: number, y1: number, x2: number, y2: number) => straight(x1, y1, x2, y2);
  switch (letter) {
    case 'A':
      return [
        drop(a, 0, w / 2, h),
        drop(w / 2, h, r, 0),
        straight(w * 0.25 + a * 0.6, h * 0.3, w * 0.75 - a * 0.6, h * 0.3),
      ];
    case 'B':
      return [stem, bowl(mid + a * 0.6, top, r - t * 0.15), bowl(a, mid - a * 0.6, r)];
    case 'C':
      return [open(ellipse(vec(w / 2, mid), w / 2 - a, mid - a, 0.75, 2 * Math.PI - 0.75))];
    case 'D':
      return [
        stem,
        bent(
          [
            [edge, top],
            [r, top],
            [r, a],
            [edge, a],
          ],
          w * 0.5,
        ),
      ];
    case 'E':
      return [stem, straight(edge, top, w, top), straight(edge, mid, w * 0.9, mid), straight(edge, a, w, a)];
    case 'F':
      return [stem, straight(edge, top, w, top), straight(edge, mid, w * 0.88, mid)];
    case 'G':
      return [
        open(ellipse(vec(w / 2, mid), w / 2 - a, mid - a, 0.8, 2 * Math.PI - 0.25)),
        straight(w * 0.52, h * 0.42, w - lap, h * 0.42),
      ];
    case 'H':
      return [stem, straight(r, 0, r, h), straight(edge, mid, w - edge, mid)];
    case 'I':
      return [straight(a, 0, a, h)];
    case 'J':
      return [
        bent(
          [
            [r, h],
            [r, a],
            [a, a],
            [a, h * 0.3],
          ],
          (w - t) / 2,
        ),
      ];
    case 'K':
      return [stem, drop(edge, h * 0.42, r, h), drop(w * 0.5, h * 0.55, r, 0)];
    case 'L':
      return [stem, straight(edge, a, w, a)];
    case 'M':
      return [
        stem,
        drop(a + t * 0.4, h, w / 2, h * 0.25),
        drop(w / 2, h * 0.25, r - t * 0.4, h),
        straight(r, h, r, 0),
      ];
    case 'N':
      return [stem, drop(a + t * 0.2, h, r - t * 0.2, 0), straight(r, 0, r, h)];
    case 'O':
      return [{ line: ellipse(vec(w / 2, mid), w / 2 - a, mid - a).slice(0, -1), closed: true }];
    case 'P':
      return [stem, bowl(mid - a, top, r)];
    case 'Q':
      return [
        { line: ellipse(vec(w / 2, mid), w / 2 - a, mid - a).slice(0, -1), closed: true },
        drop(w * 0.58, h * 0.3, w, 0),
      ];
    case 'R':
      return [stem, bowl(mid - a, top, r), drop(w * 0.48, mid - a - t * 0.3, r, 0)];
    case 'S':
      return [
        bent(
          [
            [w * 0.95, top],
            [a, top],
            [a, mid],
            [r, mid],
            [r, a],
            [w * 0.05, a],
          ],
          (mid - a) / 2,
        ),
      ];
    case 'T':
      return [straight(0, top, w, top), straight(w / 2, h - edge, w / 2, 0)];
    case 'U':
      return [
        bent(
          [
            [a, h],
            [a, a],
            [r, a],
            [r, h],
          ],
          (w - t) / 2,
        ),
      ];
    case 'V':
      return [drop(a, h, w / 2, 0), drop(w / 2, 0, r, h)];
    case 'W':
      return [
        drop(a, h, w * 0.28, 0),
        drop(w * 0.28, 0, w / 2, h * 0.8),
        drop(w / 2, h * 0.8, w * 0.72, 0),
        drop(w * 0.72, 0, r, h),
      ];
    case 'X':
      return [drop(a, h, r, 0), drop(a, 0, r, h)];
    case 'Y':
      return [
        drop(a, h, w / 2, mid * 0.95),
        drop(r, h, w / 2, mid * 0.95),
        straight(w / 2, mid + lap, w / 2, 0),
      ];
    case 'Z':
      return [straight(0, top, w, top), drop(r - t * 0.2, h - edge, a + t * 0.2, edge), straight(0, a, w, a)];
    default:
      throw new Error(`No strokes for ${letter}`);
  }
}

export const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
