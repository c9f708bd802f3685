import { COMMON_PRACTICE, FROM_MEMORY, type Sourced } from '../core/sourced.js';
import { GSM_PER_OZ_YD2 } from '../core/units.js';
import type { PlyValues } from './ply-values.js';
import {
  bending,
  gramPerM2,
  membrane,
  microNewtonMetre,
  millimetre,
  newtonPerMm,
  percent,
  plain,
  usdPerSheet,
} from './quantity.js';

export type SheetKind = 'cut-away' | 'tear-away' | 'woven' | 'soluble';

/** One layer of backing. */
export interface Sheet extends PlyValues {
  readonly id: string;
  readonly name: string;
  readonly kind: SheetKind;
  /** Lines of needle holes weaken it, and what lies outside the stitching is torn or rinsed off. */
  readonly perforates: boolean;
  readonly washable: boolean;
  /** A piece large enough for a left-chest hoop. */
  readonly price: Sourced;
}

/** No measured stiffness of embroidery backing was found in print. */
const M = `${FROM_MEMORY}; no measured stiffness of backing was found in print`;
/** The nearest that was found, second-hand and weak, is a little softer than what is taken. */
const WEB = `from memory; by mass a nonwoven of 60 g/m² with 3.5 N/mm, shear 1.75 N/mm and bending 36 µN·m (Jaouen & Bécot 2011, second-hand) gives 4.9 N/mm for 2.5 oz/yd², shear 2.5 N/mm: the two disagree; no measured stiffness of backing was found in print`;
/** The nearest to a thin woven sheet: the yarns are bonded there, and so stiff in shear; loose ones give ten times as far. */
const CLOTH = `a heat-bondable nylon cloth of 62 g/m² measures 25.4 and 47.2 N/mm, shear 2.99 N/mm, bending 10 and 18 µN·m (Farrell et al., data files); ${M}`;
const INTERLINING = 'interlining 1.5 to 2 % (second-hand), polyester webs less, from memory';
/** Bending stiffness of a nonwoven: mass from the label, bending length assumed 30 to 40 mm. */
const B = `B = W·c³·9.81e-6 with an assumed bending length c; ${M}`;
const OZ = 'label weight, 1 oz/yd² = 33.905747 g/m²';

const weight = (oz: number) => {
  const gsm = Math.round(oz * GSM_PER_OZ_YD2 * 10) / 10;
  return gramPerM2(OZ, gsm, gsm * 0.95, gsm * 1.05);
};

/** Bonded sheets differ in weight alone: membrane stiffness goes with the mass of the web. */
const bonded = (
  id: string,
  oz: number,
  scale: number,
  stiffness: number,
  price: Sourced,
  name = 'cut-away, bonded',
): Sheet => ({
  id,
  name: `${name}, ${oz.toFixed(1)} oz/yd²`,
  kind: 'cut-away',
  perforates: false,
  washable: true,
  membraneAlong: newtonPerMm(WEB, 7 * scale, 4 * scale, 12 * scale),
  // A web is laid along the machine: across it is .5 to .85 times as stiff.
  membraneAcross: newtonPerMm(WEB, 5.6 * scale, 2.5 * scale, 10 * scale),
  membraneShear: newtonPerMm(WEB, 2.4 * scale, 1.4 * scale, 4.2 * scale),
  poisson: plain(M, 0.3, 0.2, 0.4),
  ...bending(
    B,
    [stiffness, stiffness / 2, stiffness * 2],
    [stiffness * 0.8, stiffness * 0.4, stiffness * 1.6],
  ),
  mass: weight(oz),
  thickness: millimetre(FROM_MEMORY, 0.16 * oz, 0.12 * oz, 0.2 * oz),
  shrinkage: percent(INTERLINING, 0.5, 0, 2),
  price,
});

const list: readonly Sheet[] = [
  // Soft and see-through: the web is spun and lightly bonded, and so limper than its weight tells.
  bonded(
    'cutaway-mesh-1.5oz',
    1.5,
    0.5,
    11,
    usdPerSheet(FROM_MEMORY, 0.1, 0.08, 0.15),
    'cut-away mesh, soft',
  ),
  bonded('cutaway-2.5oz', 2.5, 1, 34, usdPerSheet(COMMON_PRACTICE, 0.1, 0.08, 0.14)),
  bonded('cutaway-3oz', 3, 1.2, 45, usdPerSheet(FROM_MEMORY, 0.12, 0.09, 0.16)),
  bonded('cutaway-3.5oz', 3.5, 1.4, 62, usdPerSheet(FROM_MEMORY, 0.14, 0.11, 0.19)),
  {
    id: 'tearaway-1.8oz-firm',
    name: 'tear-away, firm, 1.8 oz/yd²',
    kind: 'tear-away',
    perforates: true,
    washable: true,
    ...membrane(M, [12, 6, 22], [9, 4, 17]),
    membraneShear: newtonPerMm(M, 4, 2, 7),
    poisson: plain(M, 0.25, 0.15, 0.35),
    ...bending(B, [40, 16, 80], [30, 12, 60]),
    mass: weight(1.8),
    thickness: millimetre(FROM_MEMORY, 0.25, 0.2, 0.32),
    shrinkage: percent(FROM_MEMORY, 0.5, 0, 1),
    price: usdPerSheet(FROM_MEMORY, 0.06, 0.04, 0.08),
  },
  {
    id: 'tearaway-1.8oz-crisp',
    name: 'tear-away, crisp, 1.8 oz/yd²',
    kind: 'tear-away',
    perforates: true,
    washable: true,
    ...membrane(M, [14, 7, 25], [11, 5, 20]),
    membraneShear: newtonPerMm(M, 5, 2.5, 8.5),
    poisson: plain(M, 0.25, 0.15, 0.35),
    ...bending(B, [55, 22, 110], [42, 17, 85]),
    mass: weight(1.8),
    thickness: millimetre(FROM_MEMORY, 0.2, 0.15, 0.26),
    shrinkage: percent(FROM_MEMORY, 0.5, 0, 1),
    price: usdPerSheet(FROM_MEMORY, 0.06, 0.04, 0.08),
  },
  {
    id: 'cap-backing',
    name: 'cap backing, crisp and card-like',
    kind: 'tear-away',
    perforates: true,
    washable: true,
    ...membrane(M, [25, 12, 45], [20, 10, 36]),
    membraneShear: newtonPerMm(M, 9, 4.5, 16),
    poisson: plain(M, 0.25, 0.15, 0.35),
    ...bending(B, [160, 70, 320], [125, 55, 250]),
    mass: weight(3),
    thickness: millimetre(FROM_MEMORY, 0.35, 0.28, 0.45),
    shrinkage: percent(FROM_MEMORY, 0.5, 0, 1),
    price: usdPerSheet(FROM_MEMORY, 0.07, 0.05, 0.1),
  },
  {
    id: 'woven-polyester',
    name: 'woven polyester',
    kind: 'woven',
    perforates: false,
    washable: true,
    ...membrane(CLOTH, [30, 15, 47], [30, 15, 47]),
    // Yarns that lie loose turn against one another: FAST finds .03 to .17 on shirting, bonded ones 2.99. The middle by ratio of .1 and 3.
    membraneShear: newtonPerMm(CLOTH, 0.55, 0.1, 3),
    poisson: plain(M, 0.1, 0.03, 0.3),
    ...bending(CLOTH, [8, 3, 18], [8, 3, 18]),
    mass: gramPerM2(FROM_MEMORY, 55, 40, 75),
    thickness: millimetre(FROM_MEMORY, 0.12, 0.08, 0.18),
    shrinkage: percent(FROM_MEMORY, 0.5, 0, 1),
    price: usdPerSheet(COMMON_PRACTICE, 0.25, 0.2, 0.3),
  },
  {
    id: 'soluble-film',
    name: 'water-soluble film',
    kind: 'soluble',
    perforates: true,
    washable: true,
    ...membrane(M, [5, 1.5, 12], [4.5, 1.3, 11]),
    membraneShear: newtonPerMm(M, 1.7, 0.5, 4),
    poisson: plain(M, 0.4, 0.3, 0.45),
    bendingAlong: microNewtonMetre(
      'B = E·t²/12 with the membrane stiffness and thickness of this table',
      0.5,
      0.1,
      2,
    ),
    bendingAcross: microNewtonMetre(
      'B = E·t²/12 with the membrane stiffness and thickness of this table',
      0.45,
      0.1,
      2,
    ),
    mass: gramPerM2(FROM_MEMORY, 45, 25, 65),
    thickness: millimetre(FROM_MEMORY, 0.035, 0.02, 0.05),
    shrinkage: percent(FROM_MEMORY, 0, 0, 0),
    price: usdPerSheet(FROM_MEMORY, 0.12, 0.08, 0.18),
  },
];

export const SHEETS: Readonly<Record<string, Sheet>> = Object.fromEntries(list.map((s) => [s.id, s]));
