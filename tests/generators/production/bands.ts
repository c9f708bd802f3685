/** Columns in the forms that digitizers give them: split by the machine, drop-shaped, round, framed, branching, crossing. */
import type { UnderlayKind } from '../../../lib/segment/objects.js';
import { type Column, columnTop, place } from '../column.js';
import { centreRun } from '../column-underlay.js';
import { arc, Curve, ellipse, path, rounded, segment } from '../curve.js';
import { type Draft, type Needle, needles } from '../draft.js';
import type { Case } from '../pen.js';
import { between, distance, radians, stitchAlong, type Vec, vec } from '../plane.js';
import type { Random } from '../random.js';
import { runDraft } from '../run.js';
import { layUnderlay, sewColumn } from '../satin.js';
import { clearUnderlays, nearerEnd, plainStyle } from './ahead.js';
import { across, several } from './columns.js';
import { Job, someLocks } from './job.js';

const some = (random: Random, width: number): readonly UnderlayKind[] =>
  random.chance(0.75) ? random.pick(clearUnderlays(width)) : [];

/** What lies under a column of a width in daily practice. */
export function practiceUnderlay(width: number, random: Random): readonly UnderlayKind[] {
  if (width < 1.4) return random.chance(0.5) ? [] : ['center-run'];
  if (width < 2.6) return ['center-run'];
  if (width < 4) return random.pick([['edge-run'], ['center-run'], ['zigzag']] as const);
  return random.pick([
    ['edge-run'],
    ['edge-run', 'zigzag'],
    ['zigzag'],
    ['double-zigzag'],
    ['edge-run', 'double-zigzag'],
  ] as const);
}

type Rule = 'from one rail' | 'from both rails' | 'in three steps' | 'anywhere';

/** Points that break swings longer than `over`, as a program puts them in. */
function broken(
  swings: readonly Needle[],
  over: number,
  rule: Rule,
  random: Random,
): { needles: Needle[]; share: number } {
  const out: Needle[] = [swings[0]];
  let split = 0;
  for (let k = 1; k < swings.length; k++) {
    const [a, b] = [swings[k - 1], swings[k]];
    const l = distance(a, b);
    if (l > over) {
      split++;
      const n = Math.ceil(l / over);
      // Counted from the first rail, so that points of swings there and back lie in lines or in steps as meant.
      const shift: Record<Rule, () => number> = {
        'from one rail': () => 0,
        'from both rails': () => (k % 2 ? 0.12 : -0.12),
        'in three steps': () => ((k % 3) - 1) * 0.14,
        anywhere: () => random.range(-0.18, 0.18),
      };
      const by = shift[rule]();
      const at = Array.from({ length: n - 1 }, (_, i) => (i + 1 + by * (n > 2 ? 1.4 : 1)) / n);
      const along = k % 2 ? at : at.map((f) => 1 - f).reverse();
      for (const f of along) out.push({ ...between(a, b, f), role: 'top' });
    }
    out.push(b);
  }
  return { needles: out, share: split / (swings.length - 1) };
}

/** Wide columns, of even or changing width, broken by a program where a swing would be too long. */
function autoSplit(seed: number): Case {
  const job = new Job('satin-auto-split', seed);
  const { random } = job;
  let x = 0;
  for (let k = random.int(1, 3); k > 0; k--) {
    const width = random.range(7.5, 16);
    const l = width * random.range(2, 3.5);
    const lens = random.chance(0.4);
    const half = (s: number) =>
      lens ? 1 + (width / 2 - 1) * Math.sin((Math.PI * Math.min(l, Math.max(0, s))) / l) : width / 2;
    const column = across(segment(vec(x, 0), vec(x, l)), half);
    const style = plainStyle(job, width, random.pick([['edge-run'], ['edge-run', 'zigzag'], []] as const));
    style.top = { ...style.top, spacing: random.range(0.36, 0.5), comp: 0 };
    const passes = layUnderlay(column, { ...style, zigzagSpacing: 2.5 }, 0, random);
    const top = columnTop(column, style.top, passes.at(-1)?.end === 1, 1, random, '');
    const rule = random.pick(['from one rail', 'from both rails', 'in three steps', 'anywhere'] as const);
    const cut = broken(top.needles, random.range(5, 6.8), rule, random);
    const draft: Draft = {
      ...top,
      underlay: passes.map((p) => p.kind),
      needles: [...passes.flatMap((p) => needles(p.points, 'underlay')), ...cut.needles],
      split: cut.share > 0.5,
      open: { split: cut.share > 0.1 && cut.share < 0.9 },
      note: `${lens ? 'lens' : 'bar'} ${width.toFixed(1)} broken ${rule}`,
    };
    job.sew(draft, job.at ? 'trim' : null);
    x += width + 6;
  }
  return job.finish('columns broken by a program');
}

/** Drops: one end round, the other run out to a point. */
const teardrop = (seed: number) =>
  several('satin-teardrop', seed, 2, (job, x) => {
    const { random } = job;
    const width = random.range(3, 7);
    const r = width / 2;
    const l = width * random.range(2.2, 4);
    const centre = segment(vec(x, 0), vec(x, l));
    const half = (s: number) =>
      Math.max(
        0.2,
        s < r ? Math.sqrt(Math.max(0, r * r - (r - s) ** 2)) : r * (1 - (s - r) / (l - r)) ** 0.9,
      );
    const style = plainStyle(job, width, random.pick([[], ['center-run'], ['zigzag']] as const));
    style.top = { ...style.top, comp: 0 };
    return {
      column: across(centre, (s) => half(Math.min(l, Math.max(0, s)))),
      width,
      note: `drop ${width.toFixed(1)}×${l.toFixed(0)}`,
      style,
    };
  });

/** The O of a book face: thick at its sides, thin above and below, lapping over its beginning. */
const bookRing = (seed: number) =>
  several('ring-thick-thin', seed, 1.4, (job, x) => {
    const { random } = job;
    const [thin, thick] = [random.range(1.3, 2.2), random.range(3, 5)];
    const r = random.range(7, 12);
    const from = random.range(0, 2 * Math.PI);
    const centre = new Curve(
      ellipse(vec(x * 1.3, 0), r * 0.85, r, from, from + 2 * Math.PI).slice(0, -1),
      true,
    );
    const half = (s: number) => (thin + (thick - thin) * centre.tangent(s).y ** 2) / 2;
    const style = plainStyle(job, thick, some(random, thin));
    style.top = { ...style.top, overlap: random.range(0.5, 3) };
    return {
      column: across(centre, half),
      width: thick,
      note: `ring ${thin.toFixed(1)} to ${thick.toFixed(1)}`,
      style,
    };
  });

/** Bands with several rounded corners, open or closed to a frame. */
const roundCorners = (seed: number) =>
  several('satin-round-corners', seed, 2, (job, x) => {
    const { random } = job;
    const width = random.range(2, 4.5);
    const s = width * random.range(3.2, 4.2);
    const radius = width * random.range(0.6, 1.1);
    const at = (u: number, v: number) => vec(x * 1.7 + u * s, v * s);
    const form = random.pick(['frame', 'Z', 'U', 'steps'] as const);
    const corners: Record<typeof form, Vec[]> = {
      frame: [at(0, 0), at(1.6, 0), at(1.6, 1.2), at(0, 1.2)],
      Z: [at(0, 1.2), at(1.4, 1.2), at(0.1, 0), at(1.5, 0)],
      U: [at(0, 1.4), at(0, 0), at(1.2, 0), at(1.2, 1.4)],
      steps: [at(0, 0), at(1, 0), at(1, 1), at(2, 1), at(2, 2)],
    };
    const closed = form === 'frame';
    const line = rounded(corners[form], radius, closed);
    const style = plainStyle(job, width, random.pick([[], ['center-run'], ['edge-run']] as const));
    style.top = { ...style.top, short: random.range(0.6, 0.8) };
    return {
      column: across(new Curve(line, closed), () => width / 2),
      width,
      note: `${form} ${width.toFixed(1)} r ${radius.toFixed(1)}`,
      style,
    };
  });

/** A side of a frame that is cut to the diagonal at both ends: swings fan from one diagonal to the other. */
function mitredSide(
  job: Job,
  outer: readonly [Vec, Vec],
  inner: readonly [Vec, Vec],
  width: number,
  note: string,
): Draft {
  const { random } = job;
  const mid = segment(between(outer[0], inner[0], 0.5), between(outer[1], inner[1], 0.5));
  const spacing = random.range(0.34, 0.45);
  const n = Math.round(mid.length / (spacing / 2));
  const top: Needle[] = Array.from({ length: n + 1 }, (_, k) => {
    const rail = k % 2 ? inner : outer;
    return { ...between(rail[0], rail[1], k / n), role: 'top', rail: true };
  });
  const within = segment(mid.point(width * 0.4), mid.point(mid.length - width * 0.4));
  const under = random.chance(0.6)
    ? centreRun(
        across(within, () => width / 2),
        0,
        'there-and-back',
        random,
      )
    : null;
  return {
    kind: 'satin',
    needles: [...needles(under?.points ?? [], 'underlay'), ...top],
    widthMm: width,
    spacingMm: (2 * mid.length) / n,
    angleDeg: null,
    underlay: under ? ['center-run'] : [],
    split: false,
    locks: { start: false, end: false },
    note,
  };
}

function mitredFrame(seed: number): Case {
  const job = new Job('satin-mitred-frame', seed, 2);
  const { random } = job;
  const width = random.range(2.5, 5.5);
  job.locks = someLocks(random, width);
  const [w, h] = [random.range(22, 40), random.range(18, 30)];
  const corners = (d: number) => [vec(d, d), vec(w - d, d), vec(w - d, h - d), vec(d, h - d)];
  const [out, inn] = [corners(0), corners(width)];
  // Sewn on round a corner, two sides would be one column that turns it: each is cut, those across from one another first.
  for (const k of [0, 2, 1, 3]) {
    const j = (k + 1) % 4;
    const note = `side ${k + 1}, ${width.toFixed(1)}`;
    job.sew(mitredSide(job, [out[k], out[j]], [inn[k], inn[j]], width, note), job.at ? 'trim' : null);
  }
  return job.finish('a frame with mitred corners');
}

/** A leaf of two slanted halves and the vein between them. */
function leafHalves(seed: number): Case {
  const job = new Job('satin-leaf-halves', seed);
  const { random } = job;
  const l = random.range(18, 32);
  const depth = l * random.range(0.18, 0.28);
  const width = depth;
  job.locks = someLocks(random, 2);
  const degrees = random.range(20, 40);
  for (const side of [1, -1]) {
    const line = path((t) => vec(t, (side * depth * Math.sin((Math.PI * t) / l)) / 2), 0.3, l - 0.3, l * 1.1);
    const centre = new Curve(line);
    const n = centre.length;
    const half = (s: number) =>
      Math.max(0.5, (depth / 2) * Math.sin((Math.PI * Math.min(n, Math.max(0, s))) / n));
    const style = plainStyle(job, width, random.pick([[], ['center-run']] as const));
    style.top = { ...style.top, comp: 0 };
    const column: Column = { centre, half, lie: { kind: 'slant', degrees: side * -degrees } };
    const { draft } = sewColumn(
      column,
      style,
      0,
      random,
      `half ${depth.toFixed(1)} slanted ${degrees.toFixed(0)}°`,
    );
    job.sew(draft, job.at ? 'trim' : null);
  }
  const vein = [vec(0, 0), vec(l * 0.95, 0)];
  job.sew(
    runDraft(vein, random.pick(['single', 'double', 'triple'] as const), random.range(2, 2.8), false, 'vein'),
    random.pick(['trim', 'colour'] as const),
  );
  return job.finish('a leaf of two halves');
}

/** Dots and periods: round, sewn as short columns. */
function dots(seed: number): Case {
  const job = new Job('satin-dots', seed, 0);
  const { random } = job;
  const r = random.range(1.2, 2.4);
  job.locks = someLocks(random, 2);
  const far = random.pick(['trim', 'trim', 'jump'] as const);
  const n = random.int(3, 8);
  for (let k = 0; k < n; k++) {
    const x = k * (2 * r + 2.5);
    const half = (s: number) =>
      Math.max(0.3, Math.sqrt(Math.max(0, r * r - (r - Math.min(2 * r, Math.max(0, s))) ** 2)));
    const style = plainStyle(job, 2 * r, r > 1.6 && random.chance(0.5) ? ['center-run'] : []);
    style.top = { ...style.top, comp: 0, spacing: random.range(0.34, 0.42) };
    const dot = across(segment(vec(x, -r), vec(x, r)), half);
    job.sew(sewColumn(dot, style, 0, random, `dot ${(2 * r).toFixed(1)}`).draft, k > 0 ? far : null);
  }
  return job.finish(`${n} dots`);
}

/** A stem sewn last: up its middle, at every branch out along it and back over it in satin, the stem over all. */
function branching(seed: number): Case {
  const job = new Job('satin-branching', seed, 4);
  const { random } = job;
  const [thick, thin] = [random.range(2, 4), random.range(1.4, 3)];
  job.locks = { ...someLocks(random, thin), start: true };
  const n = random.int(2, 5);
  const gap = random.range(6, 10);
  const stem = across(segment(vec(0, 0), vec(0, gap * (n + 0.8))), () => thick / 2);
  const owner = job.plan({
    ...columnTop(stem, plainStyle(job, thick, []).top, true, 1, random, `stem ${thick.toFixed(1)}`),
    needles: [],
    underlay: ['center-run'],
  });
  let at = place(stem, 0.6, 0);
  const climb = (to: Vec) => {
    job.part(
      owner,
      needles(stitchAlong([at, to], 2.4).slice(at.y > 1 ? 1 : 0), 'underlay'),
      job.at && 'straight',
    );
    at = to;
  };
  for (let k = 1; k <= n; k++) {
    const foot = vec(0, k * gap);
    climb(foot);
    const side = k % 2 ? 1 : -1;
    const a = radians(random.range(15, 50));
    const l = random.range(8, 14);
    const root = vec(side * (thick / 2 - 0.3), foot.y);
    const arm = across(
      segment(root, vec(root.x + side * l * Math.cos(a), root.y + l * Math.sin(a))),
      () => thin / 2,
    );
    const out = centreRun(arm, 0, 'out', random, 0.5);
    const { draft } = sewColumn(arm, plainStyle(job, thin, []), 0, random, `branch ${k}`, [out]);
    // The thread is tied where the stem's middle begins: whose start that is may be told either way.
    job.sew(k === 1 ? { ...draft, open: { lockStart: true } } : draft, 'straight');
  }
  climb(place(stem, stem.centre.length - 0.6, 0));
  const top = columnTop(stem, plainStyle(job, thick, []).top, true, 1, random, '');
  Object.assign(job.pen.drafts[owner], {
    open: { lockStart: true },
    spacingMm: top.spacingMm,
    widthMm: top.widthMm,
    wideMm: top.wideMm,
  });
  job.part(owner, top.needles, 'straight');
  return job.finish(`a stem with ${n} branches`);
}

/** Columns of all widths over what daily practice lays beneath them. */
function practice(seed: number): Case {
  const job = new Job('columns-practice', seed, 2.5);
  const { random } = job;
  job.locks = someLocks(random, 1.2);
  let x = 0;
  for (let k = random.int(4, 8); k > 0; k--) {
    const width = random.range(1, 6.8);
    const l = width * random.range(2.5, 4) + 6;
    const bow = random.chance(0.4) ? l * random.range(1, 2) : 0;
    x += width / 2;
    const centre = bow
      ? new Curve(arc(vec(x - bow, 0), bow, radians(0), l / bow))
      : segment(vec(x, 0), vec(x, l));
    const style = plainStyle(job, width, practiceUnderlay(width, random));
    style.inset = Math.min(0.5, width * 0.2);
    style.zigzagSpacing = random.range(1.5, 2.5);
    const column = across(centre, () => width / 2);
    job.sew(sewColumn(column, style, nearerEnd(column, job.at), random, `column ${width.toFixed(1)}`).draft);
    x += width / 2 + random.range(0.8, 4);
  }
  return job.finish('columns over what practice lays beneath');
}

/** Columns that cross one another: hashes, crosses, woven bars. */
function crossing(seed: number): Case {
  const job = new Job('columns-crossing', seed);
  const { random } = job;
  const width = random.range(2, 4.5);
  job.locks = someLocks(random, width);
  const s = random.range(20, 34);
  const n = random.int(1, 2);
  const lean = random.pick([0, 0, s * 0.15]);
  const style = plainStyle(job, width, some(random, width));
  const bars: Curve[] = [];
  for (let k = 1; k <= n; k++) {
    const u = (s * k) / (n + 1);
    bars.push(segment(vec(u - lean, 0), vec(u + lean, s)), segment(vec(0, u), vec(s, u)));
  }
  if (random.chance(0.5)) bars.sort((a, b) => Math.abs(a.tangent(0).x) - Math.abs(b.tangent(0).x));
  for (const line of bars) {
    const bar = across(line, () => width / 2);
    job.sew(
      sewColumn(bar, style, nearerEnd(bar, job.at), random, `bar ${width.toFixed(1)}`).draft,
      job.at ? random.pick(['trim', 'trim', 'colour'] as const) : null,
    );
  }
  return job.finish(`${2 * n} bars across one another`);
}

export const BAND_FAMILIES: Record<string, (seed: number) => Case> = {
  'satin-auto-split': autoSplit,
  'satin-teardrop': teardrop,
  'ring-thick-thin': bookRing,
  'satin-round-corners': roundCorners,
  'satin-mitred-frame': mitredFrame,
  'satin-leaf-halves': leafHalves,
  'satin-dots': dots,
  'satin-branching': branching,
  'columns-practice': practice,
  'columns-crossing': crossing,
};
