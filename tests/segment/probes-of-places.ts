/** Decisions about what belongs together: areas in one line, sections of one area, columns that go on, their tips, passes. */
import { assembleTops, sharedRows } from '../../lib/segment/assemble-tops.js';
import { findField } from '../../lib/segment/fields.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { Patch } from '../../lib/segment/patches.js';
import { countPasses } from '../../lib/segment/run-passes.js';
import { goOnSwinging, goOnToTip } from '../../lib/segment/tips.js';
import { radians, type Vec, vec } from '../generators/plane.js';
import { Board, block, ringRun, rows, walk, zigzag } from './board.js';
import { type Probe, probe } from './probe.js';

const exact = (points: readonly Vec[]) => new Board(0).sew(points).stitches;
const found = (...parts: readonly (readonly Vec[])[]) => findObjects(exact(parts.flat()));
const moved = (points: readonly Vec[], x: number, y: number) => points.map((p) => vec(p.x + x, p.y + y));
const lengthOf = (points: readonly Vec[]) =>
  points.slice(1).reduce((sum, p, k) => sum + Math.hypot(p.x - points[k].x, p.y - points[k].y), 0);
const patch = (kind: Patch['kind'], from: Int32Array, pitchMm: number, legMm: number): Patch => ({
  from,
  to: from.map((i) => i + 1),
  kind,
  pitchMm,
  legMm,
  split: false,
});

/** The area that comes after a short run. */
const fieldOf = (points: readonly Vec[]) => {
  const run = walk(3, vec(-60, 40), vec(-60, 85));
  return findField(exact([...run, ...points]), run.length, run.length + points.length - 1);
};
const rings = (apart: number, count: number, outer = 14) =>
  Array.from({ length: count }, (_, k) => ringRun(outer - k * apart, 2)).flat();
/** A square spiral from its middle outward, a stitch for each of so many sides. */
const square = (sides: number): Vec[] => {
  const out = [vec(0, 0)];
  for (let k = 0; k < sides; k++) {
    const { x, y } = out[out.length - 1];
    const long = 3 + 0.4 * k;
    out.push(vec(x + [long, 0, -long, 0][k % 4], y + [0, long, 0, -long][k % 4]));
  }
  return out;
};
/** How a spiral is sewn that turns by so much at each of some corners, and evenly between them. */
const cornered = (corners: number, angle: number) => {
  const steps = 12 * corners;
  const even = (2 * Math.PI - corners * angle) / (steps - corners);
  const loop: Vec[] = [];
  let [x, y, heading] = [0, 0, 0];
  for (let k = 1; k <= steps; k++) {
    loop.push(vec(x, y));
    x += Math.cos(heading);
    y += Math.sin(heading);
    heading += k % 12 === 0 ? angle : even;
  }
  const [mx, my] = [loop.reduce((s, p) => s + p.x, 0) / steps, loop.reduce((s, p) => s + p.y, 0) / steps];
  const reach = Math.max(...loop.map((p) => Math.hypot(p.x - mx, p.y - my)));
  const points = Array.from({ length: 16 * steps }, (_, k) => {
    const scale = (14 - (0.7 * k) / steps) / reach;
    return vec((loop[k % steps].x - mx) * scale, (loop[k % steps].y - my) * scale);
  });
  return fieldOf(points)?.pattern;
};

/** How many areas two sections of rows on threads of their own are. */
const areas = (one: readonly Vec[], other: readonly Vec[]) =>
  findObjects(new Board(0).sew(one).move('trim').sew(other).stitches).length;
const section = rows(0.4, 12, block(0, 16));
/** Rows of which those farther from the middle one than so many lie off the raster. */
const strayed = (kept: number) =>
  section.map((p) => (Math.abs(p.y - 6) > kept * 0.4 + 0.01 ? vec(p.x, p.y + 0.2) : p));
/** Rows to both sides of their raster by turns, so that it shows only so clearly. */
const shaken = (clear: number) => {
  const by = (Math.acos(clear) * 0.4) / (2 * Math.PI);
  return section.map((p) => vec(p.x, p.y + (Math.round(p.y / 0.4) % 4 < 2 ? by : -by)));
};
/** Whether ten rows whose directions agree so much can be sections of one area with parallel ones. */
const agree = (share: number) => {
  const half = Math.acos(share) / 2;
  const points = Array.from({ length: 20 }, (_, k) => {
    const angle = k >= 10 ? 0 : k % 2 ? half : -half;
    return [vec(0, k * 0.4), vec(16 * Math.cos(angle), k * 0.4 + 16 * Math.sin(angle))];
  }).flat();
  const part = (first: number) =>
    patch(
      'rows',
      Int32Array.from({ length: 10 }, (_, k) => 2 * (first + k)),
      0.4,
      16,
    );
  return sharedRows(exact(points), [part(0)], [part(10)]) !== null;
};

/** How many columns two are that lie so many stitches, so far and at such an angle apart, the pitch of the second so many times as large. */
const columns = (gap: number, apart: number, degrees = 0, times = 1) => {
  const one = zigzag(vec(0, 0), vec(8, 0), 4, 0.4);
  const start = vec(7.8 + apart, 0);
  const angle = radians(degrees);
  const two = zigzag(start, vec(start.x + 8 * Math.cos(angle), 8 * Math.sin(angle)), 4, 0.4);
  const between = Array.from({ length: gap - 1 }, (_, k) => vec(8.05, 0.5 * k));
  const swings = (first: number, count: number, pitch: number) =>
    patch(
      'swings',
      Int32Array.from({ length: count }, (_, k) => first + k),
      pitch,
      4,
    );
  const patches = [
    swings(0, one.length - 1, 0.2),
    swings(one.length + between.length, two.length - 1, 0.2 * times),
  ];
  return assembleTops(exact([...one, ...between, ...two]), patches, 0).length;
};

const ends = (count: number) => {
  const from = Int32Array.from({ length: count - 1 }, (_, k) => k);
  return [from, from.map((k) => k + 1)] as const;
};
const column = (width: number) => zigzag(vec(0, 0), vec(1.2, 0), width, 0.4);
/** How many swings go on to the tip of a column so wide, the next one with its middle so far on and so far beside the line. */
const tip = (width: number, on: number, beside: number) => {
  const swings = column(width);
  const all = exact([...swings, vec(1 + 2 * on, 2 * beside - width / 2)]);
  return goOnToTip(all, ...ends(swings.length), 1, swings.length).length;
};
/** The same of the whole swings of a column 4 mm wide. */
const swinging = (point: Vec) => {
  const swings = column(4);
  return goOnSwinging(exact([...swings, point]), ...ends(swings.length), 1, swings.length, 0.2).length;
};

const lines = (...points: Vec[]) => countPasses(exact(points), 0, points.length - 1);
const net = rows(3, 24, block(0, 24));
/** How many pieces an open zigzag is that goes on round a corner, so many times as open and as wide. */
const roundCorner = (open: number, wide: number) =>
  found(zigzag(vec(0, 0), vec(15, 0), 3, 2), zigzag(vec(16, -1.5), vec(16, -16.5), 3 * wide, 2 * open))
    .length;
/** A column near whose end the thread goes to and fro so often before it is locked there, and another column. */
const lockedLate = (stitches: number) => {
  const first = zigzag(vec(0, 0), vec(10, 0), 4, 0.4);
  const { x, y } = first[first.length - 1];
  const aside = Array.from({ length: stitches }, (_, k) =>
    vec(x + 0.3 + 1.3 * ((k + 1) % 2), y + (k % 2) * 0.2),
  );
  const at = stitches === 0 ? vec(x, y) : aside[stitches - 1];
  const lock = [vec(at.x, at.y + 0.5), at, vec(at.x, at.y + 0.5), at];
  const [one] = found(
    first,
    aside,
    lock,
    walk(3, vec(16, -2), vec(30, -2)),
    zigzag(vec(34, 0), vec(44, 0), 4, 0.4),
  );
  return one.locks.end;
};

export const PLACE_PROBES: readonly Probe[] = [
  probe('fieldLeast', 23.5, [14, 40], (t) => fieldOf(square(Math.round(t))) !== null, [false, true]),
  // so far out eight lines a millimeter apart fill less than a seventh of their box
  probe('fieldOfBox', 105.5, [90, 130], (t) => fieldOf(rings(1, 8, t)) !== null, [true, false]),
  // rings, and a line away from them; where ring leads to ring a little of them lies alone as well
  probe(
    'fieldBeside',
    0.769,
    [0.6, 0.9],
    (t) => {
      const area = rings(0.8, 10);
      const line = (lengthOf(area) * (1 - t)) / t;
      return fieldOf([...area, ...walk(2, vec(17, -8), vec(17 + line, -8))]) !== null;
    },
    [false, true],
  ),
  probe('fieldCorner', 0.6, [0.4, 0.9], (t) => cornered(4, t), ['spiral', 'outline']),
  // two corners that turn by three tenths of a way round, and what the loops grow smaller by
  probe('fieldCorners', 0.962, [0.7, 1.2], (t) => cornered(2, t), ['spiral', 'outline']),
  probe('rasterOff', 0.2, [0.05, 0.45], (t) => areas(section, moved(section, 17, 4 + 0.4 * t)), [1, 2]),
  // pairs of rows off to one side leave a little of it unclear themselves
  probe('rasterClear', 0.659, [0.5, 0.95], (t) => areas(shaken(t), moved(shaken(t), 17, 0)), [2, 1]),
  // three rows and the middle one to each side are seven
  probe(
    'rasterRows',
    3.5,
    [2, 7],
    (t) => areas(strayed(Math.round(t)), moved(strayed(Math.round(t)), 17, 0)),
    [2, 1],
  ),
  probe('rowsAgree', 0.9, [0.8, 0.98], agree, [false, true]),
  probe('columnGap', 3.5, [1, 6], (t) => columns(Math.round(t), 0.2), [1, 2]),
  probe('columnApart', 1.2, [0.2, 2], (t) => columns(1, t), [1, 2]),
  probe('columnLess', 0.45, [0.3, 0.8], (t) => columns(1, 0.2, 0, t), [2, 1]),
  probe('columnMore', 2.2, [1.2, 3], (t) => columns(1, 0.2, 0, t), [1, 2]),
  // their cosine is 0.8
  probe('columnAhead', 36.87, [10, 60], (t) => columns(1, 0.2, t), [1, 2]),
  probe('tipBeside', 0.5, [0.2, 0.8], (t) => tip(1, 0.2, t), [1, 0]),
  probe('tipBesideShare', 0.25, [0.1, 0.4], (t) => tip(1, 0.2, 0.25 + t), [1, 0]),
  probe('tipLeastStep', 0.2, [0, 0.5], (t) => tip(1, 0.2 * t, 0), [0, 1]),
  // and a step of the file
  probe('tipMostStep', 2.7, [1, 4], (t) => tip(1.5, 0.2 * t, 0), [1, 0]),
  probe('railPitches', 3.5, [2, 5], (t) => swinging(vec(1 + 0.2 * t, -2)), [1, 0]),
  probe('swingDiffers', 0.15, [0.05, 0.3], (t) => swinging(vec(1.3, 2 - 4 * (1 - t))), [1, 0]),
  // a region reaches half a millimeter beyond the end of its column
  probe(
    'passCovered',
    13.6,
    [8, 16],
    (t) =>
      found(zigzag(vec(0, 0), vec(16, 0), 4, 0.4), zigzag(vec(16, 0), vec(16.5 - t, 0), 4, 0.4)).map(
        ({ passes }) => passes,
      ),
    [[1, 1], [2]],
  ),
  // what lies beside a cell of an area so open is near as well
  probe(
    'netAgain',
    0.469,
    [0.4, 0.95],
    (t) =>
      found(
        net,
        moved(
          net.map((p) => vec(p.y, p.x)),
          24 * (1 - t),
          0,
        ),
      ).length,
    [2, 1],
  ),
  probe('openPitchAlike', 1.3, [1.1, 1.6], (t) => roundCorner(t, 1), [1, 2]),
  // swings of 3 mm slant over 1 mm
  probe('openSwingAlike', 1.275, [1.05, 1.5], (t) => roundCorner(1, t), [1, 2]),
  probe(
    'lineAlong',
    0.9,
    [0.8, 0.99],
    (t) => {
      const aside = Math.sqrt(1 / (t * t) - 1) / 2;
      const there = Array.from({ length: 21 }, (_, k) => vec(k, 0));
      return lines(...there, ...there.map(({ x }) => vec(20 - x, x % 2 ? aside : -aside)));
    },
    [1, 2],
  ),
  probe(
    'threadLeast',
    3.5,
    [2, 6],
    (t) => found(zigzag(vec(0, 0), vec(0.2 * Math.round(t), 0), 4, 0.4))[0]?.kind,
    ['run', 'satin'],
  ),
  probe('lockNear', 4.5, [0, 8], (t) => lockedLate(Math.round(t)), [true, false]),
];
