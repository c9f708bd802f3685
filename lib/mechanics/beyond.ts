import type { Grid } from './grid.js';
import { compliance, type PlaneStiffness, plus } from './laminate.js';

/** Directions over which the Green operator is averaged; it has period 180° and is smooth, so few do. */
const DIRECTIONS = 180;

/**
 * What an endless sheet about the computed rectangle does against its drawing in as a whole: the extra stiffness H of its mean strain.
 *
 * An inclusion that sheds a prestress N in an endless sheet strains by −P·N, where P is the Green operator averaged over all
 * directions (for an ellipse, over directions stretched by its axes): Eshelby's inclusion, Mura, *Micromechanics of Defects in
 * Solids*, 1987. The rectangle with the load somewhere in it is taken for such an inclusion, so (A + H)⁻¹ = P, H = P⁻¹ − A (Hill's constraint
 * tensor). With H = 0 the rectangle would draw in freely, with H endless it would be held at its edge; both are wrong by the part of the
 * rectangle that the design fills.
 */
export function holdOfSheetBeyond(sheet: PlaneStiffness, { nx, ny }: Grid): PlaneStiffness {
  let [p11, p12, p16, p22, p26, p66] = [0, 0, 0, 0, 0, 0];
  for (let d = 0; d < DIRECTIONS; d++) {
    const angle = (Math.PI * (d + 0.5)) / DIRECTIONS;
    const a = Math.cos(angle) / nx;
    const b = Math.sin(angle) / ny;
    const k11 = sheet.m11 * a * a + 2 * sheet.m16 * a * b + sheet.m66 * b * b;
    const k12 = sheet.m16 * a * a + (sheet.m12 + sheet.m66) * a * b + sheet.m26 * b * b;
    const k22 = sheet.m66 * a * a + 2 * sheet.m26 * a * b + sheet.m22 * b * b;
    const weight = 1 / (k11 * k22 - k12 * k12) / DIRECTIONS;
    const [g11, g12, g22] = [k22 * weight, -k12 * weight, k11 * weight];
    // ε = (a·v1, b·v2, a·v2 + b·v1) with v = K⁻¹·(a·N11 + b·N12, a·N12 + b·N22).
    p11 += g11 * a * a;
    p12 += g12 * a * b;
    p16 += g11 * a * b + g12 * a * a;
    p22 += g22 * b * b;
    p26 += g12 * b * b + g22 * a * b;
    p66 += g11 * b * b + 2 * g12 * a * b + g22 * a * a;
  }
  const { s11, s12, s16, s22, s26, s66 } = compliance({
    m11: p11,
    m12: p12,
    m16: p16,
    m22: p22,
    m26: p26,
    m66: p66,
  });
  return plus({ m11: s11, m12: s12, m16: s16, m22: s22, m26: s26, m66: s66 }, sheet, -1);
}
