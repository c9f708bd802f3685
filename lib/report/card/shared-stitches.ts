import { element } from '../svg.js';

/** What every picture of a page but one takes the stitches from: the path is long and is written once, in units of 0.1 mm, Y up. */
export const STITCHES_ID = 'stitches';

export const stitchesAgain = (): string => element('use', { href: `#${STITCHES_ID}` });
