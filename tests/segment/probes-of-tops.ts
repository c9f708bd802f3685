/** Decisions about patches, columns, areas, their ends, and the fabric that they lie on. */
import { assembleTops, sharedRows } from '../../lib/segment/assemble-tops.js';
import { fits } from '../../lib/segment/cuts.js';
import { findField, patternOf } from '../../lib/segment/fields.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { findPatches } from '../../lib/segment/patches.js';
import { continueRows } from '../../lib/segment/row-ends.js';
import { countPasses } from '../../lib/segment/run-passes.js';
import { goOnToTip } from '../../lib/segment/tips.js';
import { radians, type Vec, vec } from '../generators/plane.js';
import { Board, block, ringRun, rows, walk, zigzag } from './board.js';
import { type Probe, probe } from './probe.js';

const exact = (points: readonly Vec[]) => new Board(0).sew(points).stitches;
const patchesOf = (points: readonly Vec[]) => {
  const stitches = exact(points);
  return findPatches(stitches, new LegFinder(stitches, stitches.count).find(0, stitches.count - 1));
};
const topsOf = (points: readonly Vec[]) => assembleTops(exact(points), patchesOf(points), 0);
const kindOf = (points: readonly Vec[]) => patchesOf(points)[0]?.kind ?? null;
const moved = (points: readonly Vec[], x: number, y: number) => points.map((p) => vec(p.x + x, p.y + y));

/** Swings a pitch apart. */
const swings = (pitch: number, width = 4, legs = 30) =>
  zigzag(vec(0, 0), vec(legs * pitch, 0), width, 2 * pitch);
/** Rows that lead straight on to the next, each in equal parts. */
const joined = (pitch: number, part: number, parts: number): Vec[] => {
  const out = [vec(0, 0)];
  for (let r = 0; r < 16; r++)
    for (let p = 1; p <= parts; p++) out.push(vec((r % 2 ? parts - p : p) * part, (r + p / parts) * pitch));
  return out;
};
/** Swings of which so many have a needle point in their middle. */
const broken = (share: number, width = 5): Vec[] => {
  const ends = swings(0.2, width, 100);
  return ends.flatMap((p, k) => {
    const q = ends[k - 1];
    const splits = k > 0 && Math.floor(k * share) > Math.floor((k - 1) * share);
    return splits ? [vec((p.x + q.x) / 2, (p.y + q.y) / 2), p] : [p];
  });
};
/** Two blocks of rows on one thread. */
const two = (by: Vec, apart = 0.4, degrees = 0) => {
  const [c, s] = [Math.cos(radians(degrees)), Math.sin(radians(degrees))];
  const second = rows(apart, 12, block(0, 16)).map((p) => vec(p.x * c - p.y * s, p.x * s + p.y * c));
  return topsOf([...rows(0.4, 12, block(0, 16)), ...moved(second, by.x, by.y)]).length;
};

/** Whether two sets of ten rows, turned against each other, can be sections of one fill. */
const alike = (degrees: number, long: number) => {
  const way = (k: number): Vec => {
    const angle = k < 10 ? 0 : radians(degrees);
    return vec(long * Math.cos(angle), long * Math.sin(angle));
  };
  const stitches = exact(
    Array.from({ length: 20 }, (_, k) => [vec(0, k * 0.4), vec(way(k).x, k * 0.4 + way(k).y)]).flat(),
  );
  const patch = (first: number) => {
    const from = Int32Array.from({ length: 10 }, (_, k) => 2 * (first + k));
    const to = from.map((i) => i + 1);
    return { from, to, kind: 'rows' as const, pitchMm: 0.4, legMm: long, split: false };
  };
  return sharedRows(stitches, [patch(0)], [patch(10)]) !== null;
};

/** How far rows up to y = 0.4 are continued by a point, or by two. */
const rowsOn = (...points: Vec[]) => {
  const all = [vec(0, 0), vec(9, 0), vec(9, 0.4), vec(0, 0.4), ...points];
  return continueRows(exact(all), { inner: [0, 1], outer: [2, 3] }, 0.4, 3, all.length - 1) - 3;
};
/** How many swings go on from a column along x that ends with a swing so wide, 0.2 mm a swing. */
const tip = (width: number, ...points: Vec[]) => {
  const swing = zigzag(vec(0, 0), vec(1.2, 0), width, 0.4);
  const all = [...swing, ...points];
  const from = Int32Array.from({ length: swing.length - 1 }, (_, k) => k);
  return goOnToTip(
    exact(all),
    from,
    from.map((k) => k + 1),
    1,
    all.length - 1,
  ).length;
};
const column = () => topsOf(zigzag(vec(0, 0), vec(20, 0), 4, 0.4))[0];

/** A field of rings, so far apart. */
const rings = (apart: number, count: number): Vec[] =>
  Array.from({ length: count }, (_, k) => ringRun(14 - k * apart, 2.5)).flat();
/** How a spiral is sewn whose needle points lie in and out of it by turns. */
const wavy = (aside: number) => {
  const points = Array.from({ length: 330 }, (_, k): Vec => {
    const angle = 0.17 * (k + 1);
    const r = 14 - angle / (2 * Math.PI) + (k % 2 ? aside : -aside);
    return vec(r * Math.cos(angle), r * Math.sin(angle));
  });
  return findField(exact(points), 0, points.length - 1)?.pattern;
};
const patterned = (lines: readonly (readonly Vec[])[], pitch = 0.4) => {
  const ends = lines.map((line) => line.length);
  const from = Int32Array.from(ends, (_, k) => ends.slice(0, k).reduce((a, b) => a + b, 0));
  return patternOf(
    exact(lines.flat()),
    from,
    from.map((f, k) => f + ends[k] - 1),
    pitch,
  );
};
/** A line of ten millimeters in four stitches that rises in its middle. */
const arch = (rise: number): Vec[] =>
  [0, 2.5, 5, 7.5, 10].map((x) => vec(x, rise * (1 - Math.abs(x - 5) / 5)));
const lines = (...points: Vec[]) => countPasses(exact(points), 0, points.length - 1);
const passes = (width: number, again: readonly Vec[]) =>
  findObjects(exact([...swings(0.2, width, 80), ...again])).map((o) => o.passes);
const back = (pitch: number, width: number) => [...zigzag(vec(16, 0), vec(0, 0), width, 2 * pitch)];

/** Open rows of 12 mm; those that are bent have a needle point so far on and so far aside, as shares of their length. */
const bentRows = (on: number, aside: number, isBent: (row: number) => boolean = () => true) =>
  Array.from({ length: 20 }, (_, r) => {
    const y = 1.5 * r;
    const row = [vec(0, y), vec(12 * on, y + (isBent(r) ? 12 * aside : 0)), vec(12, y)];
    return r % 2 ? row.reverse() : row;
  }).flat();

export const TOP_PROBES: readonly Probe[] = [
  probe('pitchLess', 0.35, [0.1, 0.9], (t) => fits(t, 1), [false, true]),
  probe('pitchMore', 2.8, [1.2, 4], (t) => fits(t, 1), [true, false]),
  probe(
    'cutOpener',
    2.2,
    [1.8, 2.8],
    (t) => patchesOf([...swings(0.3), ...moved(swings(0.3 * t), 9, 0)]).length,
    [1, 2],
  ),
  probe(
    'fewestLegs',
    3.5,
    [2, 6],
    (t) => patchesOf(zigzag(vec(0, 0), vec(0.2 * Math.round(t), 0), 4, 0.4)).length,
    [0, 1],
  ),
  probe('leastPitch', 0.06, [0.03, 0.12], (t) => patchesOf(swings(t)).length, [0, 1]),
  probe('brokenShare', 0.2, [0.1, 0.4], (t) => patchesOf(broken(t))[0].split, [false, true]),
  probe('leastSplit', 2.5, [1.5, 4], (t) => patchesOf(broken(1, t))[0].split, [false, true]),
  probe('rowPitch', 0.2, [0.12, 0.3], (t) => kindOf(rows(t, 30 * t, block(0, 16))), ['swings', 'rows']),
  probe('rowsFrom', 0.31, [0.25, 0.4], (t) => kindOf(joined(t, 3, 4)), ['swings', 'rows']),
  probe('longRowsFrom', 0.42, [0.33, 0.5], (t) => kindOf(joined(t, 5, 3)), ['swings', 'rows']),
  probe('splitStitch', 4.4, [3.6, 5], (t) => kindOf(joined(0.36, t, 3)), ['rows', 'swings']),
  probe('rowsPoints', 3.5, [2, 6], (t) => kindOf(joined(0.25, 3, Math.round(t) + 1)), ['swings', 'rows']),
  probe(
    'oddLonger',
    8.3,
    [6, 11],
    (t) => patchesOf([vec(-0.2, 2.5 - t), ...zigzag(vec(0, 0), vec(6, 0), 5, 0.4)])[0].from[0],
    [0, 1],
  ),
  probe(
    'backPlace',
    0.16,
    [0.13, 0.25],
    (t) => patchesOf(zigzag(vec(0, 0), vec(3 * t, 0), 4, t)).length,
    [0, 1],
  ),
  probe('rowRise', 0.15, [0.05, 0.25], (t) => patchesOf(bentRows(0.5, t)).length, [1, 0]),
  probe('rowEnd', 0.2, [0.193, 0.35], (t) => patchesOf(bentRows(t, 0.152)).length, [1, 0]),
  probe(
    'rowsBent',
    0.45,
    [0.2, 0.7],
    (t) => patchesOf(bentRows(0.5, 0.2, (r) => Math.floor((r + 1) * t) > Math.floor(r * t))).length,
    [1, 0],
  ),
  probe('sameRows', 6, [3, 10], (t) => alike(t, 16), [true, false]),
  probe('sameShortRows', 14, [10, 20], (t) => alike(t, 3), [true, false]),
  probe('shortRows', 4, [3, 6], (t) => alike(10, t), [true, false]),
  probe('sectionsMore', 1.4, [1.1, 1.8], (t) => two(vec(17, 0), 0.4 * t), [1, 2]),
  probe('sectionsLess', 0.72, [0.55, 0.95], (t) => two(vec(17, 0), 0.4 * t), [2, 1]),
  probe('rowsLost', 2.8, [1.8, 4], (t) => two(vec(0, 12 + t)), [1, 2]),
  probe('sectionsNear', 1.5, [0.8, 2.4], (t) => two(vec(16 + t, 0)), [1, 2]),
  probe('rowStep', 1.8, [1.2, 3], (t) => rowsOn(vec(0, 0.4 + 0.4 * t)), [1, 0]),
  probe('onRow', 0.4, [0.2, 0.8], (t) => rowsOn(vec(0, 0.4 + 0.4 * t)), [0, 1]),
  probe('rowBeyond', 2.5, [1, 4], (t) => rowsOn(vec(-t, 0.8)), [1, 0]),
  probe('tipStart', 1.6, [1, 2.2], (t) => tip(t, vec(1.4, -t / 2)), [1, 0]),
  probe(
    'tipLonger',
    1.15,
    [0.9, 1.5],
    (t) => tip(1.5, vec(1.4, 0.75 - Math.sqrt((1.515 * t + 0.1) ** 2 - 0.04))),
    [1, 0],
  ),
  probe('columnMargin', 0.3, [0.1, 0.6], (t) => column().region.contains(10.1, 2 + t), [true, false]),
  probe('columnBefore', 0.7, [0.3, 1.2], (t) => column().region.contains(-t, 0), [true, false]),
  // rings of chords lie nearer to each other than their corners
  probe(
    'fieldPitch',
    1.262,
    [1, 1.7],
    (t) => findField(exact(rings(t, 8)), 0, rings(t, 8).length - 1) !== null,
    [true, false],
  ),
  // a twentieth of all turns goes the other way then
  probe('fieldBack', 0.0622, [0, 0.09], wavy, ['spiral', 'outline']),
  probe('loosePitch', 1, [0.7, 1.4], (t) => patterned([arch(0), arch(0)], t), ['rows', 'loose']),
  probe(
    'radialSpread',
    0.8,
    [0.6, 0.95],
    (t) => {
      const half = Math.acos(t) / 2;
      const line = (a: number) => [vec(0, 0), vec(10 * Math.cos(a), 10 * Math.sin(a))];
      return patterned([line(half), line(-half)]);
    },
    ['radial', 'rows'],
  ),
  probe('curvedRise', 0.5, [0.2, 1], (t) => patterned([arch(t), arch(t)]), ['rows', 'curved']),
  probe(
    'curvedStitches',
    2.5,
    [2, 4],
    (t) =>
      patterned([
        Array.from({ length: Math.round(t) + 1 }, (_, k) =>
          vec((10 * k) / Math.round(t), k % Math.round(t) === 0 ? 0 : 2),
        ),
      ]),
    ['rows', 'curved'],
  ),
  probe(
    'lineBeside',
    0.3,
    [0.1, 0.6],
    (t) => lines(...walk(2.5, vec(0, 0), vec(20, 0)), ...walk(2.5, vec(20, t), vec(0, t))),
    [2, 1],
  ),
  probe(
    'lineLeast',
    0.8,
    [0.5, 1.2],
    (t) => lines(...walk(t, vec(0, 0), vec(24 * t, 0)), ...walk(t, vec(24 * t, 0.1), vec(0, 0.1))),
    [1, 2],
  ),
  probe('passPitch', 1.6, [1.2, 2.2], (t) => passes(4, back(0.2 * t, 4)), [[2], [1, 1]]),
  probe('passWidth', 1.2, [1.05, 1.4], (t) => passes(2, back(0.2, 2 * t)), [[2], [1, 1]]),
];
