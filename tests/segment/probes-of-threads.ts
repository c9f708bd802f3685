/** Decisions about threads, locks, legs and strings of legs. */
import { findLegStrings } from '../../lib/segment/leg-strings.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { countLockStitches, locksBetween } from '../../lib/segment/locks.js';
import { findThreads } from '../../lib/segment/threads.js';
import { radians, type Vec, vec } from '../generators/plane.js';
import { Board, rows, walk } from './board.js';
import { type Probe, probe } from './probe.js';

const exact = (points: readonly Vec[]) => new Board(0).sew(points).stitches;

/** Threads of a run, a move by jumps, and what is sewn from there. */
const threads = (...after: Vec[]) =>
  findThreads(
    new Board(0)
      .sew(walk(3, vec(-9, 0), vec(0, 0)))
      .move('jump')
      .sew(after).stitches,
  ).length;

const away = walk(2.5, vec(8, 3), vec(30, 3));
const locked = (...points: Vec[]) => {
  const all = [vec(0, 0), ...points, ...away];
  return countLockStitches(exact(all), 0, 1, all.length - 1);
};
const turn = (degrees: number, length = 1): Vec =>
  vec(length * Math.cos(radians(degrees)), length * Math.sin(radians(degrees)));

/** A polygon of so many sides, back to its beginning. */
const polygon = (sides: number, side: number): Vec[] => {
  const out: Vec[] = [];
  let at = vec(0, 0);
  for (let k = 0; k < sides; k++) {
    const step = turn((360 * k) / sides, side);
    at = vec(at.x + step.x, at.y + step.y);
    out.push(at);
  }
  return out;
};

const legs = (...points: Vec[]) => {
  const stitches = exact(points);
  return new LegFinder(stitches, stitches.count).find(0, stitches.count - 1);
};
const legCount = (...points: Vec[]) => legs(...points).count;
/** Legs of all strings. */
const strung = (points: readonly Vec[]) => {
  const stitches = exact(points);
  const found = new LegFinder(stitches, stitches.count).find(0, stitches.count - 1);
  return findLegStrings(stitches, found, 4).reduce((n, { from }) => n + from.length, 0);
};

/** Twelve legs in two directions by turns, whose cosine is given, each in so many stitches. */
const toAndFro = (cosine: number, lengths: readonly [number, number], parts = 1): Vec[] => {
  const ways = [vec(1, 0), vec(cosine, Math.sqrt(1 - cosine * cosine))];
  const out = [vec(0, 0)];
  for (let k = 0; k < 12; k++)
    for (let p = 0; p < parts; p++) {
      const { x, y } = out[out.length - 1];
      const l = lengths[k % 2] / parts;
      out.push(vec(x + ways[k % 2].x * l, y + ways[k % 2].y * l));
    }
  return out;
};

/** Rows with steps between them. */
const stepped = (long: number, step: number): Vec[] =>
  rows(step, 9.5 * step, () => [0, long], { stitch: 2.5 });
const anyRows = (points: readonly Vec[]) => strung(points) === 10;

/** Swings 3 mm wide whose ends lie so far from the next on their rail. */
const dense = (step: (k: number) => number): Vec[] => {
  const rails = [0, 0];
  return Array.from({ length: 20 }, (_, k) => {
    const x = rails[k % 2];
    rails[k % 2] += step(k);
    return vec(x, k % 2 ? 0 : 3);
  });
};
/** Legs of 6 mm, each turned the same way against the one before, whose cosine backwards is given. */
const star = (cosine: number): Vec[] => {
  const out = [vec(0, 0)];
  for (let k = 0; k < 14; k++) {
    const { x, y } = out[k];
    const heading = k * Math.acos(-cosine);
    out.push(vec(x + 6 * Math.cos(heading), y + 6 * Math.sin(heading)));
  }
  return out;
};

export const THREAD_PROBES: readonly Probe[] = [
  probe('longStitch', 17, [13, 24], (t) => threads(vec(t, 0), vec(t + 3, 0)), [1, 2]),
  probe('record', 12.1, [8, 16], (t) => threads(vec(t, 0), vec(t + 3, 0)), [2, 1]),
  probe('longAlike', 0.25, [0.1, 0.6], (t) => threads(vec(20, 0), vec(20 - 20 * t, 0)), [2, 1]),
  probe('longTurn', 45, [10, 80], (t) => threads(vec(20, 0), vec(20 - turn(t, 15).x, turn(t, 15).y)), [1, 2]),
  probe('lockStitch', 1.05, [0.6, 1.5], (t) => locked(vec(t, 0), vec(0, 0), vec(t, 0), vec(0, 0)), [4, 0]),
  // in and out of a square, whose last side is as long as that
  probe(
    'lockRoundStitch',
    1.25,
    [1.06, 1.5],
    (t) => locked(vec(0.5, 0.5), vec(-0.5, t - 0.6), vec(0, t), vec(0, 0)),
    [4, 0],
  ),
  probe('samePlace', 0.16, [0.05, 0.4], (t) => locked(vec(0.6, 0), vec(0, -t)), [2, 0]),
  probe(
    'lockCloses',
    0.29,
    [0.1, 0.5],
    (t) => locked(vec(0.6, 0), vec(0.6, 0.6), vec(0, 0.6), vec(0, -t)),
    [4, 0],
  ),
  probe('lockLeast', 0.15, [0.05, 0.4], (t) => locked(vec(t, 0), vec(0, 0)), [0, 2]),
  probe(
    'lockOnSpot',
    2.5,
    [1, 4],
    (t) => locked(...Array.from({ length: Math.round(t) }, () => vec(0, 0))) > 0,
    [false, true],
  ),
  probe(
    'lockStraight',
    0.95,
    [0.8, 1],
    (t) => {
      const bend = turn((2 * Math.acos(t) * 180) / Math.PI, 0.5);
      return locked(vec(0.5, 0), vec(0.5 + bend.x, bend.y));
    },
    [0, 2],
  ),
  probe(
    'lockLonger',
    1.5,
    [1.35, 2.5],
    (t) => locked(vec(0.8, 0), vec(1.6, 0), vec(1.6 + 0.8 * t, 0), vec(9, 0)) > 0,
    [false, true],
  ),
  probe(
    'lockShorter',
    0.55,
    [0.3, 0.69],
    (t) => locked(vec(0.5, 0), vec(0, 0), vec(-1.5 * t, 0), vec(-1.5 * t - 1.5, 0), vec(-1.5 * t - 3, 0)),
    [3, 2],
  ),
  probe('lockRound', 4.5, [3, 6], (t) => locked(...polygon(Math.round(t), 0.6)) > 0, [true, false]),
  probe(
    'lockMost',
    9.5,
    [6, 14],
    (t) =>
      locked(...Array.from({ length: Math.round(t) }, (_, k) => vec(k % 2 ? 0 : 0.5, 0))) === Math.round(t),
    [true, false],
  ),
  probe(
    'lockHome',
    1.5,
    [0.5, 3],
    (t) => {
      const all = [
        vec(-9, 0),
        vec(-6, 0),
        vec(0, 0),
        vec(0, 0.5),
        vec(0, 0),
        vec(0, 0.5),
        vec(6, 0),
        vec(9, 0),
      ];
      // the end that they lock
      return locksBetween(exact([...all, vec(0, -t)]), 0, 6, 7, 8);
    },
    [true, false],
  ),
  probe('legMerge', 0.45, [0.2, 0.8], (t) => legCount(vec(0, 0), vec(3, 0), vec(3, t), vec(0, t)), [2, 3]),
  probe(
    'corner',
    50,
    [30, 70],
    (t) => legCount(vec(0, 0), vec(3, 0), vec(3 + turn(t, 3).x, turn(t, 3).y)),
    [1, 2],
  ),
  probe(
    'retrace',
    0.18,
    [0.05, 0.4],
    (t) => legCount(vec(0, 0), vec(2, 0), vec(0, t), vec(2, 0), vec(5, 0)),
    [1, 3],
  ),
  probe(
    'retraceStitch',
    0.8,
    [0.5, 1.2],
    (t) => legCount(vec(0, 0), vec(t, 0), vec(0, 0), vec(t, 0), vec(5, 0)),
    [3, 1],
  ),
  // three swings come three steps far
  probe('denseWay', 0.25, [0.2, 0.35], (t) => legCount(...dense(() => t / 3)), [7, 19]),
  probe('denseStep', 0.3, [0.2, 0.4], (t) => legCount(...dense((k) => ((k >> 1) % 2 ? t : 0.1))), [19, 9]),
  probe('straightBack', 0.87, [0.75, 0.97], (t) => strung(star(t)), [0, 14]),
  probe('turnBack', 0.5, [0.3, 0.7], (t) => strung(toAndFro(-t, [6, 4])) > 0, [false, true]),
  probe('rowsBack', 0.87, [0.75, 0.97], (t) => strung(toAndFro(-t, [6, 4], 2)) > 0, [false, true]),
  probe('zigzagTurn', 0.35, [0.1, 0.5], (t) => strung(toAndFro(t, [4, 4])) > 0, [true, false]),
  probe('zigzagEven', 1.35, [1.1, 1.8], (t) => strung(toAndFro(0.2, [4, 4 * t])) > 0, [true, false]),
  probe('stepShare', 0.7, [0.5, 0.9], (t) => anyRows(stepped(5, 5 * t)), [true, false]),
  probe('stepLongest', 6, [4, 8], (t) => anyRows(stepped(15, t)), [true, false]),
];
