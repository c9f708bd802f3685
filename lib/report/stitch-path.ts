import { Break, type Stitches } from '../format/stitches.js';

/** Stitches of a design that a picture shows, several times as many as a large jacket back has: no file makes a picture that cannot be opened. */
export const MOST_DRAWN = 500_000;

/** What a picture that does not show every stitch leaves out; nothing for one that does. */
export const notDrawn = ({ count }: Pick<Stitches, 'count'>): { drawn: number; left: number }[] =>
  count <= MOST_DRAWN ? [] : [{ drawn: MOST_DRAWN, left: count - MOST_DRAWN }];

/**
 * SVG path data through the stitches `first..last`, in whole units of 0.1 mm, Y up as in the design. Moves are
 * relative but rounded from absolute places, so errors do not add up. The line is lifted where the thread was cut
 * or changed, not at plain jumps: thread lies there too.
 *
 * Empty where all of them lie past {@link MOST_DRAWN}.
 *
 * @param joined draw the thread from the stitch before `first` too, where it was not cut
 */
export function stitchPath(stitches: Stitches, first: number, last: number, joined = false): string {
  const { x, y, breakBefore } = stitches;
  const start = joined && first > 0 && breakBefore[first] < Break.trim ? first - 1 : first;
  let fromX = 0;
  let fromY = 0;
  let path = '';
  let drawing = false;
  for (let i = start; i <= Math.min(last, MOST_DRAWN - 1); i++) {
    const toX = Math.round(x[i] * 10);
    const toY = Math.round(y[i] * 10);
    if (i === start || breakBefore[i] >= Break.trim) {
      path += `M${toX} ${toY}`;
      drawing = false;
    } else if (toX !== fromX || toY !== fromY) {
      const dx = toX - fromX;
      const dy = toY - fromY;
      // After one `l` further pairs continue the line; a minus sign is separator enough.
      path += `${drawing ? (dx < 0 ? '' : ' ') : 'l'}${dx}${dy < 0 ? '' : ' '}${dy}`;
      drawing = true;
    }
    fromX = toX;
    fromY = toY;
  }
  return path;
}
