import type { StackedSheet } from '../../lib/mechanics/layup.js';

/** All sequences of up to three sheets at 0, 45 and 90 degrees; sheets are only counted, their order does not bear on the fabric. */
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
