/** A hoop that is too large for the paper, with the design in it, small. */
import { type Bounds, union } from '../../core/bounds.js';
import type { HoopField } from '../../materials/places.js';
import { INK_COLOUR } from '../palette.js';
import { html, tag } from '../render/markup.js';
import { element, tidy, trueSizeSvg } from '../svg.js';
import { fieldBounds, hoopOutline } from './hoop-outline.js';
import { stitchesAgain } from './shared-stitches.js';
import { roundReduction } from './true-scale.js';
import type { CardWords } from './words.js';

/** The picture at most, mm. */
export const INSET_MM = { widthMm: 46, heightMm: 24 };
const MARGIN = 5;

/** Draws it with its scale in bold beside it. */
export function hoopInset(hoop: HoopField, design: Bounds, { card }: CardWords): string {
  const field = fieldBounds(hoop, design);
  const { minX: left, minY: bottom, maxX: right, maxY: top } = union(field, design);
  const reduction = roundReduction(
    Math.max((right - left) / (INSET_MM.widthMm - 1), (top - bottom) / (INSET_MM.heightMm - 1)),
  );
  const perMm = 10 / reduction;
  const x = (mm: number): number => MARGIN + (mm - left) * perMm;
  const y = (mm: number): number => MARGIN + (top - mm) * perMm;
  const [width, height] = [(right - left) * perMm + 2 * MARGIN, (top - bottom) * perMm + 2 * MARGIN];
  const stitching = element(
    'g',
    {
      transform: `translate(${tidy(x(0))} ${tidy(y(0))}) scale(${1 / reduction} ${-1 / reduction})`,
      fill: 'none',
      stroke: INK_COLOUR,
      'stroke-width': reduction,
    },
    { inner: stitchesAgain() },
  );
  const drawing = trueSizeSvg(
    { name: 'inset', width, height, label: card.hoopPictureOf({ reduction }) },
    stitching + hoopOutline(hoop, design, { x, y }),
  );
  return tag(
    'figure',
    { class: 'in-hoop' },
    drawing,
    tag('figcaption', {}, tag('strong', {}, html(card.hoopAt({ reduction }))), html(card.hoopInset)),
  );
}
