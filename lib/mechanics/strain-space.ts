/** What strains may come to when what they rest on changes: fields at the cells of a view, each times a number of its own, all added up. */
import { THREE } from './element-strain.js';
import type { WrinkleLaw } from './plate-wrinkle.js';
import type { WrinkleView } from './wrinkle-field.js';

/** One place in the space, and how fabric wrinkles there. */
export interface StrainCase {
  /** Of every field. */
  readonly times: readonly number[];
  readonly law: WrinkleLaw;
  readonly longestSpanMm: number;
}

export class StrainSpace {
  /** Cells that may wrinkle. */
  private kept: Int32Array;

  /** @param farthest cases between which all others lie: where fabric lies flat in these it is not looked at again */
  constructor(
    private readonly view: WrinkleView,
    private readonly fields: readonly Float64Array[],
    farthest: readonly StrainCase[],
  ) {
    this.kept = Int32Array.from(view.cells.keys());
    const all = farthest.map((one) => this.heights(one));
    this.kept = this.kept.filter((cell) => all.some((heights) => heights[cell] > 0));
  }

  /** Heights at the cells of the view, mm. */
  heights({ times, law, longestSpanMm }: StrainCase): Float64Array {
    const { view, fields, kept } = this;
    const strains = new Float64Array(THREE * kept.length);
    fields.forEach((field, f) => {
      const factor = times[f];
      for (let m = 0, k = 0; m < kept.length; m++) {
        const q = THREE * kept[m];
        strains[k++] += factor * field[q];
        strains[k++] += factor * field[q + 1];
        strains[k++] += factor * field[q + 2];
      }
    });
    return view.heights(strains, law, longestSpanMm, kept);
  }
}
