import { type Draft, plainDraft } from './draft.js';
import { distance, stitchAlong, stitchCurve, type Vec } from './plane.js';

export type RunStyle = 'single' | 'double' | 'triple';

/** A running stitch along a line of points; `smooth`: many points of a curve, else corners. */
export function runDraft(
  line: readonly Vec[],
  style: RunStyle,
  stitch: number,
  smooth: boolean,
  note: string,
): Draft {
  const once = smooth ? stitchCurve(line, stitch) : stitchAlong(line, stitch);
  let points: Vec[];
  if (style === 'single') points = once;
  else if (style === 'double') points = [...once, ...[...once].reverse().slice(1)];
  else {
    points = [once[0]];
    for (let i = 1; i < once.length; i++) points.push(once[i], once[i - 1], once[i]);
  }
  return {
    ...plainDraft('run', points),
    passes: [style === 'single' ? 1 : style === 'double' ? 2 : 3],
    note: `${style} run, stitch ${stitch.toFixed(1)}, ${closedWord(line)}; ${note}`,
  };
}

const closedWord = (line: readonly Vec[]): string =>
  distance(line[0], line[line.length - 1]) < 0.1 ? 'closed' : 'open';
