/** Stitches drawn as thread into pixels: for large designs many times faster than by way of SVG, and with rounder threads. */
import { Break, type Stitches } from '../../format/stitches.js';
import { MOST_DRAWN } from '../stitch-path.js';
import { lighter, type Rgb } from './thread-colors.js';
import { DIRECTIONS, dimmed, directionTo, LOOKS, SIDES_MM, TWIST_MM } from './thread-picture.js';

/** Three bytes a pixel, row by row from the top. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Where the design lies in the pixels. */
export interface Placed {
  readonly perMm: number;
  /** Pixels of the design's origin from the left and the top edge. */
  readonly originX: number;
  readonly originY: number;
}

/** Steps of shade from the middle of a thread to its side. */
const ACROSS = 16;

/** Colors of a thread in one direction: from the middle of its top outward, on and off a mark of its twist. */
type Shades = Uint8Array;

function shadesOf(color: Rgb, direction: number): Shades {
  const { sides, body, top } = LOOKS[direction];
  const base = dimmed(color);
  const shades = new Uint8Array(2 * ACROSS * 3);
  for (let mark = 0; mark < 2; mark++)
    for (let k = 0; k < ACROSS; k++) {
      const off = k / (ACROSS - 1);
      // Round: lit along the top, darker where it turns away.
      const light =
        body + (mark === 0 ? top - body : 0) * Math.max(0, 1 - 3 * off) + (sides - body) * off ** 3;
      const { r, g, b } = lighter(base, light);
      shades.set([Math.round(r), Math.round(g), Math.round(b)], 3 * (mark * ACROSS + k));
    }
  return shades;
}

/**
 * Draws the stitches over what the pixels hold. Linear in the area of thread; what lies outside is cut off.
 *
 * @param colorOf the thread of a color block, from 1
 */
export function rasterThreads(
  pixels: Pixels,
  { perMm, originX, originY }: Placed,
  stitches: Stitches,
  colorOf: (block: number) => Rgb,
): void {
  const { x, y, count, breakBefore, block } = stitches;
  const shades = new Map<number, Shades>();
  let direction = 0;
  for (let i = 1; i < Math.min(count, MOST_DRAWN); i++) {
    if (breakBefore[i] >= Break.trim) continue;
    const own = directionTo(stitches, i);
    if (own >= 0) direction = own;
    const key = block[i] * DIRECTIONS + direction;
    let shade = shades.get(key);
    if (!shade) {
      shade = shadesOf(colorOf(block[i] + 1), direction);
      shades.set(key, shade);
    }
    capsule(
      pixels,
      originX + x[i - 1] * perMm,
      originY - y[i - 1] * perMm,
      originX + x[i] * perMm,
      originY - y[i] * perMm,
      (SIDES_MM / 2) * perMm,
      perMm,
      shade,
    );
  }
}

/** A line of one color, round at its ends; places and radius in pixels. */
export function rasterLine(
  pixels: Pixels,
  [ax, ay, bx, by]: readonly number[],
  radius: number,
  { r, g, b }: Rgb,
): void {
  const even = Uint8Array.from({ length: 2 * ACROSS * 3 }, (_, k) => [r, g, b][k % 3]);
  capsule(pixels, ax, ay, bx, by, radius, 1, even);
}

/** One stitch, round at its ends. */
function capsule(
  { width, height, data }: Pixels,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  radius: number,
  perMm: number,
  shade: Shades,
): void {
  const long = Math.hypot(bx - ax, by - ay);
  const ux = long > 0 ? (bx - ax) / long : 1;
  const uy = long > 0 ? (by - ay) / long : 0;
  const twist = (TWIST_MM[0] + TWIST_MM[1]) * perMm;
  const drawn = TWIST_MM[0] * perMm;
  const reach = radius + 0.5;
  const top = Math.max(0, Math.floor(Math.min(ay, by) - reach));
  const bottom = Math.min(height - 1, Math.ceil(Math.max(ay, by) + reach));
  for (let row = top; row <= bottom; row++) {
    const [from, to] = rowOf(row + 0.5, ax, ay, bx, by, reach);
    const last = Math.min(width - 1, Math.ceil(to));
    for (let column = Math.max(0, Math.floor(from)); column <= last; column++) {
      const px = column + 0.5 - ax;
      const py = row + 0.5 - ay;
      const along = px * ux + py * uy;
      const past = along < 0 ? -along : along > long ? along - long : 0;
      const aside = Math.abs(px * uy - py * ux);
      const off = past > 0 ? Math.hypot(aside, past) : aside;
      const covered = Math.min(1, radius + 0.5 - off);
      if (covered <= 0) continue;
      const step = Math.min(ACROSS - 1, Math.floor((aside / radius) * ACROSS));
      // The marks lie askew, as the plies of a thread do.
      const phase = along + aside;
      const mark = phase - twist * Math.floor(phase / twist) < drawn ? 0 : ACROSS;
      const at = 3 * (row * width + column);
      const from3 = 3 * (mark + step);
      for (let c = 0; c < 3; c++) data[at + c] += (shade[from3 + c] - data[at + c]) * covered;
    }
  }
}

/** From where to where a row of pixels can meet the stitch. */
function rowOf(
  middle: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  reach: number,
): [number, number] {
  const dy = by - ay;
  let low = 0;
  let high = 1;
  if (Math.abs(dy) > 1e-9) {
    // The part of the stitch within reach of the row; its slant makes the row meet it farther out.
    const slant = reach * (Math.hypot(bx - ax, dy) / Math.abs(dy));
    const at = (middle - ay) / dy;
    const room = slant / Math.abs(dy);
    low = Math.max(0, at - room);
    high = Math.min(1, at + room);
    if (low > 1 || high < 0) {
      // Round ends alone.
      low = Math.min(1, low);
      high = Math.max(0, high);
    }
  }
  const p = ax + low * (bx - ax);
  const q = ax + high * (bx - ax);
  return [Math.min(p, q) - reach - 1, Math.max(p, q) + reach];
}
