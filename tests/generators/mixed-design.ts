import { Kind } from '../../lib/format/design.js';
import type { Design } from '../../lib/index.js';
import { FAMILIES } from './families/index.js';
import { Random } from './random.js';

/** Room between the parts, mm. */
const GAP = 8;
/** The longest move of one record of the three-byte format, mm. */
const LONGEST = 12.1;
/** Widest row of parts, mm. */
const ROW = 180;

/**
 * A design as an archive holds them: parts from all families side by side, a trim between them.
 *
 * @param stitches needle points at least
 */
export function mixedDesign(seed: number, stitches: number): Design {
  const random = new Random(seed, 'mixed-design');
  const names = Object.keys(FAMILIES);
  const x: number[] = [];
  const y: number[] = [];
  const kind: number[] = [];
  const record = (atX: number, atY: number, what: number) => {
    x.push(atX);
    y.push(atY);
    kind.push(what);
  };
  const tenth = (v: number) => Math.round(v * 10) / 10;
  let points = 0;
  let [left, top, rowHeight] = [0, 0, 0];
  while (points < stitches) {
    const part = FAMILIES[random.pick(names)](random.int(0, 100_000)).design;
    const [minX, maxX] = extent(part.x);
    const [minY, maxY] = extent(part.y);
    if (left > 0 && left + maxX - minX > ROW) {
      left = 0;
      top -= rowHeight + GAP;
      rowHeight = 0;
    }
    for (let i = part.kind.indexOf(Kind.stitch); i < part.kind.length; i++) {
      if (part.kind[i] === Kind.end || part.kind[i] === Kind.jump) continue;
      const [atX, atY] = [tenth(part.x[i] - minX + left), tenth(part.y[i] - maxY + top)];
      // Every long way is a trim, that to the part's first stitch as well.
      const far = Math.max(Math.abs(atX - (x.at(-1) ?? atX)), Math.abs(atY - (y.at(-1) ?? atY))) > LONGEST;
      if (far && part.kind[i] === Kind.stitch) record(atX, atY, Kind.trim);
      record(atX, atY, part.kind[i]);
      if (part.kind[i] === Kind.stitch) points++;
    }
    left += maxX - minX + GAP;
    rowHeight = Math.max(rowHeight, maxY - minY);
  }
  record(x.at(-1)!, y.at(-1)!, Kind.end);
  return {
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    kind: Uint8Array.from(kind),
    thread: null,
    header: [],
    diagnostics: [],
    format: 'dst',
  };
}

function extent(values: Float64Array): [number, number] {
  return values.reduce<[number, number]>(
    ([least, most], v) => [Math.min(least, v), Math.max(most, v)],
    [Infinity, -Infinity],
  );
}
