import { COMMON_PRACTICE, FROM_MEMORY } from '../core/sourced.js';
import type { Fabric } from './fabric.js';
import { bending, gramPerM2, membrane, millimetre, newtonPerMm, percent, plain } from './quantity.js';

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
/** A bonded nylon cloth of 62 g/m², data files. */
const NYLON =
  'bonded nylon cloth of 62 g/m²: 25 to 47 N/mm, shear 3 N/mm, bending 10 to 18 µN·m (Farrell et al., textile metamaterials, data files); plain cloth softer, from memory';
/** Nothing published was found for this cloth. */
const M = FROM_MEMORY;
const PENAVA =
  'plain weaves 0.24 (cotton) to 0.38 (polyester), Penava 2014, second-hand; crimped yarns lower, from memory';

/** What a fabric is not unless it says so. */
const FLAGS = {
  stretchy: false,
  elastic: false,
  rigid: false,
  pile: false,
  open: false,
  sheer: false,
  cap: false,
  washable: true,
  holesStay: false,
};

type FabricValues = Omit<Fabric, 'id' | 'name' | 'structure' | keyof typeof FLAGS> &
  Partial<Record<keyof typeof FLAGS, boolean>>;

const knit = (id: string, name: string, values: FabricValues): Fabric => ({
  ...FLAGS,
  id,
  name,
  structure: 'knit',
  ...values,
});

const woven = (id: string, name: string, values: FabricValues): Fabric => ({
  ...FLAGS,
  id,
  name,
  structure: 'woven',
  ...values,
});

const list: readonly Fabric[] = [
  knit('pique-knit', 'piqué knit (polo)', {
    stretchy: true,
    open: true,
    ...membrane(KNIT, [0.8, 0.25, 1.2], [0.4, 0.1, 0.8]),
    membraneShear: newtonPerMm(FAST, 0.04, 0.025, 0.06),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    ...bending(BEND, [6, 3, 15], [5, 3, 14]),
    mass: gramPerM2(FAST, 200, 180, 220),
    thickness: millimetre(M, 0.9, 0.7, 1.1),
    stretch: percent(M, 30, 15, 50),
    shrinkage: percent(WASHED, 4, 2, 6),
  }),
  knit('jersey-knit', 'jersey knit, cotton and polyester (polo)', {
    stretchy: true,
    ...membrane(KNIT, [0.6, 0.2, 1], [0.3, 0.08, 0.7]),
    membraneShear: newtonPerMm(FAST, 0.035, 0.02, 0.05),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    ...bending(BEND, [5, 2, 12], [3.5, 1.5, 10]),
    mass: gramPerM2(FAST, 180, 160, 200),
    thickness: millimetre(M, 0.7, 0.55, 0.85),
    stretch: percent(M, 40, 20, 60),
    shrinkage: percent(WASHED, 3.5, 2, 6),
  }),
  knit('jersey-tee', 'jersey knit, light cotton tee', {
    stretchy: true,
    ...membrane(KNIT, [0.4, 0.13, 0.84], [0.16, 0.04, 0.4]),
    membraneShear: newtonPerMm(FAST, 0.03, 0.02, 0.05),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    ...bending(BEND, [2, 1, 7], [1.6, 1, 6]),
    mass: gramPerM2(FAST, 150, 130, 170),
    thickness: millimetre(M, 0.5, 0.4, 0.65),
    stretch: percent(M, 50, 25, 80),
    shrinkage: percent(WASHED, 5, 3.8, 10.1),
  }),
  knit('performance-knit', 'performance knit, polyester', {
    stretchy: true,
    elastic: true,
    ...membrane(KNIT, [0.35, 0.1, 0.8], [0.18, 0.04, 0.45]),
    membraneShear: newtonPerMm(FAST, 0.035, 0.02, 0.05),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    ...bending(BEND, [2, 1, 6], [1.5, 1, 5]),
    mass: gramPerM2(FAST, 145, 120, 160),
    thickness: millimetre(M, 0.55, 0.45, 0.7),
    stretch: percent(M, 100, 50, 200),
    shrinkage: percent(WASHED, 1, 0.5, 1.5),
  }),
  knit('performance-knit-thin', 'performance knit, thin and very stretchy', {
    stretchy: true,
    elastic: true,
    ...membrane(KNIT, [0.1, 0.04, 0.3], [0.06, 0.02, 0.15]),
    membraneShear: newtonPerMm(FAST, 0.025, 0.015, 0.04),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    ...bending(M, [0.8, 0.4, 2], [0.6, 0.3, 1.6]),
    mass: gramPerM2(M, 115, 90, 130),
    thickness: millimetre(M, 0.4, 0.3, 0.5),
    stretch: percent(COMMON_PRACTICE, 350, 300, 400),
    shrinkage: percent(WASHED, 1, 0.5, 1.5),
  }),
  knit('stretch-scrub', 'scrubs of stretch knit', {
    stretchy: true,
    elastic: true,
    ...membrane(KNIT, [0.9, 0.3, 1.5], [0.4, 0.12, 0.8]),
    membraneShear: newtonPerMm(M, 0.045, 0.025, 0.07),
    poisson: plain(M, 0.35, 0.2, 0.5),
    ...bending(BEND, [5, 2, 15], [4, 1.5, 12]),
    mass: gramPerM2(M, 180, 150, 220),
    thickness: millimetre(M, 0.5, 0.4, 0.7),
    stretch: percent(M, 60, 25, 120),
    shrinkage: percent(WASHED, 1.2, 0.5, 2),
  }),
  woven('woven-scrub', 'scrubs, classic tight woven', {
    ...membrane(WOVEN, [7, 3, 20], [5, 2, 16]),
    membraneShear: newtonPerMm(FAST, 0.1, 0.05, 0.17),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    ...bending(FAST, [12, 6, 25], [9, 5, 20]),
    mass: gramPerM2(M, 170, 145, 200),
    thickness: millimetre(M, 0.35, 0.3, 0.45),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 1.5, 0.5, 3),
  }),
  woven('poplin', 'poplin (dress shirt)', {
    ...membrane(WOVEN, [6, 2.5, 20], [5, 1.6, 16]),
    membraneShear: newtonPerMm(FAST, 0.06, 0.03, 0.1),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    ...bending(FAST, [7, 3, 12], [5, 3, 10]),
    mass: gramPerM2(FAST, 115, 100, 130),
    thickness: millimetre(M, 0.25, 0.2, 0.3),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 2, 0.5, 3),
  }),
  woven('twill', 'twill', {
    ...membrane(WOVEN, [8, 3, 28], [6, 2, 21]),
    membraneShear: newtonPerMm(FAST, 0.11, 0.05, 0.17),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    ...bending(FAST, [25, 12, 40], [18, 10, 35]),
    mass: gramPerM2(FAST, 240, 200, 280),
    thickness: millimetre(M, 0.5, 0.4, 0.6),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 2, 0.5, 3),
  }),
  woven('denim', 'denim', {
    ...membrane(WANG, [9, 0.41, 20], [6, 0.4, 15]),
    membraneShear: newtonPerMm(WANG, 0.15, 0.05, 0.6),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    ...bending(WANG, [80, 40, 121], [50, 20, 90]),
    mass: gramPerM2(WANG, 324, 300, 400),
    thickness: millimetre(M, 0.8, 0.65, 1),
    stretch: percent(M, 2, 0, 5),
    shrinkage: percent(WASHED, 2.5, 0, 4),
  }),
  woven('canvas-tote', 'canvas (tote bag)', {
    rigid: true,
    ...membrane(M, [22, 12, 40], [18, 10, 35]),
    membraneShear: newtonPerMm(M, 1.5, 0.6, 4),
    poisson: plain(M, 0.15, 0.05, 0.3),
    ...bending(M, [260, 120, 500], [220, 100, 450]),
    mass: gramPerM2(M, 400, 340, 480),
    thickness: millimetre(M, 0.9, 0.7, 1.1),
    stretch: percent(M, 1, 0, 2),
    shrinkage: percent(M, 3, 1, 5),
  }),
  knit('fleece', 'fleece', {
    stretchy: true,
    pile: true,
    ...membrane(WANG, [0.5, 0.2, 1], [0.25, 0.1, 0.75]),
    membraneShear: newtonPerMm(M, 0.05, 0.03, 0.08),
    poisson: plain(M, 0.35, 0.2, 0.5),
    ...bending(WANG, [30, 8, 120], [25, 6, 100]),
    mass: gramPerM2(M, 260, 200, 320),
    thickness: millimetre(M, 2.5, 1.5, 3.5),
    stretch: percent(M, 35, 15, 60),
    shrinkage: percent(WASHED, 1.2, 0.5, 2),
  }),
  woven('terry-towel', 'terry towel', {
    pile: true,
    open: true,
    ...membrane(M, [5, 2, 9], [4, 1.5, 7]),
    membraneShear: newtonPerMm(M, 0.15, 0.06, 0.3),
    poisson: plain(M, 0.15, 0.05, 0.3),
    ...bending(M, [45, 15, 100], [35, 12, 80]),
    mass: gramPerM2(M, 450, 350, 600),
    thickness: millimetre(M, 4, 2.5, 5.5),
    stretch: percent(M, 5, 2, 10),
    shrinkage: percent(WASHED, 5, 3, 7),
  }),
  woven('sheer-linen', 'linen, sheer', {
    sheer: true,
    ...membrane(M, [5, 2.5, 9], [4, 2, 8]),
    membraneShear: newtonPerMm(M, 0.06, 0.03, 0.1),
    poisson: plain(M, 0.1, 0.03, 0.25),
    ...bending(M, [7, 3, 14], [6, 3, 12]),
    mass: gramPerM2(M, 95, 70, 130),
    thickness: millimetre(M, 0.25, 0.2, 0.3),
    stretch: percent(M, 2, 0.5, 4),
    shrinkage: percent(M, 3, 1, 5),
  }),
  knit('fine-sweater', 'fine sweater knit', {
    stretchy: true,
    open: true,
    washable: false,
    ...membrane(STOCKINETTE, [0.4, 0.1, 0.84], [0.15, 0.02, 0.35]),
    membraneShear: newtonPerMm(M, 0.03, 0.015, 0.05),
    poisson: plain(STOCKINETTE, 0.45, 0.3, 0.6),
    ...bending(WANG, [15, 5, 59], [12, 4, 46]),
    mass: gramPerM2(M, 200, 150, 260),
    thickness: millimetre(M, 1.2, 0.8, 1.8),
    stretch: percent(M, 60, 30, 100),
    shrinkage: percent(M, 5, 2, 10),
  }),
  woven('cap-structured', 'cap with buckram front', {
    rigid: true,
    cap: true,
    ...membrane(M, [30, 15, 60], [25, 12, 50]),
    membraneShear: newtonPerMm(M, 6, 2, 12),
    poisson: plain(M, 0.2, 0.1, 0.3),
    ...bending(M, [600, 200, 1500], [500, 180, 1300]),
    mass: gramPerM2(M, 450, 350, 600),
    thickness: millimetre(M, 1.1, 0.8, 1.5),
    stretch: percent(M, 0.5, 0, 1),
    shrinkage: percent(M, 1, 0, 2),
  }),
  woven('cap-unstructured', 'cap without buckram', {
    cap: true,
    ...membrane(M, [6, 3, 10], [4.5, 2, 8]),
    membraneShear: newtonPerMm(M, 0.11, 0.05, 0.2),
    poisson: plain(M, 0.15, 0.05, 0.3),
    ...bending(M, [25, 12, 45], [18, 10, 35]),
    mass: gramPerM2(M, 250, 200, 300),
    thickness: millimetre(M, 0.5, 0.4, 0.7),
    stretch: percent(M, 3, 1, 6),
    shrinkage: percent(M, 1.5, 0, 3),
  }),
  knit('leggings-knit', 'leggings and swim knit, nylon or polyester with spandex', {
    stretchy: true,
    elastic: true,
    ...membrane(KNIT, [0.25, 0.08, 0.8], [0.15, 0.08, 0.4]),
    membraneShear: newtonPerMm(WANG, 0.06, 0.03, 0.08),
    poisson: plain(STOCKINETTE, 0.42, 0.25, 0.6),
    ...bending(BEND, [8, 3, 60], [7, 3, 59]),
    mass: gramPerM2(WANG, 210, 180, 280),
    thickness: millimetre(M, 0.6, 0.5, 0.8),
    stretch: percent(M, 150, 80, 250),
    shrinkage: percent(WASHED, 1, 0.5, 2),
  }),
  knit('beanie-knit', 'ribbed acrylic knit (beanie)', {
    stretchy: true,
    open: true,
    ...membrane(STOCKINETTE, [0.66, 0.2, 0.84], [0.27, 0.09, 0.51]),
    membraneShear: newtonPerMm(WANG, 0.08, 0.04, 0.1),
    poisson: plain(STOCKINETTE, 0.5, 0.3, 0.6),
    ...bending(WANG, [46, 25, 98], [32, 15, 70]),
    mass: gramPerM2(M, 350, 250, 500),
    thickness: millimetre(M, 2.5, 1.5, 4),
    stretch: percent(M, 80, 40, 150),
    shrinkage: percent(M, 2, 0.5, 5),
  }),
  woven('softshell', 'softshell, woven face bonded to fleece', {
    stretchy: true,
    holesStay: true,
    ...membrane(M, [3, 1, 8], [1.5, 0.5, 4]),
    membraneShear: newtonPerMm(M, 0.3, 0.1, 0.8),
    poisson: plain(M, 0.25, 0.1, 0.4),
    ...bending(M, [60, 20, 150], [50, 18, 130]),
    mass: gramPerM2(M, 300, 240, 360),
    thickness: millimetre(M, 1.2, 0.8, 1.6),
    stretch: percent(M, 10, 3, 25),
    shrinkage: percent(WASHED, 1, 0.5, 1.5),
  }),
  woven('nylon-jacket', 'nylon jacket shell, coated', {
    holesStay: true,
    ...membrane(NYLON, [10, 4, 25], [8, 3, 25]),
    membraneShear: newtonPerMm(NYLON, 0.6, 0.1, 3),
    poisson: plain(PENAVA, 0.2, 0.05, 0.38),
    ...bending(NYLON, [9, 4, 18], [7, 3, 15]),
    mass: gramPerM2(M, 85, 60, 130),
    thickness: millimetre(M, 0.15, 0.1, 0.25),
    stretch: percent(M, 2, 0.5, 5),
    shrinkage: percent(M, 0.5, 0, 1.5),
  }),
  woven('leather', 'garment leather', {
    rigid: true,
    washable: false,
    holesStay: true,
    ...membrane(M, [12, 5, 40], [9, 4, 30]),
    membraneShear: newtonPerMm(M, 4, 1, 12),
    poisson: plain(M, 0.4, 0.25, 0.5),
    ...bending(M, [900, 250, 3000], [800, 220, 2700]),
    mass: gramPerM2(M, 650, 450, 900),
    thickness: millimetre(M, 0.9, 0.7, 1.2),
    stretch: percent(M, 1, 0, 5),
    shrinkage: percent(M, 1, 0, 3),
  }),
  woven('silk', 'silk, light and woven', {
    washable: false,
    ...membrane(M, [4, 1.5, 12], [3, 1, 9]),
    membraneShear: newtonPerMm(M, 0.03, 0.015, 0.06),
    poisson: plain(M, 0.15, 0.05, 0.3),
    ...bending(M, [2.5, 1, 5], [2, 0.8, 4]),
    mass: gramPerM2(M, 75, 45, 110),
    thickness: millimetre(M, 0.15, 0.1, 0.25),
    stretch: percent(M, 2, 0.5, 5),
    shrinkage: percent(M, 3, 1, 6),
  }),
];

export const FABRICS: Readonly<Record<string, Fabric>> = Object.fromEntries(list.map((f) => [f.id, f]));
