/** What lies near to each other and is not one: filled letters that are sewn on from one to the next, and columns beside a ground that bears others. */
import { columnTop } from '../column.js';
import { segment } from '../curve.js';
import type { Case } from '../pen.js';
import { type Region, turned, type Vec, vec } from '../plane.js';
import { ell, oval, plus, rectangle, yoke } from '../shapes.js';
import { plainStyle } from './ahead.js';
import { area } from './areas.js';
import { across } from './columns.js';
import { ground, net, sewTops } from './grounds.js';
import { Job } from './job.js';

const moved = (ring: readonly Vec[], x: number, y: number): Vec[] =>
  ring.map((p) => vec(p.x + x, p.y + y)) as Vec[];

/** Filled letters with rows of one direction, sewn on from each to the next across the gap between them. */
function lettersJoined(seed: number): Case {
  const job = new Job('fill-letters-joined', seed);
  const { random } = job;
  const height = random.range(22, 30);
  const gap = random.range(3.6, 6);
  const degrees = random.pick([0, 90, 45, random.range(0, 180)]);
  const rows = random.range(0.36, 0.48);
  const count = random.int(3, 5);
  const stitch = random.range(2, 3);
  let x = 0;
  for (let k = 0; k < count; k++) {
    const stem = height * random.range(0.36, 0.42);
    const wide = height * random.range(0.7, 0.9);
    const [ring, width] = random.pick([
      [rectangle(stem, height), stem],
      [ell(wide, height, stem), wide],
      [yoke(wide * 1.2, height, stem * 0.9), wide * 1.2],
      [plus(height, stem), height],
      [oval(wide / 2, height / 2).map((p) => vec(p.x + wide / 2, p.y + height / 2)), wide],
    ] as const);
    const outer = moved(ring, x, 0);
    job.sew(
      area(job, { outer, holes: [] }, `letter ${k + 1}`, { degrees, rows, stitch, join: 'edge' }, []),
      k === 0 ? null : 'straight',
    );
    x += width + gap;
  }
  return job.finish(`${count} filled letters ${height.toFixed(0)} mm, ${gap.toFixed(1)} mm apart`);
}

/** Filled bars one above another, as of a flag, with rows along them; one stitch leads on to the next. */
function barsJoined(seed: number): Case {
  const job = new Job('fill-bars-joined', seed);
  const { random } = job;
  const rows = random.range(0.36, 0.48);
  const [wide, high, gap] = [random.range(12, 30), random.range(5, 9), random.range(3, 6)];
  const turn = random.range(0, Math.PI);
  const count = random.int(3, 5);
  const slant = random.range(-4, 4);
  for (let k = 0; k < count; k++) {
    const ring = moved(rectangle(wide, high), k * slant, k * (high + gap)).map((p) => turned(p, turn));
    const degrees = (turn * 180) / Math.PI;
    job.sew(
      area(job, { outer: ring, holes: [] }, `bar ${k + 1}`, { degrees, rows, stitch: 2.8, join: 'edge' }, []),
      k === 0 ? null : 'straight',
    );
  }
  return job.finish(`${count} filled bars ${wide.toFixed(0)} mm long, ${gap.toFixed(1)} mm apart`);
}

/** A ground for the columns in the middle of a round sign, and others of the same color round about it that stand on bare cloth. */
function groundInMiddle(seed: number): Case {
  const job = new Job('ground-in-middle', seed);
  const { random } = job;
  const radius = random.range(11, 15);
  const stroke = random.range(2.2, 3.4);
  const style = plainStyle(job, stroke, []);
  const bars = random.int(3, 4);
  const middle = Array.from({ length: bars }, (_, k) => {
    const x = (k - (bars - 1) / 2) * stroke * 1.8;
    return across(segment(vec(x, -radius * 0.55), vec(x, radius * 0.55)), () => stroke / 2);
  });
  // from where the ground ends they point away from it
  const rays = random.int(6, 9);
  const turn = random.range(0, Math.PI);
  const round = Array.from({ length: rays }, (_, k) => {
    const a = turn + (2 * Math.PI * k) / rays;
    const at = (r: number) => turned(vec(r, 0), a);
    return across(segment(at(radius + 2.2), at(radius + 9)), () => stroke / 2);
  });
  const columns = [...middle, ...round];
  const owners = columns.map((c, i) =>
    job.plan({ ...columnTop(c, style.top, false, 1, random, `bar ${i + 1}`), needles: [] }),
  );
  const region: Region = { outer: oval(radius, radius), holes: [] };
  const degrees = random.range(0, 180);
  const points = random.chance(0.5)
    ? net(job, region, degrees, random.range(2, 3.5), null)
    : ground(job, region, degrees, random.range(1.8, 2.8), 3, null);
  job.under(['fill'], points, owners.slice(0, bars));
  sewTops(
    job,
    columns,
    owners,
    style,
    false,
    columns.map((_, i) => i),
  );
  return job.finish(`${bars} bars on a ground of ${radius.toFixed(0)} mm, ${rays} round about it`);
}

export const APART_FAMILIES: Record<string, (seed: number) => Case> = {
  'fill-letters-joined': lettersJoined,
  'fill-bars-joined': barsJoined,
  'ground-in-middle': groundInMiddle,
};
