import { COMMON_PRACTICE, FROM_MEMORY, type Sourced } from '../core/sourced.js';
import type { PlyValues } from './ply-values.js';
import { gramPerM2, microNewtonMetre, millimetre, newtonPerMm, percent, plain } from './quantity.js';

export type FabricStructure = 'knit' | 'woven';

export interface Fabric extends PlyValues {
  readonly id: string;
  readonly name: string;
  readonly structure: FabricStructure;
  /** Gives under the hand: calls for a backing that stays. */
  readonly stretchy: boolean;
  /** Knit of synthetic yarn that gives far and springs back: a bonded sheet gives with it (common practice, no source). */
  readonly elastic: boolean;
  /** No give at all: a backing that tears away is enough. */
  readonly rigid: boolean;
  readonly pile: boolean;
  /** Open enough, or loose enough, for stitches to sink in. */
  readonly open: boolean;
  /** See-through: the backing shows. */
  readonly sheer: boolean;
  readonly cap: boolean;
  readonly washable: boolean;
  /** % longer before it resists, in its stretchier direction. */
  readonly stretch: Sourced;
}

/**
 * Membrane stiffness from the extension at 98 N/m, C ≈ 98.07/(E100/100) N/m, and shear and bending stiffness, all within the
 * ranges for apparel cloth of De Boos & Tester, CSIRO report WT92.02 (1994): the limits and ranges are from memory. Sewing pulls about that hard.
 */
const FAST = 'FAST ranges for apparel cloth (De Boos & Tester, CSIRO WT92.02, 1994), from memory';
/** Stretch, shear and bending of ten cloths, tables seen. */
const WANG = 'Wang, O’Brien & Ramamoorthi, ACM Trans. Graph. 30(4):71 (2011), measured';
/**
 * The two published bases disagree: knits curve like a J, 5 to 40 times softer at rest (.03 to .21 N/mm along, half to a fifth of that the soft
 * way) than where FAST pulls at 98 N/m (.25 to 1). One number stands for both; its range reaches into each.
 */
const KNIT = `between ${WANG} at rest, and ${FAST} at 98 N/m: the two disagree`;
/** Measured wovens stretch by a part of what FAST has at 98 N/m when pulled with 490 N/m (21 to 28 N/mm along): the range reaches there. */
const WOVEN = `${FAST}, at 98 N/m; secants at 490 N/m are three times as stiff (Tadesse, Materials 11:2466, 2018; Polymers 17:2013, 2025; second-hand)`;
/** Bending measured by the two methods differs by up to five times. */
const BEND = `between ${FAST} and ${WANG}: the two disagree`;
const STOCKINETTE =
  'Singal et al., “Programming mechanics in knitted materials, stitch by stitch”, data files (heavier yarns)';
/** Change by laundering, second-hand. */
const WASHED =
  'laundering tests as quoted by others: cotton jersey 3.8 to 10.1 %, polyester cloth 0.5 to 1.5 %, denim 2 to 4 %, towels up to 7 %';
/** Nothing published was found for this cloth. */
const M = FROM_MEMORY;
const PENAVA =
  'plain weaves 0.24 (cotton) to 0.38 (polyester), Penava 2014, second-hand; crimped yarns lower, from memory';

const flags = {
  stretchy: false,
  elastic: false,
  rigid: false,
  pile: false,
  open: false,
  sheer: false,
  cap: false,
  washable: true,
};

const list: readonly Fabric[] = [
  {
    ...flags,
    id: 'pique-knit',
    name: 'piqué knit (polo)',
    structure: 'knit',
    stretchy: true,
    open: true,
    membraneAlong: newtonPerMm(KNIT, 0.8, 0.25, 1.2),
    membraneAcross: newtonPerMm(KNIT, 0.4, 0.1, 0.8),
    membraneShear: newtonPerMm(FAST, 0.04, 0.025, 0.06),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    bendingAlong: microNewtonMetre(BEND, 6, 3, 15),
    bendingAcross: microNewtonMetre(BEND, 5, 3, 14),
    mass: gramPerM2(FAST, 200, 180, 220),
    thickness: millimetre(M, 0.9, 0.7, 1.1),
    stretch: percent(M, 30, 15, 50),
    shrinkage: percent(WASHED, 4, 2, 6),
  },
  {
    ...flags,
    id: 'jersey-knit',
    name: 'jersey knit, cotton and polyester (polo)',
    structure: 'knit',
    stretchy: true,
    membraneAlong: newtonPerMm(KNIT, 0.6, 0.2, 1),
    membraneAcross: newtonPerMm(KNIT, 0.3, 0.08, 0.7),
    membraneShear: newtonPerMm(FAST, 0.035, 0.02, 0.05),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    bendingAlong: microNewtonMetre(BEND, 5, 2, 12),
    bendingAcross: microNewtonMetre(BEND, 3.5, 1.5, 10),
    mass: gramPerM2(FAST, 180, 160, 200),
    thickness: millimetre(M, 0.7, 0.55, 0.85),
    stretch: percent(M, 40, 20, 60),
    shrinkage: percent(WASHED, 3.5, 2, 6),
  },
  {
    ...flags,
    id: 'jersey-tee',
    name: 'jersey knit, light cotton tee',
    structure: 'knit',
    stretchy: true,
    membraneAlong: newtonPerMm(KNIT, 0.4, 0.13, 0.84),
    membraneAcross: newtonPerMm(KNIT, 0.16, 0.04, 0.4),
    membraneShear: newtonPerMm(FAST, 0.03, 0.02, 0.05),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    bendingAlong: microNewtonMetre(BEND, 2, 1, 7),
    bendingAcross: microNewtonMetre(BEND, 1.6, 1, 6),
    mass: gramPerM2(FAST, 150, 130, 170),
    thickness: millimetre(M, 0.5, 0.4, 0.65),
    stretch: percent(M, 50, 25, 80),
    shrinkage: percent(WASHED, 5, 3.8, 10.1),
  },
  {
    ...flags,
    id: 'performance-knit',
    name: 'performance knit, polyester',
    structure: 'knit',
    stretchy: true,
    elastic: true,
    membraneAlong: newtonPerMm(KNIT, 0.35, 0.1, 0.8),
    membraneAcross: newtonPerMm(KNIT, 0.18, 0.04, 0.45),
    membraneShear: newtonPerMm(FAST, 0.035, 0.02, 0.05),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    bendingAlong: microNewtonMetre(BEND, 2, 1, 6),
    bendingAcross: microNewtonMetre(BEND, 1.5, 1, 5),
    mass: gramPerM2(FAST, 145, 120, 160),
    thickness: millimetre(M, 0.55, 0.45, 0.7),
    stretch: percent(M, 100, 50, 200),
    shrinkage: percent(WASHED, 1, 0.5, 1.5),
  },
  {
    ...flags,
    id: 'performance-knit-thin',
    name: 'performance knit, thin and very stretchy',
    structure: 'knit',
    stretchy: true,
    elastic: true,
    membraneAlong: newtonPerMm(KNIT, 0.1, 0.04, 0.3),
    membraneAcross: newtonPerMm(KNIT, 0.06, 0.02, 0.15),
    membraneShear: newtonPerMm(FAST, 0.025, 0.015, 0.04),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    bendingAlong: microNewtonMetre(M, 0.8, 0.4, 2),
    bendingAcross: microNewtonMetre(M, 0.6, 0.3, 1.6),
    mass: gramPerM2(M, 115, 90, 130),
    thickness: millimetre(M, 0.4, 0.3, 0.5),
    stretch: percent(COMMON_PRACTICE, 350, 300, 400),
    shrinkage: percent(WASHED, 1, 0.5, 1.5),
  },
  {
    ...flags,
    id: 'stretch-scrub',
    name: 'scrubs of stretch knit',
    structure: 'knit',
    stretchy: true,
    elastic: true,
    membraneAlong: newtonPerMm(KNIT, 0.9, 0.3, 1.5),
    membraneAcross: newtonPerMm(KNIT, 0.4, 0.12, 0.8),
    membraneShear: newtonPerMm(M, 0.045, 0.025, 0.07),
    poisson: plain(M, 0.35, 0.2, 0.5),
    bendingAlong: microNewtonMetre(BEND, 5, 2, 15),
    bendingAcross: microNewtonMetre(BEND, 4, 1.5, 12),
    mass: gramPerM2(M, 180, 150, 220),
    thickness: millimetre(M, 0.5, 0.4, 0.7),
    stretch: percent(M, 60, 25, 120),
    shrinkage: percent(WASHED, 1.2, 0.5, 2),
  },
  {
    ...flags,
    id: 'woven-scrub',
    name: 'scrubs, classic tight woven',
    structure: 'woven',
    membraneAlong: newtonPerMm(WOVEN, 7, 3, 20),
    membraneAcross: newtonPerMm(WOVEN, 5, 2, 16),
    membraneShear: newtonPerMm(FAST, 0.1, 0.05, 0.17),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    bendingAlong: microNewtonMetre(FAST, 12, 6, 25),
    bendingAcross: microNewtonMetre(FAST, 9, 5, 20),
    mass: gramPerM2(M, 170, 145, 200),
    thickness: millimetre(M, 0.35, 0.3, 0.45),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 1.5, 0.5, 3),
  },
  {
    ...flags,
    id: 'poplin',
    name: 'poplin (dress shirt)',
    structure: 'woven',
    membraneAlong: newtonPerMm(WOVEN, 6, 2.5, 20),
    membraneAcross: newtonPerMm(WOVEN, 5, 1.6, 16),
    membraneShear: newtonPerMm(FAST, 0.06, 0.03, 0.1),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    bendingAlong: microNewtonMetre(FAST, 7, 3, 12),
    bendingAcross: microNewtonMetre(FAST, 5, 3, 10),
    mass: gramPerM2(FAST, 115, 100, 130),
    thickness: millimetre(M, 0.25, 0.2, 0.3),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 2, 0.5, 3),
  },
  {
    ...flags,
    id: 'twill',
    name: 'twill',
    structure: 'woven',
    membraneAlong: newtonPerMm(WOVEN, 8, 3, 28),
    membraneAcross: newtonPerMm(WOVEN, 6, 2, 21),
    membraneShear: newtonPerMm(FAST, 0.11, 0.05, 0.17),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    bendingAlong: microNewtonMetre(FAST, 25, 12, 40),
    bendingAcross: microNewtonMetre(FAST, 18, 10, 35),
    mass: gramPerM2(FAST, 240, 200, 280),
    thickness: millimetre(M, 0.5, 0.4, 0.6),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 2, 0.5, 3),
  },
  {
    ...flags,
    id: 'denim',
    name: 'denim',
    structure: 'woven',
    membraneAlong: newtonPerMm(WANG, 9, 0.41, 20),
    membraneAcross: newtonPerMm(WANG, 6, 0.4, 15),
    membraneShear: newtonPerMm(WANG, 0.15, 0.05, 0.6),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    bendingAlong: microNewtonMetre(WANG, 80, 40, 121),
    bendingAcross: microNewtonMetre(WANG, 50, 20, 90),
    mass: gramPerM2(WANG, 324, 300, 400),
    thickness: millimetre(M, 0.8, 0.65, 1),
    stretch: percent(M, 2, 0, 5),
    shrinkage: percent(WASHED, 2.5, 0, 4),
  },
  {
    ...flags,
    id: 'canvas-tote',
    name: 'canvas (tote bag)',
    structure: 'woven',
    rigid: true,
    membraneAlong: newtonPerMm(M, 22, 12, 40),
    membraneAcross: newtonPerMm(M, 18, 10, 35),
    membraneShear: newtonPerMm(M, 1.5, 0.6, 4),
    poisson: plain(M, 0.15, 0.05, 0.3),
    bendingAlong: microNewtonMetre(M, 260, 120, 500),
    bendingAcross: microNewtonMetre(M, 220, 100, 450),
    mass: gramPerM2(M, 400, 340, 480),
    thickness: millimetre(M, 0.9, 0.7, 1.1),
    stretch: percent(M, 1, 0, 2),
    shrinkage: percent(M, 3, 1, 5),
  },
  {
    ...flags,
    id: 'fleece',
    name: 'fleece',
    structure: 'knit',
    stretchy: true,
    pile: true,
    membraneAlong: newtonPerMm(WANG, 0.5, 0.2, 1),
    membraneAcross: newtonPerMm(WANG, 0.25, 0.1, 0.75),
    membraneShear: newtonPerMm(M, 0.05, 0.03, 0.08),
    poisson: plain(M, 0.35, 0.2, 0.5),
    bendingAlong: microNewtonMetre(WANG, 30, 8, 120),
    bendingAcross: microNewtonMetre(WANG, 25, 6, 100),
    mass: gramPerM2(M, 260, 200, 320),
    thickness: millimetre(M, 2.5, 1.5, 3.5),
    stretch: percent(M, 35, 15, 60),
    shrinkage: percent(WASHED, 1.2, 0.5, 2),
  },
  {
    ...flags,
    id: 'terry-towel',
    name: 'terry towel',
    structure: 'woven',
    pile: true,
    open: true,
    membraneAlong: newtonPerMm(M, 5, 2, 9),
    membraneAcross: newtonPerMm(M, 4, 1.5, 7),
    membraneShear: newtonPerMm(M, 0.15, 0.06, 0.3),
    poisson: plain(M, 0.15, 0.05, 0.3),
    bendingAlong: microNewtonMetre(M, 45, 15, 100),
    bendingAcross: microNewtonMetre(M, 35, 12, 80),
    mass: gramPerM2(M, 450, 350, 600),
    thickness: millimetre(M, 4, 2.5, 5.5),
    stretch: percent(M, 5, 2, 10),
    shrinkage: percent(WASHED, 5, 3, 7),
  },
  {
    ...flags,
    id: 'sheer-linen',
    name: 'linen, sheer',
    structure: 'woven',
    sheer: true,
    membraneAlong: newtonPerMm(M, 5, 2.5, 9),
    membraneAcross: newtonPerMm(M, 4, 2, 8),
    membraneShear: newtonPerMm(M, 0.06, 0.03, 0.1),
    poisson: plain(M, 0.1, 0.03, 0.25),
    bendingAlong: microNewtonMetre(M, 7, 3, 14),
    bendingAcross: microNewtonMetre(M, 6, 3, 12),
    mass: gramPerM2(M, 95, 70, 130),
    thickness: millimetre(M, 0.25, 0.2, 0.3),
    stretch: percent(M, 2, 0.5, 4),
    shrinkage: percent(M, 3, 1, 5),
  },
  {
    ...flags,
    id: 'fine-sweater',
    name: 'fine sweater knit',
    structure: 'knit',
    stretchy: true,
    open: true,
    washable: false,
    membraneAlong: newtonPerMm(STOCKINETTE, 0.4, 0.1, 0.84),
    membraneAcross: newtonPerMm(STOCKINETTE, 0.15, 0.02, 0.35),
    membraneShear: newtonPerMm(M, 0.03, 0.015, 0.05),
    poisson: plain(STOCKINETTE, 0.45, 0.3, 0.6),
    bendingAlong: microNewtonMetre(WANG, 15, 5, 59),
    bendingAcross: microNewtonMetre(WANG, 12, 4, 46),
    mass: gramPerM2(M, 200, 150, 260),
    thickness: millimetre(M, 1.2, 0.8, 1.8),
    stretch: percent(M, 60, 30, 100),
    shrinkage: percent(M, 5, 2, 10),
  },
  {
    ...flags,
    id: 'cap-structured',
    name: 'cap with buckram front',
    structure: 'woven',
    rigid: true,
    cap: true,
    membraneAlong: newtonPerMm(M, 30, 15, 60),
    membraneAcross: newtonPerMm(M, 25, 12, 50),
    membraneShear: newtonPerMm(M, 6, 2, 12),
    poisson: plain(M, 0.2, 0.1, 0.3),
    bendingAlong: microNewtonMetre(M, 600, 200, 1500),
    bendingAcross: microNewtonMetre(M, 500, 180, 1300),
    mass: gramPerM2(M, 450, 350, 600),
    thickness: millimetre(M, 1.1, 0.8, 1.5),
    stretch: percent(M, 0.5, 0, 1),
    shrinkage: percent(M, 1, 0, 2),
  },
  {
    ...flags,
    id: 'cap-unstructured',
    name: 'cap without buckram',
    structure: 'woven',
    cap: true,
    membraneAlong: newtonPerMm(M, 6, 3, 10),
    membraneAcross: newtonPerMm(M, 4.5, 2, 8),
    membraneShear: newtonPerMm(M, 0.11, 0.05, 0.2),
    poisson: plain(M, 0.15, 0.05, 0.3),
    bendingAlong: microNewtonMetre(M, 25, 12, 45),
    bendingAcross: microNewtonMetre(M, 18, 10, 35),
    mass: gramPerM2(M, 250, 200, 300),
    thickness: millimetre(M, 0.5, 0.4, 0.7),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 1.5, 0, 3),
  },
];

export const FABRICS: Readonly<Record<string, Fabric>> = Object.fromEntries(list.map((f) => [f.id, f]));
