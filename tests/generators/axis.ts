import type { Vec } from './plane.js';

export interface MeanAxis {
  /** Mean direction of undirected swings in [0, 180), or null where they point all ways. */
  angleDeg: number | null;
  /** The swings turn too much for one mean direction, yet not so much that there is none: not judged. */
  angleOpen: boolean;
}

/** Mean of undirected swings by doubled angles, one swing one vote; open where votes by length would say otherwise. */
export function meanAxis(swings: readonly Vec[]): MeanAxis {
  const sum = (weight: (l: number) => number) => {
    let c = 0;
    let s = 0;
    let w = 0;
    for (const v of swings) {
      const a = 2 * Math.atan2(v.y, v.x);
      const k = weight(Math.hypot(v.x, v.y));
      c += k * Math.cos(a);
      s += k * Math.sin(a);
      w += k;
    }
    return { angle: ((Math.atan2(s, c) * 90) / Math.PI + 180) % 180, strength: Math.hypot(c, s) / (w || 1) };
  };
  const count = sum(() => 1);
  const length = sum((l) => l);
  const gap = Math.abs(count.angle - length.angle);
  const drift = Math.min(gap, 180 - gap);
  return {
    angleDeg: count.strength < 0.12 ? null : count.angle,
    angleOpen: count.strength >= 0.05 && (count.strength < 0.6 || drift > 1),
  };
}
