/** Filled areas beside, over and beneath one another, and areas whose rows grow apart or fray. */
import type { UnderlayKind } from '../../../lib/segment/objects.js';
import { type Draft, needles, type Pattern, plainDraft } from '../draft.js';
import { FILL_UNDERLAYS, fillDraft, looksLikeFill, randomFill } from '../fill.js';
import { type HatchStyle, hatch, Ways } from '../hatch.js';
import type { Case } from '../pen.js';
import {
  between,
  distance,
  inset,
  median,
  type Region,
  radians,
  stitchAlong,
  turned,
  type Vec,
  vec,
} from '../plane.js';
import type { Random } from '../random.js';
import { holedOutline, oval, rectangle, regular } from '../shapes.js';
import { stopping } from './applique.js';
import { ground, net } from './grounds.js';
import { Job } from './job.js';

/** A region filled in straight rows, begun near where the thread stands. */
export function area(
  job: Job,
  region: Region,
  note: string,
  wish: Partial<HatchStyle> = {},
  underlay: readonly UnderlayKind[] = job.random.pick(FILL_UNDERLAYS),
): Draft {
  for (;;) {
    const style = randomFill(job.random, underlay);
    const laid = fillDraft(region, { ...style, top: { ...style.top, ...wish } }, job.at, job.random, note);
    if (laid) return laid;
  }
}

const moved = (ring: readonly Vec[], by: Vec): Vec[] => ring.map((p) => vec(p.x + by.x, p.y + by.y));
const whole = (outer: Vec[]): Region => ({ outer, holes: [] });

const rowsDraft = (
  points: readonly Vec[],
  spacing: number,
  degrees: number,
  patterns: readonly Pattern[],
  note: string,
): Draft => ({
  ...plainDraft('fill', points),
  spacingMm: spacing,
  angleDeg: ((degrees % 180) + 180) % 180,
  patterns,
  note,
});

/** An area about holes whose sections are cut from one another, or joined by a way beneath what comes later. */
function cutSections(seed: number): Case {
  const job = new Job('fill-sections-cut', seed);
  const { random } = job;
  for (;;) {
    const { region, name } = holedOutline(random);
    const top = { ...randomFill(random, []).top, rows: random.range(0.33, 0.5) };
    const ways = new Ways(region, 0.8);
    const laid = hatch(region, top, null, ways, random);
    if (laid.parts.length < 2 || !looksLikeFill(laid.lengths, top)) continue;
    const note = `${name}, ${laid.parts.length} sections, rows ${top.rows.toFixed(2)} ${top.join}`;
    const owner = job.plan(rowsDraft([], top.rows, top.degrees, ['rows'], note));
    if (random.chance(0.5)) {
      const under: Region = {
        outer: inset(region.outer, 0.8),
        holes: region.holes.map((h) => inset(h, 0.8, true)),
      };
      const rows = random.range(2, 3.5);
      job.under(['fill'], ground(job, under, top.degrees + 90, rows, 3, null), [owner], null);
    }
    for (const part of laid.parts) {
      if (job.at && random.chance(0.3)) {
        const legs = ways.way(job.at, part[0]);
        for (const leg of legs.slice(1)) job.travel(leg);
        job.part(owner, needles(part, 'top'), 'straight');
      } else job.part(owner, needles(part, 'top'), random.pick(['trim', 'trim', 'jump'] as const));
    }
    return job.finish('sections cut apart');
  }
}

/** Two or three areas that lie partly over one another, with rows of one direction or of several. */
function overlapping(seed: number): Case {
  const job = new Job('fill-overlapping', seed);
  const { random } = job;
  const s = random.range(14, 24);
  const one = random.chance(0.5) ? random.range(0, 180) : null;
  const step = s * random.range(0.4, 0.7);
  const n = random.int(2, 3);
  for (let k = 0; k < n; k++) {
    const outer = random.pick([
      oval(s / 2, s / 2),
      regular(6, s / 2),
      moved(rectangle(s, s * 0.8), vec(-s / 2, -s * 0.4)),
    ]);
    const degrees = one ?? 20 + k * 60 + random.range(-10, 10);
    const region = whole(moved(outer, vec(k * step, random.range(-2, 2))));
    const draft = area(job, region, `area ${k + 1}`, { degrees, rows: random.range(0.35, 0.5) });
    job.sew(draft, job.at ? random.pick(['colour', 'colour', 'trim'] as const) : null);
  }
  return job.finish(
    `areas over one another, rows ${one === null ? 'of several directions' : 'of one direction'}`,
  );
}

/** Stripes of a flag in two colors, each reaching a little under the next, all with rows of one direction. */
function stripes(seed: number): Case {
  const job = new Job('fill-stripes', seed);
  const { random } = job;
  const n = random.int(3, 5);
  const [w, h] = [random.range(30, 55), random.range(9, 14)];
  const lap = random.range(0.2, 0.6);
  const degrees = random.pick([0, 90, 45, random.range(0, 180)]);
  const rows = random.range(0.36, 0.5);
  const stripe = (k: number) =>
    area(job, whole(moved(rectangle(w, h + lap), vec(0, k * h))), `stripe ${k + 1}`, { degrees, rows });
  const inTurn = random.chance(0.4);
  const order = inTurn
    ? Array.from({ length: n }, (_, k) => k)
    : [...Array(n).keys()].sort((a, b) => (a % 2) - (b % 2) || a - b);
  for (const [i, k] of order.entries())
    job.sew(stripe(k), i === 0 ? null : inTurn || k === 1 ? 'colour' : 'trim');
  return job.finish(`${n} stripes${inTurn ? ' in turn' : ', one color after the other'}`);
}

/** Rows across a box or a disc whose distance grows from one side to the other. */
function graded(random: Random, size: number, round: boolean, degrees: number, close: number, open: number) {
  const ys: number[] = [];
  let y = -size / 2 + 0.1;
  while (y < size / 2 - 0.1) {
    ys.push(y);
    y += close + (open - close) * (y / size + 0.5);
  }
  const chord = (at: number) => (round ? Math.sqrt(Math.max(0, (size * size) / 4 - at * at)) : size * 0.7);
  const stitch = random.range(2.5, 3.8);
  const out: Vec[] = [];
  ys.forEach((at, k) => {
    const x = chord(at);
    if (x < 1) return;
    const ends = k % 2 ? [vec(x, at), vec(-x, at)] : [vec(-x, at), vec(x, at)];
    const inner: Vec[] = [];
    for (let u = -x + stitch * (0.3 + (k % 3) * 0.25); u < x - 0.8; u += stitch) inner.push(vec(u, at));
    if (k % 2) inner.reverse();
    out.push(ends[0], ...inner, ends[1]);
  });
  const gaps = ys.slice(1).map((v, i) => v - ys[i]);
  return { points: out.map((p) => turned(p, radians(degrees))), spacing: median(gaps) };
}

const gradient = (job: Job, size: number, round: boolean, degrees: number): Draft => {
  const [close, open] = [job.random.range(0.35, 0.45), job.random.range(0.9, 1.5)];
  const { points, spacing } = graded(job.random, size, round, degrees, close, open);
  const note = `rows from ${close.toFixed(2)} to ${open.toFixed(2)}`;
  return {
    ...rowsDraft(points, spacing, degrees, ['rows', 'loose'], note),
    purposes: ['decorative', 'top'],
    open: { spacing: true },
  };
};

/** One color that thins out to one side. */
function fading(seed: number): Case {
  const job = new Job('fill-gradient', seed);
  const { random } = job;
  job.sew(gradient(job, random.range(18, 36), random.chance(0.4), random.range(0, 180)));
  return job.finish('a gradient');
}

/** Two colors that thin out against one another over the same place. */
function blended(seed: number): Case {
  const job = new Job('fill-blend', seed);
  const { random } = job;
  const size = random.range(18, 34);
  const [round, degrees] = [random.chance(0.4), random.range(0, 180)];
  job.sew(gradient(job, size, round, degrees));
  const second = gradient(job, size, round, degrees + 180);
  job.sew({ ...second, angleDeg: ((degrees % 180) + 180) % 180 }, 'colour');
  return job.finish('two colors blended');
}

/** Open rows crossed by others, in one color or in two. */
function crossHatch(seed: number): Case {
  const job = new Job('fill-cross-hatch', seed);
  const { random } = job;
  const s = random.range(18, 34);
  const region = whole(random.chance(0.5) ? oval(s / 2, s / 2) : rectangle(s, s * random.range(0.6, 1)));
  const pitch = random.range(0.9, 1.7);
  const degrees = random.range(0, 180);
  const other = degrees + random.pick([90, 90, 60]);
  const loose = { purposes: ['decorative', 'net', 'top'], open: { spacing: false } } as const;
  if (random.chance(0.5)) {
    for (const d of [degrees, other]) {
      const points = ground(job, region, d, pitch, random.range(2.5, 3.5), job.at);
      const layer = rowsDraft(points, pitch, d, ['loose', 'rows'], `rows ${pitch.toFixed(2)}`);
      job.sew({ ...layer, ...loose }, job.at ? 'colour' : null);
    }
    return job.finish('crossed in two colors');
  }
  const points = net(job, region, degrees, pitch, null);
  const both = rowsDraft(points, pitch, degrees, ['loose', 'rows'], `net ${pitch.toFixed(2)}`);
  job.sew({
    ...both,
    ...loose,
    purposes: ['net', 'decorative', 'top'],
    open: { angle: true, spacing: true },
  });
  return job.finish('crossed in one color');
}

/** Fur: bands of rows of uneven reach and slightly changing direction, each band lapping over the last. */
function fur(seed: number): Case {
  const job = new Job('fill-fur', seed);
  const { random } = job;
  const pitch = random.range(0.4, 0.55);
  const w = random.range(9, 14);
  const bands = random.int(1, 3);
  for (let band = 0; band < bands; band++) {
    const points: Vec[] = [];
    const h = random.range(18, 32);
    let k = 0;
    for (let y = 0; y < h; y += pitch * random.range(0.9, 1.1), k++) {
      const x = band * w * 0.75;
      const lean = 0.5 * Math.sin(y * 0.3 + band);
      const row = [
        vec(x + random.range(-1.2, 1.2), y - lean),
        vec(x + w + random.range(-1.2, 1.2), y + lean),
      ];
      if (k % 2) row.reverse();
      let at = row[0];
      points.push(at);
      while (distance(at, row[1]) > 5.5) {
        at = between(at, row[1], random.range(2.6, 4) / distance(at, row[1]));
        points.push(at);
      }
      points.push(row[1]);
    }
    const draft = rowsDraft(points, pitch, 0, ['rows'], `band ${band + 1}, ${w.toFixed(0)} wide`);
    job.sew(
      { ...draft, open: { spacing: true, angle: true } },
      job.at ? random.pick(['colour', 'trim'] as const) : null,
    );
  }
  return job.finish('fur');
}

/** A field of waves in one line, far apart: a ground as an ornament. */
function meander(seed: number): Case {
  const job = new Job('meander', seed);
  const { random } = job;
  const [w, h] = [random.range(25, 45), random.range(18, 32)];
  const pitch = random.range(3, 5);
  const wave = random.range(0.6, 1.2);
  const points: Vec[] = [];
  let k = 0;
  for (let y = 0; y <= h; y += pitch, k++) {
    const row: Vec[] = [];
    for (let x = 0; x <= w; x += 0.3) row.push(vec(x, y + wave * Math.sin(x * 0.8)));
    if (k % 2) row.reverse();
    const last = points.at(-1);
    if (last) points.push(...stitchAlong([last, row[0]], 2.5).slice(1, -1));
    const step = Math.round(random.range(1.8, 2.4) / 0.3);
    points.push(...row.filter((_, i) => i % step === 0 || i === row.length - 1));
  }
  job.sew({
    ...plainDraft('run', points),
    alsoKinds: ['fill'],
    purposes: ['decorative', 'top', 'net'],
    note: `waves ${pitch.toFixed(1)} apart`,
  });
  return job.finish('a meander');
}

/** A loose fill in one color beneath everything, and the design in others on it. */
export function knockdown(job: Job, region: Region): Draft {
  const { random } = job;
  const rows = random.range(1.2, 2.2);
  const degrees = random.range(0, 180);
  const crossed = random.chance(0.4);
  const points = crossed
    ? net(job, region, degrees, rows * 1.4, null)
    : ground(job, region, degrees, rows, random.range(2.5, 4), null);
  return {
    ...rowsDraft(
      points,
      crossed ? rows * 1.4 : rows,
      degrees,
      ['loose', 'rows'],
      `knockdown ${rows.toFixed(1)}`,
    ),
    purposes: ['net', 'top', 'decorative'],
    open: crossed ? { angle: true, spacing: true } : {},
  };
}

/** Pieces of an area that are stitched in another color where the operator changes thread. */
function inlay(seed: number): Case {
  const job = new Job('fill-inlay', seed);
  const { random } = job;
  const s = random.range(26, 44);
  const r = s * random.range(0.2, 0.3);
  const degrees = random.range(0, 180);
  const hole = oval(r, r);
  const outer = random.chance(0.5) ? oval(s / 2, s / 2) : regular(6, s / 2);
  job.sew(
    area(job, { outer, holes: [hole] }, `field ${s.toFixed(0)} about an inlay`, {
      degrees,
      rows: random.range(0.36, 0.5),
    }),
  );
  const turn = random.pick([0, 0, 45, 90]);
  job.sew(
    area(job, whole(oval(r + 0.3, r + 0.3)), 'inlay', {
      degrees: degrees + turn,
      rows: random.range(0.36, 0.5),
    }),
    stopping(random),
  );
  return job.finish('an inlay');
}

export const AREA_FAMILIES: Record<string, (seed: number) => Case> = {
  'fill-sections-cut': cutSections,
  'fill-overlapping': overlapping,
  'fill-stripes': stripes,
  'fill-gradient': fading,
  'fill-blend': blended,
  'fill-cross-hatch': crossHatch,
  'fill-fur': fur,
  'fill-inlay': inlay,
  meander,
};
