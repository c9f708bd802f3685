/** Areas that are filled otherwise than in straight rows. */
import { arc, Curve, path } from '../curve.js';
import { type Draft, needles, type Pattern, plainDraft } from '../draft.js';
import type { Case } from '../pen.js';
import { distance, radians, type Vec, vec } from '../plane.js';
import { ell, oval, rectangle, regular } from '../shapes.js';
import { ground } from './grounds.js';
import { Job } from './job.js';
import { along, alongCurve, cornered, rings, spiral, spokes } from './strands.js';

/** A filled area whose rows have no one direction. */
export function patterned(points: readonly Vec[], pattern: Pattern, spacing: number, note: string): Draft {
  return {
    ...plainDraft('fill', points),
    spacingMm: spacing,
    patterns: [pattern],
    note: `${pattern} ${spacing.toFixed(2)}; ${note}`,
  };
}

/** With or without a light fill beneath. */
export function onGround(draft: Draft, job: Job, outer: Vec[]): Draft {
  if (!job.random.chance(0.4)) return draft;
  const under = ground(job, { outer, holes: [] }, job.random.range(0, 180), job.random.range(2, 3), 3, null);
  if (under.length < 8) return draft;
  return { ...draft, needles: [...needles(under, 'underlay'), ...draft.needles], underlay: ['fill'] };
}

function spiralFill(seed: number): Case {
  const job = new Job('fill-spiral', seed);
  const { random } = job;
  const outer = random.range(6, 18);
  const inner = random.chance(0.4) ? outer * random.range(0.2, 0.5) : 0.4;
  const pitch = random.range(0.35, 0.6);
  const line = spiral(inner, outer, pitch);
  if (random.chance(0.5)) line.reverse();
  const draft = patterned(
    along(line, random.range(2.2, 3.6)),
    'spiral',
    pitch,
    `disc ${outer.toFixed(0)} from ${inner.toFixed(1)}`,
  );
  job.sew(inner > 1 ? draft : onGround(draft, job, oval(outer - 0.8, outer - 0.8)));
  return job.finish('spiral');
}

function outlineFill(seed: number): Case {
  const job = new Job('fill-outline', seed);
  const { random } = job;
  const s = random.range(14, 32);
  const name = random.pick(['rectangle', 'hexagon', 'triangle', 'circle', 'L'] as const);
  const outline: Record<typeof name, () => Vec[]> = {
    rectangle: () => rectangle(s, s * random.range(0.5, 1)),
    hexagon: () => regular(6, s / 2),
    triangle: () => regular(3, s / 1.6),
    circle: () => oval(s / 2, s / 2),
    L: () => ell(s, s, s * 0.4),
  };
  const outer = outline[name]();
  const pitch = random.range(0.35, 0.6);
  const whole = random.chance(0.7);
  const turns = rings(outer, pitch, whole ? s : s * 0.16, random.int(0, outer.length - 1));
  if (random.chance(0.3)) turns.reverse();
  const stitch = random.range(2.2, 3.5);
  const points = turns.flatMap((ring, i) =>
    name === 'circle' ? along(ring, stitch, (i * 0.37) % 1) : cornered(ring, stitch, (i * 0.37) % 1),
  );
  const draft = patterned(points, 'outline', pitch, `${name} ${s.toFixed(0)}${whole ? '' : ' rim only'}`);
  if (name === 'circle') draft.patterns = ['outline', 'spiral'];
  job.sew(draft);
  return job.finish('following the outline');
}

function radialFill(seed: number): Case {
  const job = new Job('fill-radial', seed);
  const { random } = job;
  const outer = random.range(11, 18);
  const inner = random.range(1.5, 3);
  const pitch = random.range(0.4, 0.55);
  const middle = (outer + inner) / 2;
  const count = 4 * Math.round((2 * Math.PI * middle * 1.5) / pitch / 4);
  const draft = patterned(
    spokes(inner, outer, count, random.range(2.4, 3.4), random.range(0.3, 0.5)),
    'radial',
    (2 * Math.PI * middle) / count,
    `sun ${outer.toFixed(0)}`,
  );
  // How far apart rows are that spread is a matter of where one measures.
  draft.open = { spacing: true };
  job.sew(draft);
  return job.finish('radial');
}

function curvedFill(seed: number): Case {
  const job = new Job('fill-curved', seed);
  const { random } = job;
  const pitch = random.range(0.35, 0.6);
  const width = random.range(9, 20);
  const name = random.pick(['arc', 'wave'] as const);
  const l = random.range(20, 40);
  const curve = new Curve(
    name === 'arc'
      ? arc(vec(0, 0), width * random.range(1, 2), 0, radians(random.range(50, 140)))
      : path((t) => vec(t, 2 * Math.sin((2 * Math.PI * t) / l)), 0, l, l * 1.2),
  );
  const phase = random.range(0.2, 0.8);
  const points = alongCurve(curve, width, pitch, random.range(2.4, 3.6), (k) => (k * phase) % 1);
  const draft = patterned(points, 'curved', pitch, `${name} ${width.toFixed(0)} wide`);
  job.sew(draft);
  return job.finish('rows along a curve');
}

/** Rows as a hand lays them: about even, about parallel. */
function handFill(seed: number): Case {
  const job = new Job('fill-by-hand', seed);
  const { random } = job;
  const w = random.range(12, 28);
  const h = random.range(10, 24);
  const pitch = random.range(0.4, 0.6);
  const points: Vec[] = [];
  const edge = (y: number, k: number) => 1.2 * Math.sin(y * 0.4 + k) + 0.5 * Math.sin(y * 1.1 + 2 * k);
  let row = 0;
  for (let y = 0; y < h; y += pitch * random.range(0.8, 1.2), row++) {
    const line = [
      vec(edge(y, 0) + random.range(-0.2, 0.2), y),
      vec(w + edge(y, 2) + random.range(-0.2, 0.2), y),
    ];
    if (row % 2) line.reverse();
    const stitches = [line[0]];
    let at = line[0];
    while (distance(at, line[1]) > 4.5) {
      const step = random.range(2, 4);
      const f = step / distance(at, line[1]);
      at = vec(at.x + (line[1].x - at.x) * f, y + random.range(-0.06, 0.06));
      stitches.push(at);
    }
    points.push(...stitches, line[1]);
  }
  const draft = patterned(points, 'rows', pitch, `by hand ${w.toFixed(0)}×${h.toFixed(0)}`);
  job.sew({ ...draft, angleDeg: 0, open: { spacing: true } });
  return job.finish('by hand');
}

export const PATTERNED_FAMILIES: Record<string, (seed: number) => Case> = {
  'fill-spiral': spiralFill,
  'fill-outline': outlineFill,
  'fill-radial': radialFill,
  'fill-curved': curvedFill,
  'fill-by-hand': handFill,
};
