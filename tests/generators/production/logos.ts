/** Whole small designs: colors that come back, badges, outlined bars, cloth with a window, threads tied in every way, files of a coarse grid. */
import { place } from '../column.js';
import { Curve, segment } from '../curve.js';
import type { Draft } from '../draft.js';
import { someLine } from '../families/runs.js';
import { MORE_LOCK_STYLES } from '../locks.js';
import type { Case, Move, Transform } from '../pen.js';
import { inset, radians, stitchAlong, stitchCurve, type Vec, vec } from '../plane.js';
import { runDraft } from '../run.js';
import { sewColumn } from '../satin.js';
import { oval, rectangle, regular, star } from '../shapes.js';
import { clearUnderlays, nearerEnd, plainStyle } from './ahead.js';
import { begunNear, cover, meant, patch, placement, stopping, tackDown } from './applique.js';
import { area } from './areas.js';
import { practiceUnderlay } from './bands.js';
import { across } from './columns.js';
import { Job, sizedAnew, someLocks } from './job.js';
import { run } from './lines.js';
import { clearWord, someWordStyle, wordIn } from './words.js';

const movedBy = (ring: readonly Vec[], x: number, y: number): Vec[] => ring.map((p) => vec(p.x + x, p.y + y));

/** A column, an area or a line in its place of a grid. */
function something(job: Job, x: number, y: number): Draft {
  const { random } = job;
  const what = random.pick(['column', 'column', 'area', 'line'] as const);
  if (what === 'area')
    return area(
      job,
      {
        outer: movedBy(
          random.pick([oval(7, 7), rectangle(13, 13).map((p) => vec(p.x - 6.5, p.y - 6.5))]),
          x,
          y,
        ),
        holes: [],
      },
      'area',
      {
        rows: random.range(0.36, 0.5),
      },
    );
  if (what === 'line')
    return runDraft(
      movedBy([vec(-7, 0), vec(0, 5), vec(7, 0)], x, y),
      random.pick(['single', 'double', 'triple'] as const),
      random.range(2, 2.8),
      false,
      'line',
    );
  const width = random.range(1.5, 5.5);
  const column = across(segment(vec(x - 7, y), vec(x + 7, y)), () => width / 2);
  return sewColumn(
    column,
    plainStyle(job, width, practiceUnderlay(width, random)),
    nearerEnd(column, job.at),
    random,
    `column ${width.toFixed(1)}`,
  ).draft;
}

/** A logo in which the first colors come back later. */
function colorsBack(seed: number): Case {
  const job = new Job('logo-colors-back', seed);
  const { random } = job;
  job.locks = someLocks(random, 1.5);
  let k = 0;
  for (let block = random.int(3, 5); block > 0; block--) {
    for (let n = random.int(1, 3); n > 0; n--, k++) {
      const move: Move | null =
        n === 1 && k > 0 ? 'colour' : k > 0 ? random.pick(['trim', 'trim', 'jump'] as const) : null;
      const [x, y] = [(k % 3) * 17, Math.floor(k / 3) * 16];
      job.sew(something(job, x, y), move);
    }
  }
  return job.finish('colors that come back');
}

/** A badge: filled ground, a star on it, and a slanted, close rim that laps over its beginning. */
function badge(seed: number): Case {
  const job = new Job('badge-rim', seed);
  const { random } = job;
  job.locks = someLocks(random, 2.5);
  const line = patch(random, 36, 60);
  job.sew(
    area(job, { outer: line.filter((_, i) => i % 4 === 0), holes: [] }, 'ground', {
      rows: random.range(0.38, 0.5),
    }),
  );
  if (random.chance(0.6))
    job.sew(
      area(job, { outer: star(5, 9, 0.5), holes: [] }, 'star', { rows: random.range(0.36, 0.45) }),
      'colour',
    );
  const width = random.range(3, 4.8);
  const centre = new Curve(begunNear(line, job.at, random), true);
  const style = plainStyle(
    job,
    width,
    random.pick([['zigzag'], ['edge-run'], ['edge-run', 'zigzag'], ['center-run', 'zigzag']] as const),
  );
  style.top = {
    ...style.top,
    spacing: random.range(0.3, 0.4),
    overlap: random.range(1, 4),
    zag: 'symmetric',
  };
  style.inset = Math.min(0.6, width * 0.2);
  const degrees = random.sign() * random.range(10, 25);
  const rim = sewColumn(
    { centre, half: () => width / 2, lie: { kind: 'slant', degrees } },
    style,
    0,
    random,
    `rim ${width.toFixed(1)} slanted ${degrees.toFixed(0)}°`,
  ).draft;
  job.sew(rim, random.pick(['colour', 'colour', 'trim'] as const));
  return job.finish('a badge');
}

/** Columns in one color, each with a line round its edge in another. */
function outlinedBars(seed: number): Case {
  const job = new Job('bars-outlined', seed);
  const { random } = job;
  const n = random.int(2, 4);
  const width = random.range(3, 6.5);
  job.locks = someLocks(random, width);
  const gap = random.range(-0.1, 0.4);
  const bars = Array.from({ length: n }, (_, k) =>
    across(segment(vec(k * (width + 5), 0), vec(k * (width + 5), width * 3 + 6)), () => width / 2),
  );
  const style = plainStyle(job, width, random.pick(clearUnderlays(width)));
  for (const bar of bars)
    job.sew(
      sewColumn(bar, style, nearerEnd(bar, job.at), random, `bar ${width.toFixed(1)}`).draft,
      job.at ? 'trim' : null,
    );
  const how = random.pick(['single', 'double', 'triple'] as const);
  bars.forEach((bar, k) => {
    const l = bar.centre.length;
    const v = width / 2 + style.top.comp + gap;
    const edge = (s: number, side: number) => place({ ...bar, half: () => v }, s, side * v);
    const ring = [edge(-gap, 1), edge(l + gap, 1), edge(l + gap, -1), edge(-gap, -1), edge(-gap, 1)];
    job.sew(runDraft(ring, how, random.range(2, 2.8), false, 'outline'), k === 0 ? 'colour' : 'trim');
  });
  return job.finish(`${n} bars outlined in another color`);
}

/** Cloth with a window: each step of the sequence round the outside and round the window. */
function withWindow(seed: number): Case {
  const job = new Job('applique-window', seed);
  const { random } = job;
  job.locks = someLocks(random, 2.5);
  const outer = patch(random, 34, 60);
  const k = random.range(0.35, 0.5);
  const inner = outer.map((p) => vec(p.x * k, p.y * k));
  const lines = [outer, inner];
  const how = random.pick(['zigzag', 'run'] as const);
  lines.forEach((l, i) => {
    job.sew(placement(job, l), i === 0 ? null : 'trim');
  });
  lines.forEach((l, i) => {
    job.sew(tackDown(job, l, how), i === 0 ? stopping(random) : 'trim');
  });
  lines.forEach((l, i) => {
    job.sew(cover(job, l, 'satin'), i === 0 ? stopping(random) : 'trim');
  });
  return job.finish('cloth with a window');
}

/** Cloth left with a raw edge: placed, then held by lines within its edge. */
function rawEdge(seed: number): Case {
  const job = new Job('applique-raw', seed);
  const { random } = job;
  const line = patch(random, 28, 60);
  // Nothing covers it, so that the first line may as well be one that stays.
  job.sew(meant(placement(job, line), 'placement', 'top', 'decorative'));
  const depth = random.range(1.5, 2.5);
  const thin = line.filter((_, i) => i % 5 === 0);
  const held = inset(thin, depth);
  const closed = begunNear(held, job.at, random);
  const how = random.pick(['double', 'triple'] as const);
  job.sew(
    meant(
      runDraft([...closed, closed[0]], how, random.range(2.2, 3), true, 'holding line'),
      'tack-down',
      'top',
      'decorative',
    ),
    stopping(random),
  );
  return job.finish('cloth with a raw edge');
}

/** Two stitches on, one back. */
function backstitch(seed: number): Case {
  const job = new Job('run-backstitch', seed);
  const { points, smooth, name } = someLine(job.random);
  const step = job.random.range(1.6, 2.6);
  const once = smooth ? stitchCurve(points, step) : stitchAlong(points, step);
  const sewn = [once[0]];
  for (let i = 2; i < once.length; i++) sewn.push(once[i - 1], once[i], once[i - 1]);
  sewn.push(once[once.length - 1]);
  // Every place but the two ends is passed three times.
  job.sew(run(sewn, [3], `backstitch, ${name}`));
  return job.finish('backstitch');
}

/** Lines that follow an outline at even distances, each its own thread. */
function echoes(seed: number): Case {
  const job = new Job('run-echoes', seed, 0);
  const { random } = job;
  const outer = random.pick([
    rectangle(random.range(30, 44), random.range(26, 34)),
    regular(6, random.range(16, 24)),
    oval(random.range(15, 22), random.range(14, 18)),
  ]);
  const apart = random.range(2, 3.2);
  const how = random.pick(['single', 'single', 'double'] as const);
  const n = random.int(3, 4);
  for (let k = 0; k < n; k++) {
    const ring = k === 0 ? outer : inset(outer, k * apart);
    const smooth = ring.length > 20;
    job.sew(
      runDraft([...ring, ring[0]], how, random.range(2, 2.8), smooth, `echo ${k + 1}`),
      job.at ? 'trim' : null,
    );
  }
  return job.finish(`echoes ${apart.toFixed(1)} apart`);
}

/** Every thread tied in a way of its own, or not at all where the next is sewn on. */
function manyTies(seed: number): Case {
  const job = new Job('ties-of-all-kinds', seed, 2);
  const { random } = job;
  const width = random.range(2.2, 4.5);
  const gap = random.range(0.8, 1.8);
  let end = 0;
  const n = random.int(5, 9);
  for (let k = 0; k < n; k++) {
    job.locks = {
      ...someLocks(random, width),
      style: random.pick(MORE_LOCK_STYLES),
      start: random.chance(0.8),
      end: random.chance(0.8),
    };
    const x = k * (width + gap + 0.6);
    const bar = across(segment(vec(x, 0), vec(x, width * 3 + 4)), () => width / 2);
    const cut = k > 0 && random.chance(0.5);
    const { draft, exit } = sewColumn(
      bar,
      plainStyle(job, width, random.pick([[], ...clearUnderlays(width)])),
      end as 0 | 1,
      random,
      `bar ${k + 1}`,
    );
    end = exit;
    job.sew(draft, cut ? 'trim' : k > 0 ? 'straight' : null);
  }
  return job.finish('threads tied in every way');
}

/** Some columns, a word and an area, for what becomes of any file on its way to the machine. */
function plainLogo(job: Job): void {
  const { random } = job;
  const style = someWordStyle(random, 8, 14);
  const laid = wordIn(job, clearWord(random, 3, 4), style);
  const satin = plainStyle(job, laid.stroke, random.pick(clearUnderlays(laid.stroke)));
  for (const c of laid.letters.flat())
    job.sew(sewColumn(c, satin, nearerEnd(c, job.at), random, 'stroke').draft);
  const width = random.range(3, 5.5);
  const bar = across(segment(vec(0, -6), vec(laid.high.x, -6)), () => width / 2);
  job.sew(
    sewColumn(
      bar,
      plainStyle(job, width, practiceUnderlay(width, random)),
      0,
      random,
      `bar ${width.toFixed(1)}`,
    ).draft,
    'trim',
  );
  job.sew(
    area(job, { outer: movedBy(oval(9, 9), laid.high.x / 2, -22), holes: [] }, 'emblem', {
      rows: random.range(0.38, 0.5),
    }),
    'colour',
  );
  job.sew(
    runDraft(
      movedBy(oval(11, 11), laid.high.x / 2, -22).concat([vec(laid.high.x / 2 + 11, -22)]),
      'double',
      2.2,
      true,
      'ring',
    ),
    'trim',
  );
}

const upright = (random: Job['random'], change: Partial<Transform>): Transform => ({
  ...sizedAnew(random),
  scale: 1,
  jitter: 0,
  ...change,
});

/** Written by a program that counts in a two-hundredth of an inch, or in fifths of a millimetre. */
function coarse(seed: number): Case {
  const job = new Job('file-coarse-grid', seed);
  plainLogo(job);
  const grid = job.random.pick([0.1, 0.127, 0.2]);
  const quarter = job.random.pick([0, 90, 180, 270]);
  return job.finish(`points on a grid of ${grid} mm`, upright(job.random, { degrees: quarter }), grid);
}

/** Written on the raster of the file, then made larger or smaller on the machine, with its noise. */
function resized(seed: number): Case {
  const job = new Job('file-resized-on-machine', seed);
  plainLogo(job);
  const { random } = job;
  const scale = 1 + random.sign() * random.range(0.05, 0.08);
  return job.finish(
    `sized by ${((scale - 1) * 100).toFixed(0)} % on the machine`,
    upright(random, { scale, jitter: random.chance(0.5) ? 0.05 : 0 }),
    0.1,
  );
}

/** A sun: columns round a disc, all in one color with it. */
function sun(seed: number): Case {
  const job = new Job('logo-sun', seed, 3);
  const { random } = job;
  const n = random.int(6, 10);
  const width = random.range(2, 3);
  job.locks = someLocks(random, width);
  const r = Math.max(7, (n * (width + 0.8)) / 6);
  job.sew(area(job, { outer: oval(r, r), holes: [] }, 'disc', { rows: random.range(0.36, 0.48) }));
  const style = plainStyle(job, width, random.pick([['center-run'], []] as const));
  for (let k = 0; k < n; k++) {
    const a = radians((360 * k) / n);
    const at = (d: number) => vec(d * Math.cos(a), d * Math.sin(a));
    const ray = across(segment(at(r + 0.6), at(r + 8)), () => width / 2);
    job.sew(sewColumn(ray, style, nearerEnd(ray, job.at), random, `ray ${k + 1}`).draft, 'trim');
  }
  return job.finish(`a sun of ${n} rays`);
}

export const LOGO_FAMILIES: Record<string, (seed: number) => Case> = {
  'logo-colors-back': colorsBack,
  'logo-sun': sun,
  'badge-rim': badge,
  'bars-outlined': outlinedBars,
  'applique-window': withWindow,
  'applique-raw': rawEdge,
  'run-backstitch': backstitch,
  'run-echoes': echoes,
  'ties-of-all-kinds': manyTies,
  'file-coarse-grid': coarse,
  'file-resized-on-machine': resized,
};
