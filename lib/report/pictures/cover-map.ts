/** A picture of what a design sewn again hides: its stitches faint, every old needle hole on top, those that show marked. */
import { type Bounds, emptyBounds, growBounds } from '../../core/bounds.js';
import type { Resewing } from '../../rework/resew.js';
import { PAPER_COLOUR, STEP_COLOURS } from '../palette.js';
import { wordsFor } from '../phrases/words.js';
import { FONT, type Placing, picturePage } from '../picture-page.js';
import type { Units } from '../quantities.js';
import { stitchPath } from '../stitch-path.js';
import { element, tidy } from '../svg.js';

export interface CoverMapOptions {
  /** Shown above the picture. Any text; escaped here. */
  title: string;
  units: Units;
}

const NEW_THREAD_COLOUR = '#d9d9d9';
const HIDDEN_COLOUR = '#7a7a7a';
const EXPOSED_COLOUR = STEP_COLOURS[3];
/** A hole as drawn, mm, and least in picture units. */
const HOLE_MM = 0.12;
const LEAST_HOLE = 1.2;
/** Half the size of the mark on a hole that shows, picture units; less where many stand close. */
const MARK = 5;
const MARK_AMONG_MANY = 3;
const MANY = 400;

/** Draws the map to scale. The result is a whole SVG document. */
export function coverMap({ holes, chosen, threadMm }: Resewing, { title, units }: CoverMapOptions): string {
  const { stitches, objects } = chosen.written;
  const seen = new Set(chosen.exposed.map(({ hole }) => hole));
  const hidden = holes.count - seen.size;
  let dots = '';
  for (let h = 0; h < holes.count; h++) {
    if (!seen.has(h)) dots += `M${Math.round(holes.x[h] * 10)} ${Math.round(holes.y[h] * 10)}h0`;
  }
  const scale = 1 + (chosen.by.x + chosen.by.y) / 2;
  const { map } = wordsFor({ units, detail: 'short' }).resew;
  const area = areaOf(stitches, holes);
  const mark = seen.size > MANY ? MARK_AMONG_MANY : MARK;
  return picturePage({
    title,
    lines: [
      map.heading({
        mode: chosen.mode,
        scale,
        holes: holes.count,
        exposed: seen.size,
        roomMm: chosen.roomMm,
      }),
    ],
    area,
    layers: [
      element('path', {
        // what is sewn on top: nothing else counts as cover
        d: objects.map(({ range }) => stitchPath(stitches, ...range)).join(''),
        stroke: NEW_THREAD_COLOUR,
        'stroke-width': threadMm * 10,
      }),
    ],
    over: (placing) =>
      element(
        'g',
        {
          transform: `translate(${tidy(placing.x(0))} ${tidy(placing.y(0))}) scale(${placing.perMm / 10} ${-placing.perMm / 10})`,
          fill: 'none',
          'stroke-linecap': 'round',
        },
        {
          inner: element('path', {
            d: dots,
            stroke: HIDDEN_COLOUR,
            'stroke-width': (Math.max(HOLE_MM, LEAST_HOLE / placing.perMm) * 10).toFixed(2),
          }),
        },
      ) + crosses(holes, seen, placing, mark),
    legend: [
      {
        colour: NEW_THREAD_COLOUR,
        text: map.thread({ threadMm }),
      },
      {
        colour: HIDDEN_COLOUR,
        text: map.hidden({ holes: hidden }),
        mark: (x, y) => element('circle', { cx: x, cy: y, r: LEAST_HOLE * 1.5, fill: HIDDEN_COLOUR }),
      },
      {
        colour: EXPOSED_COLOUR,
        text: map.shown({ holes: seen.size }),
        mark: (x, y) => strokes(crossAt(x, y, MARK)),
      },
    ],
  });
}

function areaOf(...all: readonly { count: number; x: Float64Array; y: Float64Array }[]): Bounds {
  const area = emptyBounds();
  for (const { count, x, y } of all) for (let i = 0; i < count; i++) growBounds(area, x[i], y[i]);
  return area.minX <= area.maxX ? area : { minX: 0, minY: 0, maxX: 0, maxY: 0 };
}

function crosses(
  { x, y }: { x: Float64Array; y: Float64Array },
  seen: ReadonlySet<number>,
  placing: Placing,
  size: number,
): string {
  let d = '';
  for (const h of seen) d += crossAt(placing.x(x[h]), placing.y(y[h]), size);
  return d === '' ? '' : strokes(d);
}

const crossAt = (x: number, y: number, size: number): string =>
  `M${tidy(x - size)} ${tidy(y - size)}l${2 * size} ${2 * size}m0 ${-2 * size}l${-2 * size} ${2 * size}`;

/** Crosses in a color that is dark in a gray print as well, on a halo that sets them off from dots and each other. */
const strokes = (d: string): string =>
  element('path', { d, fill: 'none', stroke: PAPER_COLOUR, 'stroke-width': FONT / 4.5 }) +
  element('path', { d, fill: 'none', stroke: EXPOSED_COLOUR, 'stroke-width': FONT / 10 });
