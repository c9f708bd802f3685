/** What the design itself, or the goods, would have to be where no plan is good enough. */
import type { Cause, Driver } from '../mechanics/drivers.js';

/** What can be done about each cause; nothing where a plan has done already what can be done. */
const CHANGES: Readonly<Partial<Record<Cause, string>>> = {
  width:
    'Make the satin columns narrower, split them, or fill the shapes instead: wide stitches pull hardest.',
  spacing: 'Open the spacing of the stitching a little: fewer threads side by side pull less.',
  underlay: 'Have the underlay lightened: its own stitches pull as well.',
  layers: 'Have stitching that lies under other stitching taken out: layers add up.',
  fabric: 'Sew it on firmer goods, or make the design smaller or lighter for this fabric.',
  laundering:
    'Tell the customer that it will show after washing: thread and goods draw in; wash by hand and dry flat.',
  hooping: 'Hoop the goods without stretch.',
};
/** Causes behind less than this part are not worth a change. */
const LEAST_SHARE = 0.08;

/** The changes that help most first. */
export const designChanges = (drivers: readonly Driver[]): string[] =>
  drivers.flatMap(({ cause, share }) => {
    const change = CHANGES[cause];
    return change && share >= LEAST_SHARE ? [change] : [];
  });
