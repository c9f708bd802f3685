/** Every plan there is, worked out one by one without the search: to hold the search against. */
import { LIGHTER_ON_STRETCH } from '../../lib/advice/treatments.js';
import type { Catalogue } from '../../lib/materials/catalogue.js';
import type { StackedSheet } from '../../lib/mechanics/goods.js';
import { assess, prepare } from '../../lib/mechanics/risk.js';
import type { Vetting } from '../../lib/pipeline.js';
import type { LaidUnderlay } from '../../lib/stitch/laid-underlay.js';
import { relaid } from '../../lib/stitch/relaid.js';

export interface BrutePlan {
  stack: StackedSheet[];
  to: LaidUnderlay | null;
  nowMm: number;
  washedMm: number;
}

/** All sequences of up to three sheets at 0, 45 and 90 degrees; sheets are only counted, their order does not bear on the goods. */
export function everyStack(sheets: readonly string[]): StackedSheet[][] {
  const one = sheets.flatMap((sheet) => [0, 45, 90].map((angleDeg) => ({ sheet, angleDeg })));
  const stacks: StackedSheet[][] = [[]];
  for (let a = 0; a < one.length; a++) {
    stacks.push([one[a]]);
    for (let b = a; b < one.length; b++) {
      stacks.push([one[a], one[b]]);
      for (let c = b; c < one.length; c++) stacks.push([one[a], one[b], one[c]]);
    }
  }
  return stacks;
}

/** Assesses all of them under every underlay in question on goods that stretch, each by a full solve. */
export function everyPlan(
  { stitches, objects }: Pick<Vetting, 'stitches' | 'objects'>,
  heavy: readonly number[],
  stacks: readonly StackedSheet[][],
  fabric: string,
  washes: number,
  catalogue: Catalogue,
): BrutePlan[] {
  return [null, ...LIGHTER_ON_STRETCH].flatMap((to) => {
    const sewn = to
      ? relaid({ stitches, objects }, new Map(heavy.map((id) => [id, to])))
      : { stitches, objects };
    const prepared = prepare({ ...sewn, catalogue });
    return stacks.map((stack) => ({
      stack,
      to,
      nowMm: assess(prepared, { fabric, stack }, catalogue).wrinkleMm,
      washedMm: assess(prepared, { fabric, stack, washes }, catalogue).wrinkleMm,
    }));
  });
}
