/**
 * The pictures of lib/segment/README.md: one thread on its way to objects, as each step has it.
 *   npx tsx tests/segment/pictures.ts    writes them again
 */
import { fileURLToPath } from 'node:url';
import type { Stitches } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { findLegStrings } from '../../lib/segment/leg-strings.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { findPatches } from '../../lib/segment/patches.js';
import { findThreads } from '../../lib/segment/threads.js';
import {
  dot as dotAt,
  f,
  framed,
  line as lineThrough,
  type Picture,
  writePictures,
} from '../drawn-picture.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, rows, walk, zigzag } from './board.js';

const PALE = '#c9c3b8';
const NEEDLE = '#2b2b2b';
const [RED, BLUE, GREEN, OCHER] = ['#b3402a', '#1f5f8b', '#3d7a4a', '#a8741a'];
const FRAME = { scale: 18, marginMm: 1.4 };

/** A lock, the underlay of a column, the column with a pointed end, travel, an area, and a run that goes on from it; one thread. */
export function thread(): Stitches {
  const lock = [vec(0, 0), vec(0.7, 0), vec(0, 0), vec(0.7, 0), vec(0, 0)];
  const under = [...walk(2.4, vec(0.8, 0), vec(12, 0)), ...zigzag(vec(12, 0), vec(0.6, 0), 2.4, 2.2)];
  const width = (x: number) => (x < 12 ? 4 : Math.max(0.5, 4 * (1 - (x - 12) / 5)));
  const column = Array.from({ length: 92 }, (_, k): Vec => {
    const x = k * 0.18;
    return vec(x, ((k % 2 === 0 ? 1 : -1) * width(x)) / 2);
  });
  const area = rows(0.45, 8.1, (y) => [18.5 + Math.abs(y - 4) * 0.6, 27.5 - Math.abs(y - 4) * 0.4], {
    stitch: 2.6,
  });
  const lifted = area.map((p) => vec(p.x, p.y - 4));
  const end = lifted[lifted.length - 1];
  const run = walk(2, end, vec(end.x + 0.8, 7), vec(30, 6), vec(31.5, 1), vec(29.5, -3.5));
  const tie = [vec(29.9, -3.2), vec(29.5, -3.5), vec(29.9, -3.2), vec(29.5, -3.5)];
  return new Board().sew(
    lock,
    under,
    column,
    walk(2.5, vec(16.6, 0.4), vec(18.3, 0.2)),
    lifted,
    run.slice(1),
    tie,
  ).stitches;
}

type Line = readonly number[];

const placeOf = ({ x, y }: Stitches, i: number) => [x[i], y[i]] as const;

const line = (stitches: Stitches, points: Line, color: string, width: number): string =>
  lineThrough(
    points.map((i) => placeOf(stitches, i)),
    color,
    width,
    { 'stroke-linecap': 'round' },
  );

const dot = (stitches: Stitches, i: number, color: string, radius: number): string =>
  dotAt(placeOf(stitches, i), color, radius);

const span = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, k) => first + k);

function drawing(name: string, title: string, stitches: Stitches, marks: readonly string[]): Picture {
  const all = span(0, stitches.count - 1);
  const places = all.map((i) => placeOf(stitches, i));
  return framed(name, title, places, FRAME, [line(stitches, all, PALE, 0.08), ...marks]);
}

/** The thread with its locks. */
function locks(stitches: Stitches): Picture {
  const [{ first, last, bodyFirst, bodyLast }] = findThreads(stitches);
  return drawing(
    'finder-thread',
    `${stitches.count} needle points, ${bodyFirst - first + last - bodyLast} of them in locks`,
    stitches,
    [
      ...span(bodyFirst, bodyLast).map((i) => dot(stitches, i, NEEDLE, 0.07)),
      line(stitches, span(first, bodyFirst), RED, 0.16),
      line(stitches, span(bodyLast, last), RED, 0.16),
    ],
  );
}

const legsOf = (stitches: Stitches) => {
  const [{ bodyFirst, bodyLast }] = findThreads(stitches);
  return new LegFinder(stitches, stitches.count).find(bodyFirst, bodyLast);
};

/** Legs by turns in two colors, and those that turn back beside each other with a dot at each end. */
function legs(stitches: Stitches): Picture {
  const { count, from, to } = legsOf(stitches);
  const strings = findLegStrings(stitches, legsOf(stitches), 4);
  return drawing('finder-legs', `${count} legs, ${strings.length} strings`, stitches, [
    ...span(0, count - 1).map((k) => line(stitches, [from[k], to[k]], k % 2 ? OCHER : BLUE, 0.1)),
    ...strings.flatMap((s) => [...s.from, ...s.to].map((i) => dot(stitches, i, NEEDLE, 0.1))),
  ]);
}

/** Open swings, close swings and rows. */
function patches(stitches: Stitches): Picture {
  const found = findPatches(stitches, legsOf(stitches));
  const color = (kind: string, pitch: number) => (kind === 'rows' ? GREEN : pitch > 0.5 ? OCHER : BLUE);
  const title = found.map(({ kind, pitchMm }) => `${kind} ${f(pitchMm)} mm apart`).join(', ');
  return drawing(
    'finder-patches',
    title,
    stitches,
    found.flatMap((p) =>
      [...p.from].map((i, k) => line(stitches, [i, p.to[k]], color(p.kind, p.pitchMm), 0.12)),
    ),
  );
}

/** What a person sees: objects, and what lies beneath them. */
function objects(stitches: Stitches): Picture {
  const found = findObjects(stitches);
  const color = { satin: BLUE, fill: GREEN, run: NEEDLE } as const;
  const title = found
    .map(({ kind, underlay }) =>
      underlay.kinds.length > 0 ? `${kind} over ${underlay.kinds.join(' and ')}` : kind,
    )
    .join(', ');
  return drawing('finder-objects', title, stitches, [
    ...found.map(({ kind, range }) => line(stitches, span(...range), color[kind], 0.12)),
    ...found.flatMap(({ underlay: { range } }) =>
      range ? [line(stitches, span(...range), OCHER, 0.16)] : [],
    ),
  ]);
}

export function pictures(): Picture[] {
  const stitches = thread();
  return [locks, legs, patches, objects].map((draw) => draw(stitches));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) writePictures(pictures());
