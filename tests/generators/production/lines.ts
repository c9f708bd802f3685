/** Lines of thread: motifs, lines sewn again and again, trees, and nets by themselves. */
import type { Column } from '../column.js';
import { Curve, path, segment } from '../curve.js';
import { type Draft, plainDraft } from '../draft.js';
import { someLine } from '../families/runs.js';
import type { Case } from '../pen.js';
import { between, inset, stitchAlong, stitchCurve, type Vec, vec } from '../plane.js';
import { runDraft } from '../run.js';
import { oval, rectangle } from '../shapes.js';
import { openZigzag, ring } from './applique.js';
import { net } from './grounds.js';
import { Job, someLocks } from './job.js';

export const run = (points: readonly Vec[], passes: readonly number[], note: string): Draft => ({
  ...plainDraft('run', points),
  passes,
  note,
});

/** A wide open zigzag as an ornament. */
function zigzags(seed: number): Case {
  const job = new Job('decorative-zigzag', seed);
  const { random } = job;
  job.locks = someLocks(random, 2);
  for (let k = random.int(1, 3); k > 0; k--) {
    const y = k * 16;
    const l = random.range(25, 60);
    const centre = random.chance(0.5)
      ? segment(vec(0, y), vec(l, y))
      : new Curve(path((t) => vec(t, y + 2.5 * Math.sin((2 * Math.PI * t) / l)), 0, l, l * 1.1));
    const width = random.range(2, 6);
    const column: Column = { centre, half: () => width / 2, lie: { kind: 'across' } };
    job.sew(
      openZigzag(job, column, random.range(1.4, 4), `ornament ${width.toFixed(1)} wide`),
      job.at ? 'trim' : null,
    );
  }
  return job.finish('open zigzags as an ornament');
}

const MOTIFS: Record<string, (s: number) => Vec[]> = {
  diamond: (s) => [
    vec(0, 0),
    vec(s / 2, s / 2),
    vec(s, 0),
    vec(s / 2, -s / 2),
    vec(0, 0),
    vec(s / 2, 0),
    vec(s, 0),
  ],
  loop: (s) => [vec(0, 0), vec(s * 0.7, s * 0.4), vec(s * 0.5, s * 0.9), vec(s * 0.3, s * 0.4), vec(s, 0)],
  cross: (s) => [
    vec(0, 0),
    vec(s / 2, 0),
    vec(s / 2, s / 2),
    vec(s / 2, 0),
    vec(s / 2, -s / 2),
    vec(s / 2, 0),
    vec(s, 0),
  ],
  step: (s) => [vec(0, 0), vec(0, s / 2), vec(s / 2, s / 2), vec(s / 2, 0), vec(s, 0)],
  arrow: (s) => [
    vec(0, 0),
    vec(s * 0.6, 0),
    vec(s * 0.2, s * 0.4),
    vec(s * 0.6, 0),
    vec(s * 0.2, -s * 0.4),
    vec(s * 0.6, 0),
    vec(s, 0),
  ],
};

/** One small figure again and again along a line. */
function motifs(seed: number): Case {
  const job = new Job('motif-run', seed);
  const { random } = job;
  const name = random.pick(Object.keys(MOTIFS));
  const size = random.range(3.5, 7);
  for (let k = random.int(1, 3); k > 0; k--) {
    const y = k * 18;
    const n = random.int(6, 14);
    const figure = MOTIFS[name](size);
    const points = Array.from({ length: n }, (_, i) =>
      figure.slice(i > 0 ? 1 : 0).map((p) => vec(p.x + i * size, p.y + y)),
    ).flat();
    job.sew(
      { ...run(points, [1, 2], `${n} times ${name} ${size.toFixed(1)}`), purposes: ['decorative', 'top'] },
      job.at ? 'trim' : null,
    );
  }
  return job.finish('motifs along a line');
}

/** A line whose every stitch is sewn five times, or three. */
function bean(seed: number): Case {
  const job = new Job('run-bean', seed);
  const { random } = job;
  const { points, smooth, name } = someLine(random);
  const times = random.pick([3, 3, 5]);
  const once = smooth ? stitchCurve(points, random.range(1.8, 3)) : stitchAlong(points, random.range(1.8, 3));
  const sewn = [once[0]];
  for (let i = 1; i < once.length; i++)
    for (let k = 0; k < times; k++) sewn.push(k % 2 ? once[i - 1] : once[i]);
  job.sew(run(sewn, [times], `${times} times each stitch, ${name}`));
  return job.finish('bean stitch');
}

/** A line there and back, its points between each other or on each other, once or twice. */
function retraced(seed: number): Case {
  const job = new Job('run-there-and-back', seed);
  const { random } = job;
  const { points, smooth, name } = someLine(random);
  const there = smooth ? stitchCurve(points, random.range(2, 3)) : stitchAlong(points, random.range(2, 3));
  const offset = random.chance(0.5);
  const back = offset
    ? [
        there[there.length - 1],
        ...there
          .slice(1)
          .map((p, i) => between(there[i], p, 0.5))
          .reverse(),
        there[0],
      ]
    : [...there].reverse();
  const times = random.pick([2, 2, 4]);
  const sewn = [...there, ...back.slice(1)];
  if (times === 4) sewn.push(...there.slice(1), ...back.slice(1));
  job.sew(run(sewn, [times], `${times} times over, ${name}${offset ? ', points between' : ''}`));
  return job.finish('there and back');
}

/** Veins: a stem with side branches, each sewn out and back on the way. */
function tree(seed: number): Case {
  const job = new Job('run-branches', seed);
  const { random } = job;
  const stitch = random.range(1.8, 2.8);
  const n = random.int(3, 7);
  const gap = random.range(3, 6);
  const sewn: Vec[] = [vec(0, 0)];
  for (let k = 1; k <= n; k++) {
    const foot = vec(random.range(-0.3, 0.3), k * gap);
    sewn.push(...stitchAlong([sewn[sewn.length - 1], foot], stitch).slice(1));
    const tip = vec(foot.x + (k % 2 ? 1 : -1) * random.range(4, 9), foot.y + random.range(2, 5));
    const out = stitchAlong([foot, tip], stitch).slice(1);
    sewn.push(...out, ...[...out].reverse().slice(1), foot);
  }
  const home = random.chance(0.6);
  if (home) sewn.push(...stitchAlong([sewn[sewn.length - 1], vec(0, 0)], stitch).slice(1));
  // Without the way home the stem lies once and the branches lie twice.
  job.sew(run(sewn, home ? [2] : [2, 1], `stem with ${n} branches${home ? ' and home' : ''}`));
  return job.finish('branches');
}

/** A net by itself, edged in another color or not at all. */
function lattice(seed: number): Case {
  const job = new Job('net-alone', seed);
  const { random } = job;
  job.locks = someLocks(random, 2.5);
  const s = random.range(22, 45);
  const round = random.chance(0.4);
  const outer = round ? oval(s / 2, s / 2) : rectangle(s, s * random.range(0.6, 1));
  const pitch = random.range(2, 5);
  const points = net(job, { outer, holes: [] }, random.pick([0, 45, 30, random.range(0, 90)]), pitch, null);
  job.sew({
    ...run(points, [1, 2], `net ${pitch.toFixed(1)}`),
    kind: 'fill',
    spacingMm: pitch,
    purposes: ['net', 'decorative'],
    patterns: ['loose', 'rows'],
    open: { angle: true },
  });
  if (round && random.chance(0.6))
    job.sew(ring(job, outer, random.range(2.5, 4), random.range(0.36, 0.45), ['edge-run'], 'rim'), 'colour');
  return job.finish('a net');
}

/** Thin lines as drawn by hand, one after another, some crossing. */
function sketch(seed: number): Case {
  const job = new Job('run-sketch', seed, 1.5);
  const { random } = job;
  const strokes = random.int(3, 8);
  let at = vec(0, 0);
  for (let k = 0; k < strokes; k++) {
    const l = random.range(12, 30);
    const turn = random.range(0, 2 * Math.PI);
    const bow = random.range(-6, 6);
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const line = path(
      (t) =>
        vec(
          at.x + t * c - bow * Math.sin((Math.PI * t) / l) * s,
          at.y + t * s + bow * Math.sin((Math.PI * t) / l) * c,
        ),
      0,
      l,
      l * 1.2,
    );
    job.sew(
      runDraft(
        line,
        random.pick(['single', 'double', 'triple'] as const),
        random.range(1.8, 2.8),
        true,
        'pencil stroke',
      ),
      job.at ? 'trim' : null,
    );
    at = vec(random.range(-20, 20), random.range(-20, 20) + k * 4);
  }
  return job.finish('pencil strokes');
}

/** A frame of two lines, the second inside the first. */
function frame(seed: number): Case {
  const job = new Job('run-frame', seed);
  const { random } = job;
  const outer = rectangle(random.range(30, 60), random.range(20, 40));
  const ringOf = (ring: Vec[]) => [...ring, ring[0]];
  const style = random.pick(['single', 'double', 'triple'] as const);
  job.sew(runDraft(ringOf(outer), style, random.range(2, 3), false, 'outer frame'));
  job.sew(
    runDraft(ringOf(inset(outer, random.range(1.5, 3))), style, random.range(2, 3), false, 'inner frame'),
    'trim',
  );
  return job.finish('a frame of two lines');
}

export const LINE_FAMILIES: Record<string, (seed: number) => Case> = {
  'decorative-zigzag': zigzags,
  'motif-run': motifs,
  'run-bean': bean,
  'run-there-and-back': retraced,
  'run-branches': tree,
  'run-sketch': sketch,
  'run-frame': frame,
  'net-alone': lattice,
};
