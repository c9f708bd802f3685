import { COMMON_PRACTICE, FROM_MEMORY, type Sourced } from '../core/sourced.js';
import { inUnit, millimetre, percent } from './quantity.js';

export interface Thread {
  readonly id: string;
  readonly name: string;
  readonly weight: 40 | 60;
  readonly fibre: 'polyester' | 'rayon';
  /** Linear density, tex. */
  readonly count: Sourced;
  /** g/cm³. */
  readonly density: Sourced;
  /** Width of fabric that one thread hides, laid flat. */
  readonly cover: Sourced;
  /** Pull along the thread for a strain of one, N. */
  readonly axialStiffness: Sourced;
  /** % shorter after many launderings and dryings. */
  readonly shrinkage: Sourced;
}

const tex = inUnit('tex');
const gramPerCm3 = inUnit('g/cm³');
const newton = inUnit('N');
const COUNT = 'two-ply denier on the label, tex = denier/9';
const FIBRE = 'fibre density, handbook value, from memory';
const AXIAL =
  'filament 10.6 N/tex (polyester), 4.8 N/tex (viscose): Morton & Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, tables 13.1, 13.2; twist and texturing lower it: yarns of 2 to 6 N/tex from memory';

/** Pull along straight thread: of its filament's modulus a part is left in a twisted yarn. */
const stiffness = (countTex: number, filament: number) =>
  newton(AXIAL, 0.5 * filament * countTex, 0.2 * filament * countTex, filament * countTex);
const POLYESTER = 10.6;
const SHRINKS = 'set polyester thread below 1 % (second-hand); 0 to 3 % from memory';
const VISCOSE = 4.8;

const list: readonly Thread[] = [
  {
    id: 'polyester-40',
    name: 'polyester, 40 weight',
    weight: 40,
    fibre: 'polyester',
    count: tex(COUNT, 240 / 9, 24, 30),
    density: gramPerCm3(FIBRE, 1.38, 1.36, 1.4),
    cover: millimetre(COMMON_PRACTICE, 0.4, 0.36, 0.44),
    axialStiffness: stiffness(240 / 9, POLYESTER),
    shrinkage: percent(SHRINKS, 1, 0, 3),
  },
  {
    id: 'polyester-60',
    name: 'polyester, 60 weight',
    weight: 60,
    fibre: 'polyester',
    count: tex(COUNT, 150 / 9, 15, 19),
    density: gramPerCm3(FIBRE, 1.38, 1.36, 1.4),
    cover: millimetre(FROM_MEMORY, 0.3, 0.26, 0.34),
    axialStiffness: stiffness(150 / 9, POLYESTER),
    shrinkage: percent(SHRINKS, 1, 0, 3),
  },
  {
    id: 'rayon-40',
    name: 'rayon, 40 weight',
    weight: 40,
    fibre: 'rayon',
    count: tex(COUNT, 240 / 9, 24, 30),
    density: gramPerCm3(FIBRE, 1.52, 1.5, 1.54),
    cover: millimetre(COMMON_PRACTICE, 0.4, 0.36, 0.44),
    axialStiffness: stiffness(240 / 9, VISCOSE),
    shrinkage: percent(FROM_MEMORY, 0.5, 0, 2),
  },
  {
    id: 'rayon-60',
    name: 'rayon, 60 weight',
    weight: 60,
    fibre: 'rayon',
    count: tex(COUNT, 150 / 9, 15, 19),
    density: gramPerCm3(FIBRE, 1.52, 1.5, 1.54),
    cover: millimetre(FROM_MEMORY, 0.3, 0.26, 0.34),
    axialStiffness: stiffness(150 / 9, VISCOSE),
    shrinkage: percent(FROM_MEMORY, 0.5, 0, 2),
  },
];

export const THREADS: Readonly<Record<string, Thread>> = Object.fromEntries(list.map((t) => [t.id, t]));
