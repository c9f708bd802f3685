/** Decisions about what kind of underlay lies beneath a long column, and beneath an area. */
import { columnFrame } from '../../lib/geometry/column-frame.js';
import { readColumnUnderlay } from '../../lib/segment/column-underlay.js';
import { readFillUnderlay } from '../../lib/segment/fill-underlay.js';
import { FillRegion } from '../../lib/segment/region.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from './board.js';
import { type Probe, probe } from './probe.js';

const exact = (points: readonly Vec[]) => new Board(0).sew(points).stitches;
const lengthOf = (points: readonly Vec[]) =>
  points.slice(1).reduce((sum, p, k) => sum + Math.hypot(p.x - points[k].x, p.y - points[k].y), 0);

/** What lies beneath a column so long and so wide, of stretches of thread between which it was left. */
const beneath = (parts: readonly (readonly Vec[])[], width = 6, long = 60): readonly string[] => {
  const points = parts.flat();
  const all = [...points, ...zigzag(vec(0, 0), vec(long, 0), width, 0.4)];
  const { x, y } = exact(all);
  const from = Int32Array.from({ length: all.length - points.length - 1 }, (_, k) => points.length + k);
  const to = from.map((i) => i + 1);
  let next = 0;
  const indexes = parts.flatMap((part) => [...part.map(() => next++), -1]);
  return readColumnUnderlay(columnFrame(x, y, from, to), x, y, indexes).kinds;
};
const along = (y: number, from: number, to: number) => walk(2, vec(from, y), vec(to, y));
const swings = (spacing: number, to = 60) => zigzag(vec(0, 0), vec(to, 0), 2.6, spacing);

const WIDE = 30;
const HIGH = 20;
/** What lies beneath an area. */
const beneathArea = (points: readonly Vec[]): readonly string[] => {
  const top = rows(0.4, HIGH, block(0, WIDE));
  const stitches = exact([...points, ...top]);
  const { x, y } = stitches;
  const from: number[] = [];
  for (let i = points.length; i + 1 < stitches.count; i++) if (y[i + 1] === y[i]) from.push(i);
  const ends = Int32Array.from(from);
  const region = new FillRegion(
    x,
    y,
    ends,
    ends.map((i) => i + 1),
    0.4,
  );
  return readFillUnderlay(stitches, region, [{ first: 0, last: points.length - 1, patch: null }]).kinds;
};
/** Rows of a light fill, so far apart, and the same across them. */
const light = (apart: number, count: number) =>
  Array.from({ length: count }, (_, r) => {
    const row = [vec(4, 3 + r * apart), vec(20, 3 + r * apart)];
    return r % 2 ? row.reverse() : row;
  }).flat();
const across = (points: readonly Vec[]) => points.map(({ x, y }) => vec(y, x - 1));
/** So much thread round and round, in every direction alike. */
const round = (mm: number) =>
  Array.from({ length: Math.round(mm / 2) + 1 }, (_, k) =>
    vec(15 + 5 * Math.cos(0.4 * k), 10 + 5 * Math.sin(0.4 * k)),
  );
const withRound = (points: readonly Vec[], share: number) =>
  beneathArea([...points, ...round((lengthOf(points) * (1 - share)) / share)]);
/** Along the edge and back, so long together. */
const alongEdge = (mm: number) => {
  const side = WIDE - 2;
  const far = mm / 2 > side ? [vec(1 + side, 1), vec(1 + side, 1 + mm / 2 - side)] : [vec(1 + mm / 2, 1)];
  return beneathArea(walk(2, vec(1, 1), ...far, ...far.slice(0, -1).reverse(), vec(1, 1)));
};

export const UNDERLAY_PROBES: readonly Probe[] = [
  // 2.6 mm across for so many along
  probe('crossSteep', 7.43, [4, 12], (t) => beneath([swings(2 * t)]), [['zigzag'], ['center-run']]),
  probe('runCovers', 0.55, [0.4, 0.8], (t) => beneath([along(2, 0, 60 * t), along(-2, 60 * t, 0)]), [
    [],
    ['edge-run'],
  ]),
  probe('doubleLong', 1.558, [1.2, 1.9], (t) => beneath([swings(2), swings(2, 60 * (t - 1))]), [
    ['zigzag'],
    ['double-zigzag'],
  ]),
  probe(
    'alongRowsUneven',
    0.35,
    [0.1, 0.6],
    (t) => beneath([[...along(-2, 0, 60), ...along(0, 60, 0), ...along(2 * (1 + t), 0, 60)]], 9),
    [['fill'], ['center-run', 'edge-run']],
  ),
  probe('underRowsApart', 0.9, [0.6, 1.3], (t) => beneathArea(light(t, 12)), [[], ['fill']]),
  // with the rows go seven of sixty directions of what goes round, but not the steps between them; with those of both ways fourteen
  probe('underRowsShare', 0.524, [0.3, 0.7], (t) => withRound(light(2, 8), t), [[], ['fill']]),
  probe(
    'underRowsCrossed',
    0.622,
    [0.5, 0.9],
    (t) => withRound([...light(2, 6), ...across(light(2, 6))], t),
    [[], ['fill']],
  ),
  // of the outline of a circle as large as the cells of the area
  probe('edgeFollows', 62.5, [45, 80], alongEdge, [[], ['edge-run']]),
];
