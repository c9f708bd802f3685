/**
 * Classical lamination of thin orthotropic plies (Kaw, *Mechanics of Composite Materials*, 2nd ed., ch. 2 and 4). A plane
 * stiffness is the symmetric 3 × 3 matrix of [N1 N2 N12] = M · [ε1 ε2 γ12], kept as its six entries.
 */

export interface PlaneStiffness {
  readonly m11: number;
  readonly m12: number;
  readonly m16: number;
  readonly m22: number;
  readonly m26: number;
  readonly m66: number;
}

/** Engineering constants of one ply: N/mm for a membrane, N·mm for bending (or any one unit throughout). */
export interface OrthotropicConstants {
  readonly along: number;
  readonly across: number;
  readonly shear: number;
  /** Strain across over strain along, for a pull along. */
  readonly poisson: number;
}

export const NO_STIFFNESS: PlaneStiffness = { m11: 0, m12: 0, m16: 0, m22: 0, m26: 0, m66: 0 };

/**
 * Reduced stiffness of a ply in its own axes: Q11 = E1/(1 − ν12ν21), with ν21 = ν12·E2/E1.
 * @throws RangeError where the constants are not those of a stable material.
 */
export function lamina({ along, across, shear, poisson }: OrthotropicConstants): PlaneStiffness {
  const minor = (poisson * across) / along;
  const rest = 1 - poisson * minor;
  if (!(along > 0 && across > 0 && shear > 0 && rest > 0 && along + across + shear < Infinity))
    throw new RangeError(
      `no stable ply: along ${along}, across ${across}, shear ${shear}, Poisson's ratio ${poisson}`,
    );
  return {
    m11: along / rest,
    m12: (poisson * across) / rest,
    m16: 0,
    m22: across / rest,
    m26: 0,
    m66: shear,
  };
}

/** The same stiffness seen from axes in which the ply is turned by `angleDeg` counter-clockwise (Kaw, eq. 2.104). */
export function rotated(q: PlaneStiffness, angleDeg: number): PlaneStiffness {
  const c = Math.cos((angleDeg * Math.PI) / 180);
  const s = Math.sin((angleDeg * Math.PI) / 180);
  const c2 = c * c;
  const s2 = s * s;
  const cs = c * s;
  const { m11, m12, m16, m22, m26, m66 } = q;
  return {
    m11: m11 * c2 * c2 + 2 * (m12 + 2 * m66) * s2 * c2 + m22 * s2 * s2 - 4 * cs * (m16 * c2 + m26 * s2),
    m22: m11 * s2 * s2 + 2 * (m12 + 2 * m66) * s2 * c2 + m22 * c2 * c2 + 4 * cs * (m16 * s2 + m26 * c2),
    m12: (m11 + m22 - 4 * m66) * s2 * c2 + m12 * (c2 * c2 + s2 * s2) + 2 * cs * (c2 - s2) * (m16 - m26),
    m66:
      (m11 + m22 - 2 * m12 - 2 * m66) * s2 * c2 +
      m66 * (c2 * c2 + s2 * s2) +
      2 * cs * (c2 - s2) * (m16 - m26),
    m16:
      (m11 - m12 - 2 * m66) * cs * c2 +
      (m12 - m22 + 2 * m66) * cs * s2 +
      m16 * c2 * (c2 - 3 * s2) +
      m26 * s2 * (3 * c2 - s2),
    m26:
      (m11 - m12 - 2 * m66) * cs * s2 +
      (m12 - m22 + 2 * m66) * cs * c2 +
      m16 * s2 * (3 * c2 - s2) +
      m26 * c2 * (c2 - 3 * s2),
  };
}

/** a + factor · b. */
export function plus(a: PlaneStiffness, b: PlaneStiffness, factor = 1): PlaneStiffness {
  return {
    m11: a.m11 + factor * b.m11,
    m12: a.m12 + factor * b.m12,
    m16: a.m16 + factor * b.m16,
    m22: a.m22 + factor * b.m22,
    m26: a.m26 + factor * b.m26,
    m66: a.m66 + factor * b.m66,
  };
}

export interface Compliance {
  readonly s11: number;
  readonly s12: number;
  readonly s16: number;
  readonly s22: number;
  readonly s26: number;
  readonly s66: number;
}

/** The inverse matrix: strains for forces. */
export function compliance({ m11, m12, m16, m22, m26, m66 }: PlaneStiffness): Compliance {
  const a = m22 * m66 - m26 * m26;
  const b = m16 * m26 - m12 * m66;
  const c = m12 * m26 - m16 * m22;
  const det = m11 * a + m12 * b + m16 * c;
  return {
    s11: a / det,
    s12: b / det,
    s16: c / det,
    s22: (m11 * m66 - m16 * m16) / det,
    s26: (m12 * m16 - m11 * m26) / det,
    s66: (m11 * m22 - m12 * m12) / det,
  };
}

/**
 * Stiffness of a narrow strip cut along a direction θ, 1/S(θ) (Kaw, eq. 2.112), from cos²θ and sinθ·cosθ.
 */
export function stripStiffness(k: Compliance, cosSquared: number, sinCos: number): number {
  const c2 = cosSquared;
  const s2 = 1 - c2;
  return (
    1 /
    (k.s11 * c2 * c2 +
      (2 * k.s12 + k.s66) * s2 * c2 +
      k.s22 * s2 * s2 +
      2 * sinCos * (k.s16 * c2 + k.s26 * s2))
  );
}

/** xx, yy and engineering shear xy. */
export type Strain = readonly [xx: number, yy: number, xy: number];

/** Forces per width xx, yy, xy of a strain. */
export const forcesOf = (
  { m11, m12, m16, m22, m26, m66 }: PlaneStiffness,
  [xx, yy, xy]: Strain,
): [number, number, number] => [
  m11 * xx + m12 * yy + m16 * xy,
  m12 * xx + m22 * yy + m26 * xy,
  m16 * xx + m26 * yy + m66 * xy,
];
