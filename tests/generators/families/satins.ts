import type { UnderlayKind } from '../../../lib/segment/objects.js';
import type { Column, Lie } from '../column.js';
import { arc, Curve, ellipse, path, rounded, segment } from '../curve.js';
import { lock, randomLocks } from '../locks.js';
import { type Case, Pen, randomTransform } from '../pen.js';
import { radians, type Vec, vec } from '../plane.js';
import { Random } from '../random.js';
import { randomSatin, randomSplit, type SatinStyle, sewColumn, underlaysFor } from '../satin.js';

interface Shape {
  column: Column;
  width: number;
  name: string;
  /** Whether the column is straight enough for rows of a light fill laid in its own coordinates. */
  straight: boolean;
  alter?: (style: SatinStyle) => void;
}

const even = (width: number) => () => width / 2;
const ACROSS: Lie = { kind: 'across' };

function line(length: number): Curve {
  return segment(vec(0, 0), vec(length, 0));
}

/** Widths as they occur: most between 1.5 and 8 mm. */
function someWidth(random: Random, low: number, high: number): number {
  const w = low * (high / low) ** random.next();
  return Math.round(w * 20) / 20;
}

const shapes: Record<string, (random: Random) => Shape> = {
  straight(random) {
    const width = someWidth(random, 0.8, 11);
    // A few are shorter than they are wide.
    const length = random.chance(0.12)
      ? Math.max(6, width * random.range(0.7, 1.3))
      : Math.max(8, width * random.range(1.6, 6));
    return {
      column: { centre: line(length), half: even(width), lie: ACROSS },
      width,
      straight: true,
      name: `straight ${width}×${length.toFixed(0)}`,
    };
  },
  slant(random) {
    const width = someWidth(random, 1.2, 8);
    const degrees = random.sign() * random.range(8, 40);
    const length = Math.max(10, width * random.range(2.5, 6));
    return {
      column: { centre: line(length), half: even(width), lie: { kind: 'slant', degrees } },
      width,
      straight: true,
      name: `slant ${degrees.toFixed(0)}° ${width}×${length.toFixed(0)}`,
    };
  },
  curved(random) {
    const width = someWidth(random, 1.2, 8);
    const r = width * random.range(1.1, 4) + 2;
    const kind = random.pick(['arc', 'S', 'wave', 'hook'] as const);
    const bend = radians(random.range(50, 200));
    const lines: Record<typeof kind, () => Vec[]> = {
      arc: () => arc(vec(0, 0), r, 0, bend),
      S: () => {
        const turn = Math.max(1.2, bend * 0.7);
        const first = arc(vec(0, 0), r, 0, turn);
        const c = vec(2 * r * Math.cos(turn), 2 * r * Math.sin(turn));
        return [...first, ...arc(c, r, turn + Math.PI, turn + Math.PI - turn).slice(1)];
      },
      wave: () => {
        const n = width * random.range(2, 4) + 12;
        return path((t) => vec(t, width * 0.7 * Math.sin((2 * Math.PI * t) / (n * 0.9))), 0, n, n * 1.3);
      },
      hook: () => rounded([vec(0, 0), vec(r * 3, 0), vec(r * 3, r * 2), vec(r * 1.2, r * 2)], r),
    };
    const centre = new Curve(lines[kind]());
    const w = Math.min(width, (1.7 / Math.max(1e-6, centre.maxCurvature())) * 0.9);
    const lie: Lie = random.chance(0.25)
      ? { kind: 'slant', degrees: random.sign() * random.range(5, 22) }
      : ACROSS;
    return {
      column: { centre, half: even(w), lie },
      width: w,
      straight: false,
      name: `${kind} ${w.toFixed(2)} r ${r.toFixed(1)} ${lie.kind}`,
      alter: (style) => {
        if (lie.kind === 'across' && kind !== 'wave' && random.chance(0.3))
          style.top.short = kind === 'hook' ? random.range(0.6, 0.8) : 0;
      },
    };
  },
  ring(random) {
    const width = someWidth(random, 1, 6);
    const r = width * random.range(1, 4) + 2;
    const k = random.chance(0.5) ? 1 : random.range(0.75, 1);
    const turn = random.range(0, 2 * Math.PI);
    const points = random.chance(0.8)
      ? ellipse(vec(0, 0), r, r * k, turn, turn + 2 * Math.PI).slice(0, -1)
      : rounded([vec(-r, -r), vec(r, -r), vec(r, r), vec(-r, r)], r * 0.6 + 0.4, true);
    if (random.chance(0.5)) points.reverse();
    const lie: Lie = random.chance(0.2)
      ? { kind: 'slant', degrees: random.sign() * random.range(5, 20) }
      : ACROSS;
    return {
      column: { centre: new Curve(points, true), half: even(width), lie },
      width,
      straight: false,
      name: `ring ${width} r ${r.toFixed(1)} k ${k.toFixed(2)} ${lie.kind}`,
    };
  },
  spiral(random) {
    const width = someWidth(random, 1, 3.5);
    const gap = width * 1.5 + 0.8;
    const turns = random.range(1.3, 2.4);
    const r0 = width * 1.2 + 1;
    const centre = new Curve(
      path(
        (a) =>
          vec((r0 + (gap * a) / (2 * Math.PI)) * Math.cos(a), (r0 + (gap * a) / (2 * Math.PI)) * Math.sin(a)),
        0,
        turns * 2 * Math.PI,
        2 * Math.PI * turns * (r0 + gap),
      ),
    );
    return {
      column: { centre, half: even(width), lie: ACROSS },
      width,
      straight: false,
      name: `spiral ${width} turns ${turns.toFixed(1)}`,
    };
  },
  taper(random) {
    const width = someWidth(random, 2, 9);
    const length = width * random.range(3, 7);
    const tip = random.chance(0.5) ? random.range(0.5, 1) : random.range(1, width * 0.7);
    const form = random.pick(['one end', 'both ends', 'waist'] as const);
    const share: Record<typeof form, (t: number) => number> = {
      'one end': (t) => t,
      'both ends': (t) => Math.sin(Math.PI * t),
      waist: (t) => Math.abs(2 * t - 1),
    };
    const bent = random.chance(0.4);
    const r = length / radians(random.range(30, 80));
    const centre = bent ? new Curve(arc(vec(0, 0), r, 0, length / r)) : line(length);
    const half = (s: number) =>
      (tip + (width - tip) * share[form](Math.min(1, Math.max(0, s / centre.length)))) / 2;
    return {
      column: { centre, half, lie: ACROSS },
      width: width * 0.6,
      straight: false,
      name: `taper ${form} ${tip.toFixed(1)}..${width} ${bent ? 'bent' : 'straight'}`,
    };
  },
  fixed(random) {
    const width = someWidth(random, 1.5, 6);
    const bow = random.range(30, 62);
    const r = Math.max(width * 3, random.range(10, 30));
    const inclined = random.chance(0.3);
    const centre = inclined
      ? line(width * 5 + 6)
      : new Curve(arc(vec(0, 0), r, radians(-bow / 2), radians(bow / 2)));
    const along =
      (Math.atan2(centre.tangent(centre.length / 2).y, centre.tangent(centre.length / 2).x) * 180) / Math.PI;
    const degrees = along + 90 + random.range(-8, 8);
    return {
      column: { centre, half: even(width), lie: { kind: 'fixed', degrees } },
      width,
      straight: false,
      name: `fixed direction ${width} ${inclined ? 'straight' : `bow ${bow.toFixed(0)}° r ${r.toFixed(0)}`}`,
    };
  },
  corner(random) {
    const width = someWidth(random, 1.5, 6);
    const leg = width * random.range(3.2, 5) + 4;
    const turn = radians(random.range(60, 110)) * random.sign();
    const points = rounded(
      [vec(-leg, 0), vec(0, 0), vec(leg * Math.cos(turn), leg * Math.sin(turn))],
      width * 0.54 + 0.15,
    );
    return {
      column: { centre: new Curve(points), half: even(width), lie: ACROSS },
      width,
      straight: false,
      name: `corner ${((turn * 180) / Math.PI).toFixed(0)}° ${width}`,
      alter: (style) => {
        style.top.short = random.chance(0.75) ? random.range(0.6, 0.8) : 0;
      },
    };
  },
  mitre(random) {
    const width = someWidth(random, 1.5, 6);
    const leg = width * random.range(3.5, 5) + 4;
    const turn = radians(random.range(50, 100)) * random.sign();
    const points = [
      ...segment(vec(-leg, 0), vec(0, 0)).points(),
      ...segment(vec(0, 0), vec(leg * Math.cos(turn), leg * Math.sin(turn)))
        .points()
        .slice(1),
    ];
    const reach = (width + 0.6) * Math.tan(Math.abs(turn) / 2) * random.range(1.1, 1.6);
    return {
      column: {
        centre: new Curve(points),
        half: even(width),
        lie: { kind: 'mitre', corner: leg, turn, reach },
      },
      width,
      straight: false,
      name: `mitre ${((turn * 180) / Math.PI).toFixed(0)}° ${width}`,
    };
  },
  split(random) {
    const width = random.range(7, 16);
    const length = width * random.range(1.3, 4);
    const bent = random.chance(0.3);
    const r = Math.max(width * 1.6, length / 1.2);
    const centre = bent ? new Curve(arc(vec(0, 0), r, 0, length / r)) : line(length);
    const lie: Lie =
      !bent && random.chance(0.3) ? { kind: 'slant', degrees: random.sign() * random.range(5, 25) } : ACROSS;
    return {
      column: { centre, half: even(width), lie },
      width,
      straight: !bent,
      name: `split ${width.toFixed(1)}×${length.toFixed(0)} ${bent ? 'bent' : 'straight'} ${lie.kind}`,
      alter: (style) => {
        style.top.split = randomSplit(width, random);
      },
    };
  },
  wide(random) {
    const width = random.range(10.5, 14);
    const length = width * random.range(1.2, 3.5);
    return {
      column: { centre: line(length), half: even(width), lie: ACROSS },
      width,
      straight: true,
      name: `wide whole swings ${width.toFixed(1)}×${length.toFixed(0)}`,
    };
  },
};

/** One column, sewn from either end, with any underlay that suits it. */
function single(name: string, seed: number, underlay?: readonly UnderlayKind[]): Case {
  const random = new Random(seed, `satin-${name}`);
  const shape = shapes[name](random);
  const choices = underlaysFor(shape.width, shape.straight).filter(
    (u) => shape.width < 11.5 || !u.some((k) => k.endsWith('zigzag')),
  );
  const style = randomSatin(shape.width, underlay ?? random.pick(choices), random);
  shape.alter?.(style);
  const { draft } = sewColumn(shape.column, style, random.int(0, 1) as 0 | 1, random, shape.name);
  const locks = randomLocks(random, shape.width);
  lock(draft, locks);
  const pen = new Pen();
  pen.sew(draft);
  const t = randomTransform(random);
  return pen.finish(
    `satin-${name}`,
    seed,
    `${draft.note}; locks ${locks.style} ${locks.size.toFixed(2)}×${locks.count} ${draft.locks.start ? 'start' : ''} ${draft.locks.end ? 'end' : ''}; turn ${t.degrees.toFixed(0)}${t.mirror ? ' mirrored' : ''}${t.jitter ? ' jitter' : ''}`,
    t,
    random,
  );
}

export const SATIN_FAMILIES: Record<string, (seed: number) => Case> = Object.fromEntries(
  Object.keys(shapes).map((name) => [`satin-${name}`, (seed: number) => single(name, seed)]),
);

/** A straight column of middling width under every combination of underlays in turn. */
export function satinUnderlay(seed: number): Case {
  const random = new Random(seed, 'underlay-satin');
  const width = random.range(2.6, 9);
  const curved = width < 5 && random.chance(0.3);
  const all = underlaysFor(width, !curved);
  const underlay = all[seed % all.length];
  const length = Math.max(14, width * random.range(2, 5));
  const r = Math.max(width * 2, length / 1.5);
  const centre = curved ? new Curve(arc(vec(0, 0), r, 0, length / r)) : line(length);
  const style = randomSatin(width, underlay, random);
  const { draft } = sewColumn(
    { centre, half: even(width), lie: ACROSS },
    style,
    random.int(0, 1) as 0 | 1,
    random,
    `${curved ? 'curved' : 'straight'} ${width.toFixed(1)}×${length.toFixed(0)}`,
  );
  lock(draft, randomLocks(random, width));
  const pen = new Pen();
  pen.sew(draft);
  return pen.finish('underlay-satin', seed, draft.note, randomTransform(random), random);
}
