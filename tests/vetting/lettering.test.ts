import { describe, expect, it } from 'vitest';
import type { Turn } from '../measure/sketch.js';
import { Sketch } from '../measure/sketch.js';
import { said } from './said.js';
import { found, vetted } from './vetted.js';

/** A line of letters, each of two uprights, as one group; `joined` makes the whole word one group. */
function word(
  height: number,
  more: { letters?: number; stroke?: number; joined?: boolean; turn?: Turn } = {},
): Sketch {
  const { letters = 4, stroke = 0.2 * height, joined = false, turn } = more;
  const sketch = new Sketch(0, turn);
  for (let k = 0; k < letters; k++) {
    const x = k * height;
    const group = joined ? 1 : k + 1;
    if (k > 0 && !joined) sketch.cut([x, 0]);
    sketch.satin([x, 0], { width: stroke, length: height }, { group });
    sketch.satin([x + 0.5 * height, 0], { width: stroke, length: height }, { group });
  }
  return sketch;
}
const small = (sketch: Sketch) => found('lettering-too-small', sketch);

describe('lettering too small', () => {
  it('is one finding for a line below 5 mm, at its first stroke', () => {
    expect(small(word(5.2))).toEqual([]);
    const findings = small(word(4));
    expect(findings).toMatchObject([{ severity: 'warn', object: 1, stitch: 0, limit: 5, unit: 'mm' }]);
    expect(findings[0].measured).toBeCloseTo(4, 6);
    expect(said(findings[0])).toContain('4 letters');
  });

  it('goes by the capitals', () => {
    const sketch = word(4);
    sketch.cut([20, 0]).satin([20, 0], { width: 1, length: 6 }, { group: 9 });
    expect(small(sketch)).toEqual([]);
  });

  it('is measured at right angles to a slanted line', () => {
    for (const degrees of [30, 90, 200]) {
      const turn = { degrees, dx: 7, dy: -3, mirror: false };
      expect(small(word(4, { turn }))[0].measured).toBeCloseTo(4, 1);
      expect(small(word(5.6, { turn }))).toEqual([]);
    }
  });

  it('is seen in a word of joined letters', () => {
    expect(small(word(4, { letters: 9, joined: true }))).toMatchObject([{ object: 1 }]);
  });

  it('is not a lone stroke or two, a wide patch or a long border', () => {
    expect(small(word(4, { letters: 1 }))).toEqual([]);
    expect(small(word(4, { stroke: 1.9 }))).toEqual([]);
    const border = new Sketch();
    for (let k = 0; k < 3; k++) border.satin([0, 30 * k], { width: 1, length: 60 }, { group: k + 1 });
    expect(small(border)).toEqual([]);
    expect(small(word(19))).toEqual([]);
    // a stroke of 12 mm beside them is no letter of the line and does not make it tall
    const beside = word(4);
    beside.cut([17, 0]).satin([17, 0], { width: 1, length: 12 }, { group: 9 });
    expect(small(beside)).toMatchObject([{ object: 1 }]);
  });

  it('is not three strokes of one group that stand far from each other', () => {
    for (const way of [1, -1]) {
      const sketch = new Sketch();
      for (const [x, y] of [
        [0, 0],
        [20 * way, 0],
        [0, 20 * way],
      ]) {
        sketch.satin([x, y], { width: 0.8, length: 4 }, { group: 1 });
      }
      expect(small(sketch)).toEqual([]);
    }
  });

  it('parts lines that stand far from each other or in another colour', () => {
    const far = word(4, { letters: 2 });
    far.cut([17, 0]);
    // the line ends at 6.8 mm; 10 mm on is more than a letter and a half
    for (const x of [17, 19, 21]) far.satin([x, 0], { width: 0.9, length: 4 }, { group: 9 });
    expect(small(far)).toHaveLength(2);
    const colours = word(4, { letters: 2 });
    colours.cut([8, 0], 'colour');
    for (const x of [8, 10, 12]) colours.satin([x, 0], { width: 0.9, length: 4 }, { group: 9, block: 2 });
    expect(small(colours)).toHaveLength(2);
  });

  it('stands for the narrow strokes of the same line, and for no others', () => {
    const sketch = word(4, { stroke: 0.8 });
    sketch.cut([50, 0]).satin([50, 0], { width: 0.8, length: 20 }, { group: 50 });
    const narrow = vetted(sketch).filter(({ code }) => code === 'satin-too-narrow');
    expect(narrow.map(({ object }) => object)).toEqual([9]);
  });
});
