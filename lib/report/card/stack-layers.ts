/** What is sewn through, drawn as layers: topping, garment, then the backing outward. */
import { INK_COLOUR, PAPER_COLOUR } from '../palette.js';
import { html, tag } from '../render/markup.js';
import { round } from '../round.js';
import { element } from '../svg.js';
import { directionArrow } from './direction-arrow.js';
import type { CardWords } from './words.js';

export interface StackLayers {
  /** Name, or null for none. */
  topping: string | null;
  garment: string;
  /** Degrees counter-clockwise from level. */
  grainDeg: number;
  /** From the garment outward. */
  sheets: readonly { name: string; angleDeg: number }[];
}

/** Of one layer, picture units of 0.1 mm. */
const WIDTH = 170;
const HEIGHT = 115;
const LINE_APART = 14;
/** Layers lie this far apart, mm; what a layer is higher lies under the one above. */
export const LAYER_PITCH_MM = 8.6;

export interface DrawnLayer {
  kind: 'topping' | 'garment' | 'sheet' | 'nothing';
  head: string;
  text: string;
  angleDeg: number;
}

/** Rows of the drawing with their words, from the needle down. */
export function layersOf(
  { topping, garment, grainDeg, sheets }: StackLayers,
  { card: { layers }, setup }: CardWords,
): DrawnLayer[] {
  return [
    ...(topping === null
      ? []
      : [{ kind: 'topping' as const, head: layers.topping, text: topping, angleDeg: 0 }]),
    {
      kind: 'garment',
      head: layers.garment,
      text: layers.grain({ name: garment, grain: grainWords(grainDeg, layers) }),
      angleDeg: grainDeg,
    },
    ...sheets.map(({ name, angleDeg }, i) => ({
      kind: 'sheet' as const,
      head: sheets.length > 1 ? layers.backingNumber({ n: i + 1 }) : layers.backing,
      text: `${name}, ${turnWords(angleDeg, layers)}`,
      angleDeg,
    })),
    ...(sheets.length === 0
      ? [{ kind: 'nothing' as const, head: layers.backing, text: setup.none, angleDeg: 0 }]
      : []),
  ];
}

/** Draws the layers, each lapping over the next; hatching runs along a sheet. */
export function stackLayers(layers: readonly DrawnLayer[]): string {
  return tag(
    'ol',
    { class: 'stack' },
    ...layers.map((layer, i) =>
      tag(
        'li',
        { style: `z-index: ${layers.length - i}` },
        tile(layer),
        tag('span', {}, tag('strong', {}, html(layer.head)), ' ', html(layer.text)),
      ),
    ),
  );
}

/** How a sheet is laid. */
export function turnWords(angleDeg: number, layers: CardWords['card']['layers']): string {
  const angle = round(((angleDeg % 180) + 180) % 180, 1);
  if (angle === 0) return layers.straight;
  if (angle === 90) return layers.quarter;
  return angle < 90
    ? layers.turned({ deg: angle, clockwise: false })
    : layers.turned({ deg: 180 - angle, clockwise: true });
}

/** Which way the fabric's own grain runs. */
export function grainWords(grainDeg: number, layers: CardWords['card']['layers']): string {
  const angle = round(((grainDeg % 180) + 180) % 180, 1);
  if (angle === 90) return layers.upright;
  if (angle === 0) return layers.level;
  return angle < 90
    ? layers.leaning({ deg: angle, to: 'right' })
    : layers.leaning({ deg: 180 - angle, to: 'left' });
}

function tile({ kind, angleDeg }: DrawnLayer): string {
  const edge = { x: 3, y: 3, width: WIDTH - 6, height: HEIGHT - 6 };
  const outline = element('rect', {
    ...edge,
    fill: 'none',
    stroke: INK_COLOUR,
    'stroke-width': kind === 'garment' ? 6 : 4,
    ...((kind === 'topping' || kind === 'nothing') && { 'stroke-dasharray': '10 8' }),
  });
  const inside = {
    topping: '',
    nothing: '',
    garment: directionArrow(WIDTH / 2, HEIGHT / 2, 80, angleDeg),
    sheet: hatching(angleDeg),
  }[kind];
  return element(
    'svg',
    {
      viewBox: `0 0 ${WIDTH} ${HEIGHT}`,
      width: `${WIDTH / 10}mm`,
      height: `${HEIGHT / 10}mm`,
      'aria-hidden': 'true',
      class: kind,
    },
    { inner: element('rect', { ...edge, fill: PAPER_COLOUR }) + inside + outline },
  );
}

/** Lines across the whole tile; the picture's edge cuts them off. */
function hatching(angleDeg: number): string {
  const reach = Math.hypot(WIDTH, HEIGHT);
  let d = '';
  for (let at = -reach; at <= reach; at += LINE_APART) d += `M${-reach} ${at}H${reach}`;
  return element('path', {
    d: d.replaceAll(/\d+\.\d+/g, (digits) => String(Math.round(Number(digits)))),
    transform: `translate(${WIDTH / 2} ${HEIGHT / 2}) rotate(${-angleDeg})`,
    fill: 'none',
    stroke: INK_COLOUR,
    'stroke-width': 2.5,
  });
}
