/** Pieces of cloth sewn on: where they go, what tacks them down, and what covers their edge. */
import type { UnderlayKind } from '../../../lib/segment/objects.js';
import { type Column, columnTop } from '../column.js';
import { Curve, ellipse, rounded } from '../curve.js';
import { type Draft, type Purpose, plainDraft } from '../draft.js';
import type { Case, Move } from '../pen.js';
import { distance, stitchCurve, type Vec, vec } from '../plane.js';
import type { Random } from '../random.js';
import { runDraft } from '../run.js';
import { sewColumn } from '../satin.js';
import { clearUnderlays, plainStyle } from './ahead.js';
import { Job, someLocks } from './job.js';

/** A smooth closed outline about the origin. */
export function patch(random: Random, low: number, high: number): Vec[] {
  const s = random.range(low, high);
  const k = random.range(0.6, 1);
  if (random.chance(0.5)) return ellipse(vec(0, 0), s / 2, (s * k) / 2).slice(0, -1);
  const [w, h] = [s / 2, (s * k) / 2];
  return rounded([vec(-w, -h), vec(w, -h), vec(w, h), vec(-w, h)], h * random.range(0.5, 0.9), true);
}

/** A closed line begun at its place nearest to `from`, or anywhere. */
export function begunNear(line: readonly Vec[], from: Vec | null, random: Random): Vec[] {
  let k = random.int(0, line.length - 1);
  if (from) {
    k = 0;
    line.forEach((p, i) => {
      if (distance(p, from) < distance(line[k], from)) k = i;
    });
  }
  return [...line.slice(k), ...line.slice(0, k)];
}

/** A zigzag or satin round a closed line. */
export function ring(
  job: Job,
  line: readonly Vec[],
  width: number,
  spacing: number,
  underlay: readonly UnderlayKind[],
  note: string,
): Draft {
  const { random } = job;
  const column: Column = {
    centre: new Curve(begunNear(line, job.at, random), true),
    half: () => width / 2,
    lie: { kind: 'across' },
  };
  const style = plainStyle(job, width, underlay);
  style.top = { ...style.top, spacing, zag: 'symmetric', overlap: random.range(0.4, 1) };
  return sewColumn(column, style, 0, random, note).draft;
}

export const meant = (draft: Draft, ...purposes: Purpose[]): Draft => ({ ...draft, purposes });

/** A stop where the sewer lays or trims cloth: often put into the file as a change of color. */
export const stopping = (random: Random): Move => random.pick(['colour', 'colour', 'stop'] as const);

export function placement(job: Job, line: readonly Vec[]): Draft {
  const closed = begunNear(line, job.at, job.random);
  return meant(
    runDraft(
      [...closed, closed[0]],
      job.random.pick(['single', 'single', 'double'] as const),
      job.random.range(2.5, 4),
      true,
      'placement',
    ),
    'placement',
  );
}

type Tack = 'zigzag' | 'run';
type Cover = 'satin' | 'zigzag' | 'blanket';

export function tackDown(job: Job, line: readonly Vec[], how: Tack): Draft {
  const { random } = job;
  if (how === 'zigzag')
    return meant(
      ring(job, line, random.range(2, 3.2), random.range(1.6, 3), [], 'tack-down zigzag'),
      'tack-down',
    );
  const closed = begunNear(line, job.at, random);
  return meant(
    runDraft(
      [...closed, closed[0]],
      random.pick(['single', 'double'] as const),
      random.range(2, 3),
      true,
      'tack-down run',
    ),
    'tack-down',
  );
}

/** Stitches along an edge with a prong inward at every one, sewn out and back. */
export function blanket(line: readonly Vec[], step: number, prong: number, note: string): Draft {
  const even = line.filter((p, i) => i === 0 || distance(p, line[i - 1]) > 1e-6);
  const closed = stitchCurve([...even, even[0]], step);
  const points: Vec[] = [];
  closed.forEach((p, i) => {
    const a = closed[Math.max(0, i - 1)];
    const b = closed[Math.min(closed.length - 1, i + 1)];
    const l = distance(a, b) || 1;
    const inward = vec(p.x - ((b.y - a.y) / l) * prong, p.y + ((b.x - a.x) / l) * prong);
    points.push(p, inward, p);
  });
  return {
    ...plainDraft('run', points),
    alsoKinds: ['satin'],
    purposes: ['edging'],
    passes: [1, 2],
    note: `${note} blanket edge, step ${step.toFixed(1)} prong ${prong.toFixed(1)}`,
  };
}

export function cover(job: Job, line: readonly Vec[], how: Cover): Draft {
  const { random } = job;
  if (how === 'blanket')
    return blanket(begunNear(line, job.at, random), random.range(2, 3.5), random.range(2, 3.5), 'cover');
  if (how === 'zigzag')
    return meant(
      ring(job, line, random.range(2.5, 4), random.range(0.9, 1.5), [], 'cover zigzag'),
      'edging',
      'top',
    );
  const underlay = random.chance(0.5) ? random.pick(clearUnderlays(3.4)) : [];
  const satin = meant(
    ring(job, line, random.range(3.2, 5), random.range(0.35, 0.5), underlay, 'cover satin'),
    'top',
    'edging',
  );
  // What tacks the cloth holds the fabric beneath the cover too: bare of an underlay of its own, it is not at fault.
  return underlay.length === 0 ? { ...satin, open: { underlay: true } } : satin;
}

function applique(family: string, seed: number, tack: Tack, how: Cover, precut = false): Case {
  const job = new Job(family, seed);
  const { random } = job;
  job.locks = someLocks(random, 2.5);
  const line = patch(random, 25, 60);
  job.sew(placement(job, line));
  const held = tackDown(job, line, tack);
  job.sew(precut ? { ...held, open: { object: true } } : held, stopping(random));
  const top = cover(job, line, how);
  job.sew(
    precut ? { ...top, open: { underlay: true, zigzag: true } } : top,
    precut ? null : stopping(random),
  );
  return job.finish(`appliqué, ${tack} below ${how}${precut ? ', cloth cut beforehand' : ''}`);
}

/** Digits of cloth on a jersey: each placed, tacked and covered, or each step for all of them. */
function twill(seed: number): Case {
  const job = new Job('applique-digits', seed);
  const { random } = job;
  job.locks = someLocks(random, 2.5);
  const lines = Array.from({ length: random.int(2, 3) }, (_, k) =>
    patch(random, 24, 34).map((p) => vec(p.x + k * 40, p.y)),
  );
  const stepwise = random.chance(0.6);
  const first = () => (job.at ? stopping(random) : null);
  if (stepwise) {
    lines.forEach((l) => {
      job.sew(placement(job, l), job.at ? 'trim' : null);
    });
    lines.forEach((l, k) => {
      job.sew(tackDown(job, l, 'zigzag'), k === 0 ? stopping(random) : 'trim');
    });
    lines.forEach((l, k) => {
      job.sew(cover(job, l, 'satin'), k === 0 ? stopping(random) : 'trim');
    });
  } else
    for (const l of lines) {
      job.sew(placement(job, l), first());
      job.sew(tackDown(job, l, 'zigzag'), stopping(random));
      job.sew(cover(job, l, 'satin'), stopping(random));
    }
  return job.finish(`${lines.length} pieces of cloth, ${stepwise ? 'step by step' : 'one by one'}`);
}

/** An edge sewn round with nothing beneath. */
function edge(family: string, seed: number, how: 'zigzag' | 'blanket'): Case {
  const job = new Job(family, seed);
  const { random } = job;
  job.locks = someLocks(random, 2.5);
  const line = patch(random, 20, 60);
  const draft =
    how === 'blanket'
      ? blanket(line, random.range(2, 4), random.range(2, 4), 'bare')
      : ring(job, line, random.range(2, 4.5), random.range(1.2, 3), [], 'bare zigzag edge');
  job.sew(meant(draft, 'edging', 'decorative'));
  return job.finish('an edge');
}

export const APPLIQUE_FAMILIES: Record<string, (seed: number) => Case> = {
  'applique-satin': (seed) => applique('applique-satin', seed, 'zigzag', 'satin'),
  'applique-run-tacked': (seed) => applique('applique-run-tacked', seed, 'run', 'satin'),
  'applique-zigzag': (seed) => applique('applique-zigzag', seed, 'run', 'zigzag'),
  'applique-blanket': (seed) => applique('applique-blanket', seed, 'run', 'blanket'),
  'applique-precut': (seed) => applique('applique-precut', seed, 'zigzag', 'satin', true),
  'applique-digits': twill,
  'edge-zigzag': (seed) => edge('edge-zigzag', seed, 'zigzag'),
  'edge-blanket': (seed) => edge('edge-blanket', seed, 'blanket'),
};

/** A column without underlay that is sewn open on purpose. */
export function openZigzag(job: Job, column: Column, spacing: number, note: string): Draft {
  const style = plainStyle(job, 3, []);
  const draft = columnTop(
    column,
    { ...style.top, spacing, zag: 'symmetric', comp: 0 },
    false,
    1,
    job.random,
    note,
  );
  return meant(draft, 'decorative', 'edging');
}
