import { arc, ellipse, path, rounded } from '../curve.js';
import { lock, randomLocks } from '../locks.js';
import { type Case, Pen, randomTransform } from '../pen.js';
import { radians, type Vec, vec } from '../plane.js';
import { Random } from '../random.js';
import { type RunStyle, runDraft } from '../run.js';
import { ell, leaf, plus, regular, star } from '../shapes.js';

interface Line {
  points: Vec[];
  smooth: boolean;
  name: string;
}

const closedRing = (ring: Vec[]): Vec[] => [...ring, ring[0]];

export function someLine(random: Random): Line {
  const s = random.range(15, 50);
  const name = random.pick([
    'straight',
    'arc',
    'S',
    'wave',
    'circle',
    'ellipse',
    'star',
    'polygon',
    'L',
    'plus',
    'open corners',
    'leaf',
    'rounded',
  ] as const);
  const lines: Record<typeof name, () => Vec[]> = {
    straight: () => [vec(0, 0), vec(s, 0)],
    arc: () => arc(vec(0, 0), s / 2, 0, radians(random.range(60, 300))),
    S: () => path((t) => vec(t, s * 0.2 * Math.sin((2 * Math.PI * t) / s)), 0, s, s * 1.4),
    wave: () => path((t) => vec(t, 3 * Math.sin((2 * Math.PI * t) / 14)), 0, Math.max(28, s), s * 1.5),
    circle: () => ellipse(vec(0, 0), s / 2, s / 2),
    ellipse: () => ellipse(vec(0, 0), s / 2, s / 3),
    star: () => closedRing(star(5, s / 2, 0.5)),
    polygon: () => closedRing(regular(random.int(3, 8), s / 2)),
    L: () => closedRing(ell(s, s, s * 0.35)),
    plus: () => closedRing(plus(s, s * 0.35)),
    'open corners': () => [
      vec(0, 0),
      vec(s * 0.4, 0),
      vec(s * 0.5, s * 0.4),
      vec(s, s * 0.3),
      vec(s * 0.8, s),
    ],
    leaf: () => closedRing(leaf(s, s * 0.4)),
    rounded: () => rounded([vec(0, 0), vec(s, 0), vec(s * 0.9, s * 0.5), vec(s * 0.2, s * 0.7)], s * 0.12),
  };
  const smooth = ['arc', 'S', 'wave', 'circle', 'ellipse', 'leaf', 'rounded'].includes(name);
  return { points: lines[name](), smooth, name: `${name} ${s.toFixed(0)}` };
}

function single(style: RunStyle, seed: number): Case {
  const random = new Random(seed, `run-${style}`);
  const { points, smooth, name } = someLine(random);
  const draft = runDraft(points, style, random.range(1.5, 4), smooth, name);
  const locks = randomLocks(random);
  lock(draft, locks);
  const pen = new Pen();
  pen.sew(draft);
  const t = randomTransform(random);
  return pen.finish(
    `run-${style}`,
    seed,
    `${draft.note}; locks ${locks.style} ${locks.size.toFixed(2)}×${locks.count} ${draft.locks.start ? 'start' : ''} ${draft.locks.end ? 'end' : ''}`,
    t,
    random,
  );
}

export const RUN_FAMILIES: Record<string, (seed: number) => Case> = {
  'run-single': (seed) => single('single', seed),
  'run-double': (seed) => single('double', seed),
  'run-triple': (seed) => single('triple', seed),
};
