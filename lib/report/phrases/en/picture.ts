/** Lettering of the pictures: the stitches by `lieflat draw`, the wrinkles by `lieflat pucker --map`. */
import type { Voice } from '../voice.js';

export const picture = {
  size: (
    {
      widthMm,
      heightMm,
      stitches,
      objects,
    }: { widthMm: number; heightMm: number; stitches: number; objects: number },
    say: Voice,
  ): string =>
    `${say.size(widthMm, heightMm)}, ${say.counted(stitches, 'stitch', 'stitches')}, ${say.counted(objects, 'object')}`,
  /** Where the steps suit this picture alone: the same color is another figure on the next one. */
  ownSteps: 'the colors stand for the figures below; they differ from picture to picture',
  notDrawn: ({ drawn, left }: { drawn: number; left: number }, say: Voice): string =>
    `only the first ${say.count(drawn)} stitches are drawn; ${say.count(left)} more are not`,
  predicted: 'predicted; sew a test on the same fabric',
  on: ({ fabric }: { fabric: string }, _: Voice): string => `on ${fabric}`,
  over: ({ backing }: { backing: string }, _: Voice): string => `over ${backing}`,
  /** Keys of the colors. */
  key: {
    eachObject: 'each object in a color of its own, in turn; its underlay as a thin line over it',
    aside: 'travel and stitches that belong to no object',
    /** `from` is null for the lowest step; figures are in the reader's units already. */
    width: ({ from, to }: { from: number | null; to: number }, say: Voice): string =>
      `satin ${from ?? 'up'} to ${to} ${say.units} wide`,
    noWidth: 'fills, runs and travel have no column width; thin lines are underlay',
    grade: ({ word, best, from }: { word: string; best: number; from: number }, _: Voice): string =>
      `${word} (grade ${best} to ${from})`,
    density: ({ from, to }: { from: number | null; to: number }, _: Voice): string =>
      `${from ?? 'up'} to ${to} needle points a mm²`,
    flat: ({ lowestMm }: { lowestMm: number }, say: Voice): string =>
      `no wrinkles higher than ${say.figure(lowestMm)} are predicted`,
    wrinkles: ({ fromMm, toMm }: { fromMm: number; toMm: number | null }, say: Voice): string =>
      toMm === null
        ? `wrinkles ${say.figure(fromMm)} high and higher`
        : `wrinkles ${say.bare(fromMm)} to ${say.figure(toMm)} high`,
    lower: ({ lowestMm }: { lowestMm: number }, say: Voice): string =>
      `lower than ${say.figure(lowestMm)}; figures on the outlines are heights in ${say.units === 'mm' ? 'mm' : 'inches'}`,
  },
  answer: ({ word, grade, height }: { word: string; grade: number; height: string }, say: Voice): string =>
    `${word}, grade ${say.plain(grade, 1)}: ${height}`,
  grain: 'grain',
};
