import { ellipse } from './curve.js';
import { type Region, radians, type Vec, vec } from './plane.js';
import type { Random } from './random.js';

const ring = (n: number, f: (k: number) => Vec): Vec[] => Array.from({ length: n }, (_, k) => f(k));
const polar = (r: number, a: number): Vec => vec(r * Math.cos(a), r * Math.sin(a));

export const rectangle = (w: number, h: number): Vec[] => [vec(0, 0), vec(w, 0), vec(w, h), vec(0, h)];

export const oval = (rx: number, ry: number): Vec[] =>
  ring(72, (k) => vec(rx * Math.cos((k * Math.PI) / 36), ry * Math.sin((k * Math.PI) / 36)));

export const regular = (n: number, r: number): Vec[] => ring(n, (k) => polar(r, (2 * Math.PI * k) / n));

export const star = (points: number, r: number, waist: number): Vec[] =>
  ring(2 * points, (k) => polar(k % 2 ? r * waist : r, (Math.PI * k) / points + Math.PI / 2));

export const ell = (w: number, h: number, t: number): Vec[] => [
  vec(0, 0),
  vec(w, 0),
  vec(w, t),
  vec(t, t),
  vec(t, h),
  vec(0, h),
];

export const yoke = (w: number, h: number, t: number): Vec[] => [
  vec(0, 0),
  vec(w, 0),
  vec(w, h),
  vec(w - t, h),
  vec(w - t, t),
  vec(t, t),
  vec(t, h),
  vec(0, h),
];

export const plus = (w: number, t: number): Vec[] => {
  const a = (w - t) / 2;
  const b = a + t;
  return [
    [a, 0],
    [b, 0],
    [b, a],
    [w, a],
    [w, b],
    [b, b],
    [b, w],
    [a, w],
    [a, b],
    [0, b],
    [0, a],
    [a, a],
  ].map(([x, y]) => vec(x, y));
};

/** A shield: straight top, sides that curve in to a point below. */
export function shield(w: number, h: number): Vec[] {
  const side = ring(13, (k) =>
    vec(
      (w / 2) * Math.cos((k / 13) * (Math.PI / 2)) ** 0.8,
      h * (0.1 - 0.6 * Math.sin((k / 13) * (Math.PI / 2))),
    ),
  );
  return [
    vec(w / 2, h / 2),
    vec(-w / 2, h / 2),
    ...side.map((p) => vec(-p.x, p.y)),
    vec(0, -h / 2),
    ...side.reverse(),
  ];
}

export const leaf = (l: number, w: number): Vec[] => {
  const up = ring(25, (k) => vec((l * k) / 24, (w / 2) * Math.sin((Math.PI * k) / 24)));
  return [...up.map((p) => vec(p.x, -p.y)), ...up.slice(1, -1).reverse()];
};

export function randomConvex(n: number, r: number, random: Random): Vec[] {
  return ring(n, (k) =>
    polar(r * random.range(0.85, 1.1), ((k + random.range(-0.2, 0.2)) * 2 * Math.PI) / n),
  );
}

export interface Outline {
  region: Region;
  name: string;
}

export function simpleOutline(random: Random, low = 8, high = 45): Outline {
  const s = random.range(low, high);
  const k = random.range(0.5, 1);
  const name = random.pick([
    'rectangle',
    'square',
    'circle',
    'ellipse',
    'triangle',
    'hexagon',
    'polygon',
    'shield',
    'leaf',
  ] as const);
  const outer: Record<typeof name, () => Vec[]> = {
    rectangle: () => rectangle(s, Math.max(7, s * k)),
    square: () => rectangle(s, s),
    circle: () => oval(s / 2, s / 2),
    ellipse: () => oval(s / 2, Math.max(3.5, (s * k) / 2)),
    triangle: () => regular(3, s / 1.5),
    hexagon: () => regular(6, s / 2),
    polygon: () => randomConvex(random.int(5, 8), s / 2, random),
    shield: () => shield(s * 0.85, s),
    leaf: () => leaf(s * 1.1, Math.max(8, s * 0.55)),
  };
  return { region: { outer: outer[name](), holes: [] }, name: `${name} ${s.toFixed(0)}` };
}

export function concaveOutline(random: Random): Outline {
  const s = random.range(20, 50);
  const t = s * random.range(0.26, 0.4);
  const name = random.pick(['L', 'U', 'star', 'plus', 'star6'] as const);
  const outer: Record<typeof name, () => Vec[]> = {
    L: () => ell(s, s * random.range(0.7, 1), t),
    U: () => yoke(s, s * random.range(0.7, 1), Math.max(6, t * 0.85)),
    star: () => star(5, s / 2, random.range(0.45, 0.6)),
    plus: () => plus(s, t),
    star6: () => star(6, s / 2, random.range(0.5, 0.65)),
  };
  return { region: { outer: outer[name](), holes: [] }, name: `${name} ${s.toFixed(0)}` };
}

export function holedOutline(random: Random): Outline {
  const s = random.range(24, 50);
  const n = random.int(1, 3);
  const base = random.pick(['circle', 'rectangle', 'hexagon'] as const);
  const outer =
    base === 'circle'
      ? oval(s / 2, s / 2)
      : base === 'hexagon'
        ? regular(6, s / 2)
        : rectangle(s, s * 0.8).map((p) => vec(p.x - s / 2, p.y - s * 0.4));
  const turn = random.range(0, 6.28);
  const holes: Vec[][] = [];
  for (let k = 0; k < n; k++) {
    const c =
      n === 1 ? vec(random.range(-1, 1), random.range(-1, 1)) : polar(s * 0.2, turn + (2 * Math.PI * k) / n);
    const r = n === 1 ? s * random.range(0.1, 0.22) : s * random.range(0.06, 0.1);
    const shape = random.chance(0.5) ? oval(r, r) : regular(random.int(3, 6), r);
    const a = random.range(0, radians(360));
    holes.push(
      shape.map((p) =>
        vec(c.x + p.x * Math.cos(a) - p.y * Math.sin(a), c.y + p.x * Math.sin(a) + p.y * Math.cos(a)),
      ),
    );
  }
  return { region: { outer, holes }, name: `${base} ${s.toFixed(0)} with ${n} holes` };
}

/** Smooth outlines that a closed satin border can follow. */
export function borderOutline(random: Random, low = 16, high = 45): Outline & { smooth: Vec[] } {
  const s = random.range(low, high);
  const k = random.range(0.65, 1);
  const smooth = ellipse(vec(0, 0), s / 2, (s * k) / 2).slice(0, -1);
  return {
    region: { outer: oval(s / 2, (s * k) / 2), holes: [] },
    name: `ellipse ${s.toFixed(0)}×${(s * k).toFixed(0)}`,
    smooth,
  };
}
