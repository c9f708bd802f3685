/** Decisions about what lies beneath what, what kind of underlay it is, what a piece is sewn for, and how sure that is. */
import { columnFrame } from '../../lib/geometry/column-frame.js';
import { readColumnUnderlay } from '../../lib/segment/column-underlay.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { ALONE, AT_END, BETWEEN, keepRuns, type RunDraft } from '../../lib/segment/runs.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from './board.js';
import { type Probe, probe } from './probe.js';

const exact = (points: readonly Vec[]) => new Board(0).sew(points).stitches;
const found = (...parts: readonly Vec[][]): StitchObject[] => findObjects(exact(parts.flat()));
const under = (...parts: readonly Vec[][]) => found(...parts).at(-1)!.underlay.kinds;

/** What lies under a straight column of 20 mm by 4 mm. */
const beneath = (points: readonly Vec[], width = 4): readonly string[] => inParts([points], width, 20);
/** The same of several stretches, by default beneath a column of 60 mm by 6 mm. */
const inParts = (parts: readonly (readonly Vec[])[], width = 6, long = 60): readonly string[] => {
  const points = parts.flat();
  const all = [...points, ...zigzag(vec(0, 0), vec(long, 0), width, 0.4)];
  const { x, y } = exact(all);
  const from = Int32Array.from({ length: all.length - points.length - 1 }, (_, k) => points.length + k);
  const frame = columnFrame(
    x,
    y,
    from,
    from.map((k) => k + 1),
  );
  let next = 0;
  const indexes = parts.flatMap((part) => [...part.map(() => next++), -1]);
  return readColumnUnderlay(frame, x, y, indexes).kinds;
};
const along = (y: number, from: number, to: number) => walk(2, vec(from, y), vec(to, y));
const zig = (to: number, spacing = 2) => zigzag(vec(0, 0), vec(to, 0), 2.6, spacing);

/** Whether a straight run of so many stitches and millimeters is kept. */
const kept = (need: { points: number; mm: number }, stitches: number, mm: number) => {
  const runs: RunDraft[] = [];
  const points = Array.from({ length: stitches + 1 }, (_, k) => vec((k * mm) / stitches, 0));
  keepRuns(exact(points), 0, 0, stitches, need, runs);
  return runs.length === 1;
};
const needs = (name: string, need: { points: number; mm: number }, points: number, mm: number): Probe[] => [
  probe(`${name}Points`, points - 1.5, [1, 2 * points], (t) => kept(need, Math.round(t), 2 * mm), [
    false,
    true,
  ]),
  probe(`${name}Mm`, mm, [mm / 2, 2 * mm], (t) => kept(need, 2 * points, t), [false, true]),
];
const sureOf = (...points: readonly Vec[][]) =>
  found(...points).map(({ confidence }) => Math.round(confidence * 100) / 100);

/** Two slanting rows of a light fill and the ways between them along the edges, beneath a column of 14 mm by 7 mm. */
const SLANTING: readonly (readonly [number, number])[] = [
  [0.5, 2.9],
  [1.6, 1.8],
  [4, 1.8],
  [6.4, 1.8],
  [4.5, 3.7],
  [2.5, 5.7],
  [0.5, 7.7],
  [0.5, 10.1],
  [0.5, 12.5],
  [1.2, 11.9],
  [3.1, 9.9],
  [5.1, 8],
  [6.5, 6.5],
  [6.5, 9],
  [6.5, 11.4],
  [4.7, 13.2],
];
const overSlanting = (points: number) =>
  under(
    SLANTING.slice(0, points).map(([x, y]) => vec(y, x - 3.5)),
    zigzag(vec(14, 0), vec(0, 0), 7, 0.4),
  );

/** Whether a column of such a pitch closes over foam with a short zigzag so open and so wide. */
const capped = (pitch: number, open: number, wide: number) =>
  found(zigzag(vec(0.3, 0), vec(3.3, 0), wide, 2 * open), zigzag(vec(0, 0), vec(14, 0), 4, 2 * pitch)).some(
    ({ foam }) => foam,
  );

export const COVER_PROBES: readonly Probe[] = [
  ...needs('between', BETWEEN, 7, 14),
  ...needs('atEnd', AT_END, 4, 5),
  ...needs('alone', ALONE, 3, 1.5),
  probe('runCovers', 0.55, [0.3, 0.9], (t) => beneath(along(0, 0, 20 * t)), [[], ['center-run']]),
  probe('middleShare', 0.34, [0.1, 0.6], (t) => beneath(along(2 * t, 0, 20)), [['center-run'], []]),
  probe('middleMm', 0.28, [0.1, 0.6], (t) => beneath(along(t, 0, 20), 1.2), [['center-run'], []]),
  // in whole swings
  probe('zigzagCovers', 0.475, [0.2, 0.8], (t) => beneath(zig(20 * t)), [[], ['zigzag']]),
  probe(
    'doubleBack',
    0.425,
    [0.1, 0.8],
    (t) => beneath([...zig(20), ...zigzag(vec(20, 0), vec(20 - 20 * t, 0), 2.6, 2)]),
    [['zigzag'], ['double-zigzag']],
  ),
  probe(
    'alongRowsLeast',
    1.2,
    [0.8, 2],
    (t) => beneath([...along(-t, 0, 20), ...along(0, 20, 0), ...along(t, 0, 20)], 9),
    [['center-run'], ['fill']],
  ),
  probe(
    'alongRowsMost',
    5,
    [3, 7],
    (t) => beneath([...along(-t, 0, 20), ...along(0, 20, 0), ...along(t, 0, 20)], 16).includes('fill'),
    [true, false],
  ),
  probe(
    'edgeInset',
    1.15,
    [0.6, 1.6],
    (t) => beneath([...along(2.5 - t, 0, 20), ...along(t - 2.5, 20, 0)], 5),
    [['edge-run'], ['fill']],
  ),
  probe(
    'opener',
    1.5,
    [1.3, 1.9],
    (t) => under(zigzag(vec(1, 0), vec(19, 0), 3, 0.8 * t), zigzag(vec(20, 0), vec(0, 0), 4, 0.8)),
    [[], ['zigzag']],
  ),
  probe(
    'openPitch',
    0.5,
    [0.4, 0.7],
    (t) => under(zigzag(vec(1, 0), vec(19, 0), 3, 2 * t), zigzag(vec(20, 0), vec(0, 0), 4, 0.4)),
    [[], ['zigzag']],
  ),
  probe(
    'covered',
    0.8,
    [0.6, 0.95],
    (t) =>
      under(zigzag(vec(19 - 19.7 / t, 0), vec(19, 0), 3, 2), zigzag(vec(20, 0), vec(0, 0), 4, 0.4)).includes(
        'zigzag',
      ),
    [false, true],
  ),
  // so many needle points are 1.6 times the column's length
  probe('unknownThread', 10.5, [6, 16], (t) => overSlanting(Math.round(t)), [[], ['fill']]),
  probe(
    'runLong',
    15,
    [12, 19],
    (t) => inParts([0, 20, 40].map((x) => [...along(2, x, x + t), ...along(-2, x + t, x)])),
    [[], ['edge-run']],
  ),
  probe('foamPitch', 0.135, [0.12, 0.15], (t) => capped(t, 0.375, 1.5), [true, false]),
  // times 0.125 mm
  probe('capOpener', 2.5, [1.6, 3.2], (t) => capped(0.125, 0.125 * t, 1.5), [false, true]),
  // swings slant a little
  probe('capSwing', 0.4915, [0.25, 0.75], (t) => capped(0.125, 0.375, 4 * t), [true, false]),
  // a region begins before its column and ends behind it
  probe(
    'staysUnder',
    0.795,
    [0.5, 0.98],
    (t) => {
      const board = new Board(0).sew(walk(2, vec(0, 0), vec(20, 0))).move('trim');
      return findObjects(board.sew(zigzag(vec(-0.5, 0), vec(20 * t - 0.5, 0), 4, 0.4)).stitches).length;
    },
    [2, 1],
  ),
  probe(
    'prongTurn',
    0.6,
    [0.3, 0.85],
    (t) => {
      const prong = vec(3 * t, 3 * Math.sqrt(1 - t * t));
      const edge = Array.from({ length: 40 }, (_, k) => [
        vec(2 * k, 0),
        vec(2 * k + prong.x, prong.y),
        vec(2 * k, 0),
      ]);
      return found(edge.flat())[0].purpose;
    },
    ['edging', 'top'],
  ),
  // every second row has half a stitch more: on average they are a ninth shorter
  probe(
    'longRows',
    4.03,
    [3.4, 4.6],
    (t) => found(rows(0.33, 8, block(0, 4 * t + 0.01), { stitch: t }))[0].confidence > 0.9,
    [true, false],
  ),
  probe('netAlone', 1.8, [1.3, 2.4], (t) => found(rows(t, 20 * t, block(0, 20)))[0].purpose, ['top', 'net']),
  probe('sureRun', 0.75, [0.6, 0.9], (t) => sureOf(walk(2, vec(0, 0), vec(22, 0)))[0] > t, [true, false]),
  // of two doubts the nearer one counts: few legs, and a pitch right beside that of an open zigzag
  probe('sureFactor', 0.525, [0.4, 0.7], (t) => sureOf(zigzag(vec(0, 0), vec(3.92, 0), 4, 0.98))[0] > t, [
    true,
    false,
  ]),
  probe('sureLegs', 0.75, [0.6, 0.9], (t) => sureOf(zigzag(vec(0, 0), vec(1.6, 0), 4, 0.4))[0] > t, [
    true,
    false,
  ]),
  // of ten columns, so many on a run along their middle; the last one on none
  probe(
    'mostLie',
    0.65,
    [0.3, 0.9],
    (t) => {
      const board = new Board(0);
      for (let k = 0; k < 10; k++) {
        const at = (x: number) => vec(x, 9 * k);
        if (k < Math.round(10 * t)) board.sew(walk(2, at(0), at(20)), zigzag(at(20), at(0), 4, 0.4));
        else board.sew(zigzag(at(20), at(0), 4, 0.4));
        board.move('trim');
      }
      return findObjects(board.stitches).at(-1)!.confidence < 1;
    },
    [false, true],
  ),
  // a prong is two stitches more
  probe(
    'prongs',
    0.222,
    [0.02, 0.3],
    (t) => {
      const points = Array.from({ length: 100 }, (_, k) => {
        const out = Math.floor((k + 1) * t) > Math.floor(k * t);
        return out ? [vec(2 * k, 0), vec(2 * k, 3), vec(2 * k, 0)] : [vec(2 * k, 0)];
      }).flat();
      return found(points)[0].purpose;
    },
    ['top', 'edging'],
  ),
];
