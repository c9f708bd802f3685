/** What the customer will get: the stitches as thread on the garment at true size, with the predicted wrinkles under light from the side. */
import { MM_PER_INCH } from '../../core/units.js';
import type { Stitches } from '../../format/stitches.js';
import type { Bounds } from '../../measure/measures.js';
import type { RiskMaps } from '../../mechanics/risk.js';
import { TURN_COLOURS } from '../palette.js';
import type { Reader } from '../phrases/voice.js';
import { wordsFor } from '../phrases/words.js';
import { renderHtml } from '../render/html.js';
import { notDrawn } from '../stitch-path.js';
import { element } from '../svg.js';
import { pngOf } from './png.js';
import { type Relief, reliefOf, shadeAt } from './relief.js';
import { shadeBands } from './shade-bands.js';
import { type ProofSheet, sheetOf } from './sheet.js';
import { colorNamed, hexOf, lightness, type NamedColor } from './thread-colors.js';
import { PER_MM, threadPicture } from './thread-picture.js';
import { type Pixels, rasterLine, rasterThreads } from './thread-raster.js';

/** One picture of the sheet. */
export interface ProofView {
  readonly stitches: Stitches;
  /** How the fabric wrinkles; null shows it flat. */
  readonly maps: RiskMaps | null;
  /** Under the picture. */
  readonly caption: readonly string[];
}

export interface ProofInput {
  /** Any text. */
  readonly name: string;
  readonly bounds: Bounds;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Side by side, under the same light. */
  readonly views: readonly ProofView[];
  /** In the order in which the machine calls them; what the file has beyond them gets stand-ins. */
  readonly threads: readonly NamedColor[];
  readonly garment: NamedColor | null;
}

/** A proof that can be set in any form. */
export interface Proof {
  readonly sheet: ProofSheet;
  readonly input: ProofInput;
  readonly threads: readonly NamedColor[];
  readonly garment: NamedColor;
  readonly reliefs: readonly (Relief | null)[];
  readonly title: string;
  /** What is written at its foot. */
  readonly notes: readonly string[];
  /** All that is written on it but the title, for those who do not see it: letters on it are drawn. */
  readonly said: string;
}

/** Garment about the design, mm: as far as wrinkles are looked for, and a little more. */
const MARGIN_MM = 14;
/** A garment of no color that anybody named. */
const PLAIN_GARMENT = '#d9d9d6';
/** CIE L* apart, below which two colors print alike in gray. */
const ALIKE_IN_GRAY = 12;

/** Lays a proof out for a reader; {@link proofSvg}, {@link proofPng} and {@link proofPage} set it. */
export function proofOf(input: ProofInput, reader: Reader): Proof {
  const words = wordsFor(reader);
  const { proof } = words;
  const [first] = input.views;
  const blocks = first.stitches.count === 0 ? 1 : first.stitches.block[first.stitches.count - 1] + 1;
  const garment = input.garment ?? { ...colorNamed(PLAIN_GARMENT), name: 'light gray' };
  const threads = Array.from(
    { length: blocks },
    (_, k): NamedColor =>
      input.threads[k] ?? { ...colorNamed(TURN_COLOURS[k % TURN_COLOURS.length]), name: '?' },
  );
  const close = threads.flatMap((thread, k) =>
    Math.abs(lightness(thread) - lightness(garment)) < ALIKE_IN_GRAY
      ? [{ number: k + 1, name: input.threads[k] ? thread.name : null }]
      : [],
  );
  const title = proof.title({ name: input.name });
  const notes = [
    ...(input.views.some(({ maps }) => maps !== null) ? [proof.prediction] : []),
    proof.trueSize,
    ...(input.threads.length === 0
      ? [proof.standIns]
      : input.threads.length < blocks
        ? [proof.someStandIns({ from: input.threads.length + 1 })]
        : []),
    ...(close.length > 0 ? [proof.low({ threads: close })] : []),
    ...notDrawn(first.stitches).map(words.picture.notDrawn),
  ];
  const facts = [
    proof.size({ widthMm: input.widthMm, heightMm: input.heightMm, stitches: first.stitches.count }),
    ...(input.threads.length > 0 ? [proof.threads({ names: threads.map(({ name }) => name) })] : []),
    ...(input.garment ? [proof.garment({ name: input.garment.name })] : []),
  ];
  const captions = input.views.map(({ caption }) => caption);
  const sheet = sheetOf(
    input.bounds,
    input.views.length,
    MARGIN_MM,
    { title, facts, captions, notes },
    words,
  );
  return {
    sheet,
    input,
    threads,
    garment,
    reliefs: input.views.map(({ maps }) => maps && reliefOf(maps)),
    title,
    notes,
    said: [...facts, ...captions.flat(), ...notes].map((line) => line.replace(/\.?$/, '.')).join(' '),
  };
}

const INK = { r: 32, g: 32, b: 32 };

/** As an SVG document, as large as it is sewn. */
export async function proofSvg({
  sheet,
  input,
  threads,
  garment,
  reliefs,
  title,
  said,
}: Proof): Promise<string> {
  const { widthMm, heightMm } = sheet;
  const shades = await Promise.all(reliefs.map(shadeBands));
  const panels = sheet.panels.map(({ left, top, width, height, originX, originY }, k) => {
    const clip = `panel${k}`;
    return (
      element('clipPath', { id: clip }, { inner: element('rect', { x: left, y: top, width, height }) }) +
      element(
        'g',
        { 'clip-path': `url(#${clip})` },
        {
          inner:
            element('rect', { x: left, y: top, width, height, fill: hexOf(garment) }) +
            element(
              'g',
              { transform: `translate(${originX} ${originY}) scale(${1 / PER_MM} ${-1 / PER_MM})` },
              {
                inner:
                  shades[k] +
                  threadPicture(
                    input.views[k].stitches,
                    (block) => threads[(block - 1) % threads.length],
                    `t${k}-`,
                  ),
              },
            ),
        },
      )
    );
  });
  const strokes = sheet.strokes.map((group) =>
    element('path', {
      d: group.lines.map((line) => `M${line.map((v) => v.toFixed(2)).join(' ')}`).join(''),
      stroke: hexOf(INK),
      'stroke-width': group.widthMm,
    }),
  );
  return `${element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${widthMm.toFixed(2)} ${heightMm.toFixed(2)}`,
      width: `${widthMm.toFixed(2)}mm`,
      height: `${heightMm.toFixed(2)}mm`,
      role: 'img',
    },
    {
      inner: [
        element('title', {}, { text: title }),
        element('desc', {}, { text: said }),
        element('rect', { width: '100%', height: '100%', fill: '#ffffff' }),
        ...panels,
        element(
          'g',
          { fill: 'none', 'stroke-linecap': 'round', 'stroke-linejoin': 'round' },
          { inner: strokes.join('') },
        ),
      ].join('\n'),
    },
  )}\n`;
}

/** As a page by itself, as large as it is sewn on a screen that knows its size and on paper at 100 %. */
export const proofPage = async (made: Proof): Promise<string> =>
  renderHtml(
    {
      title: made.title,
      language: 'en',
      blocks: [
        { is: 'figure', svg: await proofSvg(made), caption: '', label: `${made.title}. ${made.said}` },
      ],
    },
    {
      css: `.picture { max-width: none; border: 0; }
.picture > svg { width: ${made.sheet.widthMm.toFixed(2)}mm; height: ${made.sheet.heightMm.toFixed(2)}mm; min-width: 0; max-width: none; }
@page { margin: 8mm; }
@media print { header { display: none; } .picture > svg { max-height: none; } }
`,
    },
  );

/** Dots an inch of a proof in pixels: what a print shows. */
export const PROOF_DPI = 300;
/** More pixels than this along one side would not fit in memory of an ordinary machine. */
const MOST_PIXELS = 8000;

/** A part of a color in light (above zero) or shade: dark cloth shines where light falls on it, as light cloth does. */
const lit = (value: number, shade: number): number =>
  shade > 0 ? value + (255 - value) * 0.6 * shade : value * (1 + 1.2 * shade);

/** As a PNG file of 300 dots an inch, or as many as a picture of 8,000 pixels has. */
export async function proofPng({ sheet, input, threads, garment, reliefs }: Proof): Promise<Uint8Array> {
  const most = MOST_PIXELS / Math.max(sheet.widthMm, sheet.heightMm);
  const perMm = Math.min(PROOF_DPI / MM_PER_INCH, most);
  const width = Math.ceil(sheet.widthMm * perMm);
  const height = Math.ceil(sheet.heightMm * perMm);
  const pixels: Pixels = { width, height, data: new Uint8Array(3 * width * height).fill(255) };
  sheet.panels.forEach((panel, k) => {
    const own = {
      left: Math.round(panel.left * perMm),
      top: Math.round(panel.top * perMm),
      width: Math.round(panel.width * perMm),
      height: Math.round(panel.height * perMm),
    };
    const placed = { perMm, originX: panel.originX * perMm, originY: panel.originY * perMm };
    const { data } = pixels;
    for (let row = own.top; row < Math.min(height, own.top + own.height); row++)
      for (let column = own.left; column < Math.min(width, own.left + own.width); column++) {
        const relief = reliefs[k];
        const shade = relief
          ? shadeAt(relief, (column + 0.5 - placed.originX) / perMm, (placed.originY - row - 0.5) / perMm)
          : 0;
        const at = 3 * (row * width + column);
        data[at] = lit(garment.r, shade);
        data[at + 1] = lit(garment.g, shade);
        data[at + 2] = lit(garment.b, shade);
      }
    rasterThreads(pixels, placed, input.views[k].stitches, (block) => threads[(block - 1) % threads.length]);
  });
  for (const { lines, widthMm } of sheet.strokes)
    for (const line of lines)
      for (let k = 0; k + 3 < line.length; k += 2)
        rasterLine(
          pixels,
          line.slice(k, k + 4).map((v) => v * perMm),
          (widthMm / 2) * perMm,
          INK,
        );
  return pngOf(pixels, perMm);
}
