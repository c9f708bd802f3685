import { type Catalogue, find } from '../materials/catalogue.js';
import type { Conditions } from '../mechanics/conditions.js';

/** What could hurt someone or spoil these goods: usual cautions, one sentence each; local rules go before them. */
export function cautionsFor({ fabric, stack, washes }: Conditions, catalogue: Catalogue): string[] {
  const { cap, washable, holesStay, open, pile } = find(catalogue, 'fabrics', fabric);
  const out: string[] = [];
  if (cap)
    out.push(
      "Trace a cap's outline with the needle up before sewing, hands clear: a needle that hits the frame shatters.",
    );
  if (holesStay)
    out.push(
      'Needle holes stay in this material for good: stitches picked out leave them. Sew a test on a scrap before the garment.',
    );
  if (!washable && (open || pile))
    out.push(
      'Goods that must not get wet take a topping removed by heat: it burns skin and scorches fibre; try a scrap.',
    );
  if (!washable && washes > 0)
    out.push('These goods are not for washing: figures after a wash are for comparison alone.');
  if (stack.some(({ sheet }) => !find(catalogue, 'sheets', sheet).perforates))
    out.push(
      "This backing stays against the skin: cover it on children's wear; local rules for children's sleepwear go first.",
    );
  return out;
}
