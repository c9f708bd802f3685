/** Columns as they are digitized by hand: points, bends, corners, slants, wide splits, ragged edges. */
import { type Column, columnTop, type SplitStyle } from '../column.js';
import { arc, Curve, ellipse, path, rounded, segment } from '../curve.js';
import type { Draft } from '../draft.js';
import { needles } from '../draft.js';
import type { Case } from '../pen.js';
import { radians, type Vec, vec } from '../plane.js';
import type { Random } from '../random.js';
import { layUnderlay, type SatinStyle, sewColumn } from '../satin.js';
import { clearUnderlays, nearerEnd, plainStyle } from './ahead.js';
import { Job, someLocks } from './job.js';

const some = (random: Random, width: number) =>
  random.chance(0.75) ? random.pick(clearUnderlays(width)) : [];

/** A few columns of one make side by side, each by its own thread or sewn on. */
export function several(
  family: string,
  seed: number,
  narrow: number,
  make: (
    job: Job,
    x: number,
    k: number,
  ) => { column: Column; width: number; note: string; style: SatinStyle },
  finish: (job: Job, draft: Draft) => Draft = (_, d) => d,
): Case {
  const job = new Job(family, seed);
  const { random } = job;
  job.locks = someLocks(random, narrow);
  let x = 0;
  for (let k = random.int(1, 4); k > 0; k--) {
    const { column, width, note, style } = make(job, x, k);
    const from = nearerEnd(column, job.at);
    job.sew(finish(job, sewColumn(column, style, from, random, note).draft), job.at ? 'trim' : null);
    x += Math.max(12, width * 6);
  }
  return job.finish('columns');
}

export const across = (centre: Curve, half: (s: number) => number): Column => ({
  centre,
  half,
  lie: { kind: 'across' },
});

/** Tight bends whose inner points are drawn in. */
const shortened = (seed: number) =>
  several('satin-short-inner', seed, 2.5, (job, x) => {
    const { random } = job;
    const width = random.range(3, 7);
    const r = width * random.range(0.6, 0.95);
    const name = random.pick(['ring', 'bend', 'hook'] as const);
    const centre = {
      ring: () => new Curve(ellipse(vec(x, 0), r + width * 0.3, r + width * 0.3).slice(0, -1), true),
      bend: () => new Curve(arc(vec(x, 0), r, 0, radians(random.range(120, 200)))),
      hook: () =>
        new Curve(
          rounded(
            [
              vec(x, 0),
              vec(x, 3 * width),
              vec(x + Math.max(2 * r, 1.25 * width), 3 * width),
              vec(x + Math.max(2 * r, 1.25 * width) + 0.3, 0),
            ],
            r,
          ),
        ),
    }[name]();
    const style = plainStyle(job, width, some(random, width));
    style.top.short = random.range(0.6, 0.8);
    return {
      column: across(centre, () => width / 2),
      width,
      note: `${name} ${width.toFixed(1)} r ${r.toFixed(1)}`,
      style,
    };
  });

/** Leaves and rays: both ends, or one, run out to a point. */
const pointed = (seed: number) =>
  several('satin-pointed', seed, 1.5, (job, x) => {
    const { random } = job;
    const width = random.range(2.5, 7);
    const l = width * random.range(2.5, 5) + 4;
    const bow = random.chance(0.5) ? random.range(-0.25, 0.25) * l : 0;
    const centre = new Curve(path((t) => vec(x + bow * Math.sin((Math.PI * t) / l), t), 0, l, l * 1.1));
    const tip = random.range(2, Math.min(5, l / 3));
    const name = random.pick(['leaf', 'both tips', 'one tip'] as const);
    const n = centre.length;
    const profile: Record<typeof name, (s: number) => number> = {
      leaf: (s) => Math.max(0, Math.sin((Math.PI * Math.min(n, Math.max(0, s))) / n)) ** 0.8,
      'both tips': (s) => Math.min(1, s / tip, (n - s) / tip),
      'one tip': (s) => Math.min(1, s / tip),
    };
    const half = (s: number) => Math.max(0.15, (width / 2) * profile[name](s));
    const underlay = random.chance(0.7) ? random.pick([['center-run'], ['zigzag']] as const) : [];
    const style = plainStyle(job, width, underlay);
    style.top.comp = 0;
    return {
      column: across(centre, half),
      width,
      note: `${name} ${width.toFixed(1)}×${l.toFixed(0)}`,
      style,
    };
  });

/** From thin to thick and back, as a pen with pressure draws. */
const tapered = (seed: number) =>
  several('satin-changing-width', seed, 1.5, (job, x) => {
    const { random } = job;
    const [thin, thick] = [random.range(1.2, 2.5), random.range(3.5, 7)];
    const l = thick * random.range(4, 7);
    const turns = random.range(0.5, 1.5);
    const centre = new Curve(path((t) => vec(x + 2 * Math.sin((2 * Math.PI * t) / l), t), 0, l, l * 1.2));
    const half = (s: number) =>
      (thin + (thick - thin) * Math.sin((Math.PI * turns * s) / centre.length) ** 2) / 2;
    const style = plainStyle(job, thick, some(random, thin));
    return {
      column: across(centre, half),
      width: thick,
      note: `from ${thin.toFixed(1)} to ${thick.toFixed(1)}`,
      style,
    };
  });

/** Corners turned by swings that fan out. */
const mitred = (seed: number) =>
  several('satin-mitred', seed, 2, (job, x) => {
    const { random } = job;
    const width = random.range(2, 5);
    const leg = width * random.range(3, 5) + 4;
    const turn = radians(random.range(60, 95)) * random.sign();
    const corner = vec(x, leg);
    const points = [
      ...segment(vec(x, 0), corner).points(),
      ...segment(
        corner,
        vec(x + leg * Math.cos(Math.PI / 2 + turn), leg + leg * Math.sin(Math.PI / 2 + turn)),
      )
        .points()
        .slice(1),
    ];
    const reach = (width + 0.6) * Math.tan(Math.abs(turn) / 2) * random.range(1.1, 1.6);
    const column: Column = {
      centre: new Curve(points),
      half: () => width / 2,
      lie: { kind: 'mitre', corner: leg, turn, reach },
    };
    const underlay = random.chance(0.7) ? random.pick([['center-run'], ['edge-run']] as const) : [];
    return { column, width, note: `mitre ${width.toFixed(1)}`, style: plainStyle(job, width, underlay) };
  });

/** Swings that lie slanted to their column. */
const slanted = (seed: number) =>
  several('satin-slanted', seed, 2, (job, x) => {
    const { random } = job;
    const width = random.range(2, 6);
    const degrees = random.sign() * random.range(20, 45);
    const l = width * random.range(3, 6) + 4;
    const column: Column = {
      centre: segment(vec(x, 0), vec(x, l)),
      half: () => width / 2,
      lie: { kind: 'slant', degrees },
    };
    return {
      column,
      width,
      note: `slant ${degrees.toFixed(0)}° ${width.toFixed(1)}`,
      style: plainStyle(job, width, some(random, width)),
    };
  });

/** Every spacing that columns are sewn with, from close to open. */
const spaced = (seed: number) =>
  several('satin-spacings', seed, 1.5, (job, x) => {
    const { random } = job;
    const width = random.range(1.5, 6);
    const l = width * random.range(3, 6) + 5;
    const style = plainStyle(job, width, some(random, width));
    style.top.spacing = random.range(0.3, 0.7);
    return {
      column: across(segment(vec(x, 0), vec(x, l)), () => width / 2),
      width,
      note: `${width.toFixed(1)} spaced ${style.top.spacing.toFixed(2)}`,
      style,
    };
  });

function splitting(random: Random, width: number): SplitStyle {
  const over = Math.min(5, width * 0.7);
  const name = random.pick(['thirds', 'quarters', 'scattered', 'middle'] as const);
  if (name === 'thirds') return { even: [1 / 3], odd: [1 / 3], over, loose: 0 };
  if (name === 'quarters') return { even: [0.3, 0.7], odd: [0.5], over, loose: 0.02 };
  if (name === 'middle') return { even: [0.45], odd: [0.55], over, loose: 0.03 };
  return { even: [0.35, 0.68], odd: [0.33, 0.66], over, loose: 0.12 };
}

/** Wide columns whose swings are broken, at every spacing. */
const split = (seed: number) =>
  several('satin-wide-split', seed, 5, (job, x) => {
    const { random } = job;
    const width = random.range(8, 14);
    const l = width * random.range(1.8, 4);
    const style = plainStyle(
      job,
      width,
      random.pick([['edge-run'], ['edge-run', 'zigzag'], ['zigzag'], []] as const),
    );
    style.top = { ...style.top, spacing: random.range(0.35, 0.65), split: splitting(random, width) };
    return {
      column: across(segment(vec(x * 1.4, 0), vec(x * 1.4, l)), () => width / 2),
      width,
      note: `split ${width.toFixed(1)}`,
      style,
    };
  });

/** Fur: one edge or both run out unevenly. */
const ragged = (seed: number) =>
  several(
    'satin-ragged',
    seed,
    2,
    (job, x) => {
      const { random } = job;
      const width = random.range(3, 7);
      const l = width * random.range(3, 5) + 4;
      return {
        column: across(segment(vec(x, 0), vec(x, l)), () => width / 2),
        width,
        note: `ragged ${width.toFixed(1)}`,
        style: plainStyle(job, width, some(random, width)),
      };
    },
    (job, draft) => {
      const both = job.random.chance(0.5);
      const middle = draft.needles.reduce((sum, n) => sum + n.x, 0) / draft.needles.length;
      for (const n of draft.needles)
        if (n.rail && (both || n.x > middle)) n.x += (n.x > middle ? 1 : -1) * job.random.range(-0.9, 0.9);
      // A ruler finds no one edge here.
      return { ...draft, open: { width: true } };
    },
  );

/** One long column underlaid part by part: each part's underlay, then the column over all of it. */
function parts(seed: number): Case {
  const job = new Job('satin-underlay-in-parts', seed);
  const { random } = job;
  const width = random.range(2.8, 6);
  job.locks = someLocks(random, width);
  const l = width * random.range(7, 11);
  const n = random.int(2, 3);
  const whole = across(segment(vec(0, 0), vec(0, l)), () => width / 2);
  const style = plainStyle(job, width, random.pick(clearUnderlays(width)));
  const owner = job.plan({
    ...columnTop(whole, style.top, false, 1, random, `${n} parts of underlay, ${width.toFixed(1)}`),
    needles: [],
  });
  let piece = -1;
  for (let k = 0; k < n; k++) {
    const part = across(segment(vec(0, (l * k) / n), vec(0, (l * (k + 1)) / n)), () => width / 2);
    const passes = layUnderlay(part, style, 0, random);
    const points = passes.flatMap((p) => p.points);
    if (k === 0)
      piece = job.under(
        passes.map((p) => p.kind),
        points,
        [owner],
      );
    else job.more(piece, points, random.chance(0.3) ? 'trim' : null);
    job.travel(vec(0, (l * (k + 1)) / n));
  }
  Object.assign(job.pen.drafts[owner], {
    needles: columnTop(whole, style.top, nearerEnd(whole, job.at) === 1, 1, random, '').needles,
  });
  job.sew(owner);
  return job.finish(`underlay ${style.underlay.join('+')} in parts`);
}

/** Four columns about a corner each, every one lapping over the last: capped corners. */
function capped(seed: number): Case {
  const job = new Job('satin-capped-corners', seed, 4);
  const { random } = job;
  const width = random.range(2.2, 4.5);
  job.locks = someLocks(random, width);
  const [w, h] = [random.range(18, 40), random.range(14, 30)];
  const corners = [vec(0, 0), vec(w, 0), vec(w, h), vec(0, h)];
  const style = plainStyle(job, width, random.pick([['center-run'], ['edge-run'], []] as const));
  for (let k = 0; k < 4; k++) {
    const [a, b] = [corners[k], corners[(k + 1) % 4]];
    const grow = (p: Vec, q: Vec) =>
      vec(p.x + (Math.sign(p.x - q.x) * width) / 2, p.y + (Math.sign(p.y - q.y) * width) / 2);
    const side = across(segment(grow(a, b), grow(b, a)), () => width / 2);
    job.sew(
      sewColumn(side, style, nearerEnd(side, job.at), random, `side ${k + 1}, ${width.toFixed(1)}`).draft,
    );
  }
  return job.finish('a frame of four columns');
}

/** Rays out from a middle, there by a run and back by the column. */
function rays(seed: number): Case {
  const job = new Job('satin-rays', seed, 5);
  const { random } = job;
  const width = random.range(1.6, 3.2);
  job.locks = someLocks(random, width);
  const n = random.int(5, 9);
  const [inner, outer] = [Math.max(4, (n * width) / 5), random.range(12, 20)];
  const style = plainStyle(job, width, []);
  for (let k = 0; k < n; k++) {
    const a = (2 * Math.PI * k) / n;
    const ray = across(
      segment(vec(inner * Math.cos(a), inner * Math.sin(a)), vec(outer * Math.cos(a), outer * Math.sin(a))),
      () => width / 2,
    );
    const out = layUnderlay(ray, { ...style, underlay: ['center-run'], thereAndBack: false }, 0, random);
    const top = columnTop(ray, style.top, true, 1, random, `ray ${k + 1}`);
    job.sew({
      ...top,
      underlay: ['center-run'],
      needles: [...needles(out[0].points, 'underlay'), ...top.needles],
    });
  }
  return job.finish(`${n} rays, ${width.toFixed(1)} wide`);
}

export const COLUMN_FAMILIES: Record<string, (seed: number) => Case> = {
  'satin-short-inner': shortened,
  'satin-pointed': pointed,
  'satin-changing-width': tapered,
  'satin-mitred': mitred,
  'satin-slanted': slanted,
  'satin-spacings': spaced,
  'satin-wide-split': split,
  'satin-ragged': ragged,
  'satin-underlay-in-parts': parts,
  'satin-capped-corners': capped,
  'satin-rays': rays,
};
