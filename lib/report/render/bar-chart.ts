import type { Bars } from '../document.js';
import { INK_COLOUR, PAPER_COLOUR } from '../palette.js';
import { count } from '../quantities.js';
import { element } from '../svg.js';

/** Picture units. */
const WIDTH = 640;
const ROW = 24;
const BAR = 16;
const RANGES = 170;
const COUNTS = 90;
const FONT = 13;

/** A histogram as lying bars, each with its range and count in print: nothing rests on colour. Whole as words, too. */
export function barChart({ title, bars }: Pick<Bars, 'title' | 'bars'>): string {
  const most = Math.max(1, ...bars.map((bar) => bar.count));
  const height = bars.length * ROW + 6;
  const rows = bars.flatMap((bar, i) => {
    const y = 3 + i * ROW;
    const text = y + BAR / 2 + ROW / 4;
    const long = (bar.count / most) * (WIDTH - RANGES - COUNTS);
    return [
      element(
        'text',
        { x: RANGES - 10, y: text, 'text-anchor': 'end', 'font-size': FONT, fill: INK_COLOUR },
        {
          text: bar.range,
        },
      ),
      element('rect', { x: RANGES, y: y + 2, width: long, height: BAR, fill: '#4d6a73', stroke: INK_COLOUR }),
      element(
        'text',
        { x: RANGES + long + 8, y: text, 'font-size': FONT, fill: INK_COLOUR },
        { text: count(bar.count) },
      ),
    ];
  });
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${WIDTH} ${height}`,
      width: WIDTH,
      height,
      role: 'img',
      'font-family': 'sans-serif',
      'aria-label': `${title}. ${bars.map((bar) => `${bar.range}: ${count(bar.count)}`).join('; ')}`,
    },
    {
      inner: `\n${[
        element('rect', { width: WIDTH, height, fill: PAPER_COLOUR }),
        ...rows,
        element('path', { d: `M${RANGES} 0V${height}`, stroke: INK_COLOUR, fill: 'none' }),
      ].join('\n')}\n`,
    },
  );
}
