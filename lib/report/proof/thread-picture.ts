/** Stitches drawn as thread: sewing order, thickness, and a sheen that turns with the direction of the thread. */
import { Break, type Stitches } from '../../format/stitches.js';
import { stitchPath } from '../stitch-path.js';
import { element } from '../svg.js';
import { hexOf, lighter, lightness, type Rgb } from './thread-colors.js';

/** Units of the picture for a millimeter: that of the file's own records. */
export const PER_MM = 10;

/**
 * Widths of what is laid over each other to make a thread, mm: its shaded sides, its body, the light along its top. The sides reach past the
 * 0.4 mm that 40-weight thread covers (common practice, no source) by a pixel of 300 dpi, so that rows 0.4 mm apart close.
 */
export const SIDES_MM = 0.5;
const BODY_MM = 0.36;
const TOP_MM = 0.13;
/** Marks of the twist along the top: drawn and left out, mm. */
export const TWIST_MM = [0.55, 0.2] as const;

/** Directions are told apart to 180 degrees over this. */
export const DIRECTIONS = 36;
/** A stitch shorter than this keeps the look of the one before: it turns to the next row, mm. */
const LEAST_TURN_MM = 0.8;
/** Stitches that are drawn in one path: what is sewn after them lies on top. */
const MOST_IN_PATH = 1000;
/** Where the light comes from, degrees counter-clockwise from +X: thread at right angles to it shines most. */
const LIGHT_DEG = 125;
/** Steps of L* from the dullest direction to the brightest. */
const SHEEN = 16;

/** Lightness of sides, body and top against the color of the thread, in CIE L*, by direction. */
export const LOOKS = Array.from({ length: DIRECTIONS }, (_, k) => {
  const across = Math.abs(Math.sin((((k + 0.5) * 180) / DIRECTIONS - LIGHT_DEG) * (Math.PI / 180)));
  const shine = SHEEN * (across - 0.5);
  return { sides: -24 + shine / 2, body: shine, top: 12 + 1.4 * shine };
});

/** Steps between two directions. */
function apart(a: number, b: number): number {
  const steps = Math.abs(a - b);
  return Math.min(steps, DIRECTIONS - steps);
}

/** White thread would have no light left for its top. */
const LIGHTEST = 90;
export const dimmed = (color: Rgb): Rgb => lighter(color, Math.min(0, LIGHTEST - lightness(color)));

/**
 * Direction of the stitch to a needle point, one of {@link DIRECTIONS}, or -1 where it is too short to tell. A swing there and the swing back
 * count together: the two halves of a zigzag shine alike.
 */
export function directionTo({ x, y, count, breakBefore }: Stitches, i: number): number {
  let dx = x[i] - x[i - 1];
  let dy = y[i] - y[i - 1];
  if (dx * dx + dy * dy < LEAST_TURN_MM * LEAST_TURN_MM) return -1;
  if (i + 1 < count && breakBefore[i + 1] < Break.trim) {
    const nextX = x[i + 1] - x[i];
    const nextY = y[i + 1] - y[i];
    const back = dx * nextX + dy * nextY < 0 ? -1 : 1;
    dx += back * nextX;
    dy += back * nextY;
  }
  const turn = Math.atan2(dy, dx) / Math.PI + 2;
  return Math.floor((turn - Math.floor(turn)) * DIRECTIONS) % DIRECTIONS;
}

/**
 * Elements that draw the stitches, in units of 0.1 mm with Y up. Linear in the stitches.
 *
 * @param colorOf the thread of a color block, from 1
 * @param prefix of the ids in it, unique in its document
 */
export function threadPicture(stitches: Stitches, colorOf: (block: number) => Rgb, prefix: string): string {
  const { count, breakBefore } = stitches;
  let out = '';
  let paths = 0;
  const styles = new Map<string, { sides: string; body: string; top: string }>();
  const styleOf = (block: number, direction: number) => {
    const key = `${block} ${direction}`;
    let style = styles.get(key);
    if (!style) {
      const color = dimmed(colorOf(block));
      const { sides, body, top } = LOOKS[direction];
      style = {
        sides: hexOf(lighter(color, sides)),
        body: hexOf(lighter(color, body)),
        top: hexOf(lighter(color, top)),
      };
      styles.set(key, style);
    }
    return style;
  };
  const draw = (first: number, last: number, direction: number): void => {
    const d = stitchPath(stitches, first, last, true);
    // A lone needle point draws nothing.
    if (!d.includes('l')) return;
    const { sides, body, top } = styleOf(stitches.block[first] + 1, direction);
    const id = `${prefix}${paths++}`;
    out +=
      element(
        'g',
        { stroke: sides, 'stroke-width': SIDES_MM * PER_MM },
        { inner: element('path', { id, d }) },
      ) +
      element('use', { href: `#${id}`, stroke: body, 'stroke-width': BODY_MM * PER_MM }) +
      element('use', {
        href: `#${id}`,
        stroke: top,
        'stroke-width': TOP_MM * PER_MM,
        'stroke-dasharray': TWIST_MM.map((mm) => mm * PER_MM).join(' '),
      });
  };
  let first = 0;
  let direction = -1;
  for (let i = 0; i < count; i++) {
    const cut = i === 0 || breakBefore[i] >= Break.trim;
    const own = cut ? -1 : directionTo(stitches, i);
    const turned = own >= 0 && direction >= 0 && apart(own, direction) > 1;
    if (i > first && (cut || turned || i - first >= MOST_IN_PATH)) {
      draw(first, i - 1, Math.max(0, direction));
      first = i;
      direction = own;
    } else if (direction < 0) direction = own;
  }
  if (count > 0) draw(first, count - 1, Math.max(0, direction));
  return element(
    'g',
    { fill: 'none', 'stroke-linecap': 'round', 'stroke-linejoin': 'round' },
    { inner: out },
  );
}
