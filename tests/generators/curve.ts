import { between, distance, type Vec, vec } from './plane.js';

const STEP = 0.1;

/** A centre line by arc length. An open one goes straight on beyond its ends; a closed one wraps round. */
export class Curve {
  readonly length: number;
  private readonly p: Vec[] = [];
  private readonly t: Vec[] = [];
  private readonly s: number[] = [];

  constructor(
    points: readonly Vec[],
    readonly closed = false,
  ) {
    const all = closed ? [...points, points[0]] : [...points];
    for (const q of all)
      if (this.p.length === 0 || distance(q, this.p[this.p.length - 1]) > 1e-6) this.p.push(q);
    this.s.push(0);
    for (let i = 1; i < this.p.length; i++) this.s.push(this.s[i - 1] + distance(this.p[i - 1], this.p[i]));
    this.length = this.s[this.s.length - 1];
    const n = this.p.length;
    for (let i = 0; i < n; i++) {
      const a = i > 0 ? this.p[i - 1] : closed ? this.p[n - 2] : this.p[0];
      const b = i < n - 1 ? this.p[i + 1] : closed ? this.p[1] : this.p[n - 1];
      const l = distance(a, b) || 1;
      this.t.push(vec((b.x - a.x) / l, (b.y - a.y) / l));
    }
  }

  private locate(s: number): { i: number; f: number } {
    let low = 0;
    let high = this.s.length - 1;
    while (high - low > 1) {
      const mid = (low + high) >> 1;
      if (this.s[mid] <= s) low = mid;
      else high = mid;
    }
    return { i: low, f: (s - this.s[low]) / (this.s[high] - this.s[low]) };
  }

  tangent(s: number): Vec {
    if (this.closed) s = ((s % this.length) + this.length) % this.length;
    s = Math.min(this.length, Math.max(0, s));
    const { i, f } = this.locate(s);
    const t = between(this.t[i], this.t[i + 1], f);
    const l = Math.hypot(t.x, t.y) || 1;
    return vec(t.x / l, t.y / l);
  }

  point(s: number): Vec {
    if (this.closed) s = ((s % this.length) + this.length) % this.length;
    if (s < 0 || s > this.length) {
      const edge = s < 0 ? 0 : this.length;
      const p = this.p[s < 0 ? 0 : this.p.length - 1];
      const t = this.tangent(edge);
      return vec(p.x + t.x * (s - edge), p.y + t.y * (s - edge));
    }
    const { i, f } = this.locate(s);
    return between(this.p[i], this.p[i + 1], f);
  }

  /** Place beside the line: `v` mm to its left. */
  beside(s: number, v: number): Vec {
    const p = this.point(s);
    const t = this.tangent(s);
    return vec(p.x - t.y * v, p.y + t.x * v);
  }

  /** 1/mm, positive where the line turns left. */
  curvature(s: number): number {
    const d = 0.3;
    if (!this.closed && (s < d || s > this.length - d)) return 0;
    const a = this.tangent(s - d);
    const b = this.tangent(s + d);
    return Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y) / (2 * d);
  }

  maxCurvature(): number {
    let most = 0;
    for (let s = 0; s <= this.length; s += 0.25) most = Math.max(most, Math.abs(this.curvature(s)));
    return most;
  }

  points(): Vec[] {
    return this.p;
  }
}

export function path(f: (t: number) => Vec, t0: number, t1: number, about: number): Vec[] {
  const n = Math.max(8, Math.ceil(about / STEP));
  const out: Vec[] = [];
  for (let i = 0; i <= n; i++) out.push(f(t0 + ((t1 - t0) * i) / n));
  return out;
}

export const segment = (a: Vec, b: Vec): Curve =>
  new Curve(path((t) => between(a, b, t), 0, 1, distance(a, b)));

export const arc = (c: Vec, r: number, from: number, to: number): Vec[] =>
  path((a) => vec(c.x + r * Math.cos(a), c.y + r * Math.sin(a)), from, to, r * Math.abs(to - from));

export function ellipse(c: Vec, rx: number, ry: number, from = 0, to = 2 * Math.PI): Vec[] {
  return path(
    (a) => vec(c.x + rx * Math.cos(a), c.y + ry * Math.sin(a)),
    from,
    to,
    Math.max(rx, ry) * Math.abs(to - from),
  );
}

/** A line of corners with every corner rounded to `radius`, or as far as its legs allow. */
export function rounded(corners: readonly Vec[], radius: number, closed = false): Vec[] {
  const n = corners.length;
  const out: Vec[] = [];
  const push = (from: Vec, to: Vec) => {
    for (const p of path((t) => between(from, to, t), 0, 1, distance(from, to))) out.push(p);
  };
  let pen: Vec | null = closed ? null : corners[0];
  let first: Vec | null = null;
  for (let i = closed ? 0 : 1; i < (closed ? n : n - 1); i++) {
    const a = corners[(i + n - 1) % n];
    const p = corners[i];
    const b = corners[(i + 1) % n];
    const la = distance(a, p);
    const lb = distance(p, b);
    const ua = vec((a.x - p.x) / la, (a.y - p.y) / la);
    const ub = vec((b.x - p.x) / lb, (b.y - p.y) / lb);
    const inner = Math.acos(Math.max(-1, Math.min(1, ua.x * ub.x + ua.y * ub.y)));
    const room = (l: number, end: boolean) => (end ? l : l / 2);
    const most = Math.min(room(la, !closed && i === 1), room(lb, !closed && i === n - 2));
    const cut = Math.min(radius / Math.tan(inner / 2), most);
    const r = cut * Math.tan(inner / 2);
    const start = vec(p.x + ua.x * cut, p.y + ua.y * cut);
    const end = vec(p.x + ub.x * cut, p.y + ub.y * cut);
    const k = r / Math.sin(inner / 2) / (Math.hypot(ua.x + ub.x, ua.y + ub.y) || 1);
    const c = vec(p.x + (ua.x + ub.x) * k, p.y + (ua.y + ub.y) * k);
    if (pen) push(pen, start);
    else first = start;
    const a0 = Math.atan2(start.y - c.y, start.x - c.x);
    let turn = Math.atan2(end.y - c.y, end.x - c.x) - a0;
    turn = Math.atan2(Math.sin(turn), Math.cos(turn));
    for (const q of arc(c, r, a0, a0 + turn)) out.push(q);
    pen = end;
  }
  if (pen) push(pen, closed ? (first as Vec) : corners[n - 1]);
  return out;
}
