/**
 * When fabric wrinkles and how high. Shortening drives the height, not force: after wrinkling the force stays where it was at the threshold, the
 * shortening goes on.
 */

import {
  compliance,
  forcesOf,
  NO_STIFFNESS,
  type PlaneStiffness,
  plus,
  rotated,
  stripStiffness,
} from './laminate.js';
import type { Layer } from './layup.js';

/**
 * A plate of span L between two held lines, pressed along one axis and stretched by N_t along the other, across the span: w = sin(πy/L)·sin(qx).
 * The least force is at q⁴ = p⁴ + N_t·p²/B with p = π/L. Without tension this is the square plate's threshold, 4π²B/L² (Timoshenko & Gere,
 * *Theory of Elastic Stability*); at high tension the wavelength is 2√π·(B/N_t)^¼·√L (Cerda & Mahadevan, Phys. Rev. Lett. 90, 074302, 2003;
 * formula from memory, derived again).
 */
export function plateWrinkle(
  spanMm: number,
  bending: number,
  tension: number,
): { wavelengthMm: number; criticalForce: number } {
  const p2 = (Math.PI / spanMm) ** 2;
  const q2 = Math.sqrt(p2 * p2 + (tension * p2) / bending);
  return { wavelengthMm: (2 * Math.PI) / Math.sqrt(q2), criticalForce: 2 * bending * (p2 + q2) };
}

/**
 * Peak-to-valley height of w = A·cos(2πx/λ) that takes up a shortening e: 2·(λ/π)·√e, the small-slope form
 * (0.3 % high at 1 % shortening, 3 % at 10 %, against the elastica).
 */
export const heightOf = (shortening: number, wavelengthMm: number): number =>
  (2 * wavelengthMm * Math.sqrt(Math.max(0, shortening))) / Math.PI;

export interface Wrinkle {
  /** Peak to valley; 0 where the fabric stays flat, mm. */
  heightMm: number;
  wavelengthMm: number;
  /** Direction of the push, at right angles to the crests, degrees in (−90, 90]. */
  acrossDeg: number;
  /** Shortening at which wrinkles begin. */
  threshold: number;
}

/** Compressive part of the smaller principal strain; xy is the engineering shear. */
export const pressed = (xx: number, yy: number, xy: number): number =>
  Math.max(0, (Math.hypot(xx - yy, xy) - xx - yy) / 2);

const DIRECTIONS = 90;
const AS_IT_IS = { membrane: 1, bending: 1 };

/** A fabric's answer to a push along every direction. */
export class WrinkleLaw {
  private readonly stiffness = new Float64Array(DIRECTIONS);
  private readonly bending = new Float64Array(DIRECTIONS);

  private readonly membrane: PlaneStiffness;

  /** @param times stiffness of the fabric, drawn out and bent, as parts of what its layer has */
  constructor(fabric: Layer, times: { readonly membrane: number; readonly bending: number } = AS_IT_IS) {
    this.membrane = plus(NO_STIFFNESS, fabric.membrane, times.membrane);
    const soft = compliance(this.membrane);
    for (let d = 0; d < DIRECTIONS; d++) {
      const angle = (180 * d) / DIRECTIONS;
      const c = Math.cos((angle * Math.PI) / 180);
      const s = Math.sin((angle * Math.PI) / 180);
      this.stiffness[d] = stripStiffness(soft, c * c, s * c);
      // Bending along the push and across it, as a plate of even stiffness has both: (√(D11·D22) + D12 + 2·D66)/2.
      const { m11, m12, m22, m66 } = rotated(fabric.bending, -angle);
      this.bending[d] = (times.bending * (Math.sqrt(m11 * m22) + m12 + 2 * m66)) / 2;
    }
  }

  /**
   * Sets `out` for fabric that is pressed: {@link pressed} is more than nothing.
   * @param xx, yy, xy strain of the fabric against what it is at rest
   * @param spanMm over which it stands free
   */
  at(xx: number, yy: number, xy: number, spanMm: number, out: Wrinkle): void {
    out.acrossDeg = (Math.atan2(-xy, yy - xx) * 90) / Math.PI;
    const d = (Math.round((out.acrossDeg * DIRECTIONS) / 180) + DIRECTIONS) % DIRECTIONS;
    const tension = this.tensionAlongCrests(xx, yy, xy, out.acrossDeg);
    const { wavelengthMm, criticalForce } = plateWrinkle(spanMm, this.bending[d], tension);
    out.wavelengthMm = wavelengthMm;
    out.threshold = criticalForce / this.stiffness[d];
    out.heightMm = heightOf(pressed(xx, yy, xy) - out.threshold, wavelengthMm);
  }

  private tensionAlongCrests(xx: number, yy: number, xy: number, acrossDeg: number): number {
    const [nxx, nyy, nxy] = forcesOf(this.membrane, [xx, yy, xy]);
    const angle = (acrossDeg * Math.PI) / 180;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    return Math.max(0, nxx * s * s + nyy * c * c - 2 * nxy * s * c);
  }
}
