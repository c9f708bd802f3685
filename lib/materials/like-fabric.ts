/**
 * A fabric told by another one and what hand and eye say of it, for a shop that has no figures of its own. Which values an answer moves
 * goes by mechanism; how far is our own assumption, so ranges grow with it.
 */
import type { Sourced } from '../core/sourced.js';
import type { Fabric } from './fabric.js';
import type { FabricAnswers } from './fabric-questions.js';

/** Another fabric, and the answers that differ from it. */
export interface LikeFabric extends Partial<FabricAnswers> {
  /** Id of a fabric, or the everyday name of a garment. */
  readonly like: string;
}

type StretchAnswer = FabricAnswers['stretch'];
type BodyAnswer = FabricAnswers['body'];

interface StretchClass {
  /** % longer before it resists: from where on a fabric belongs here. */
  readonly from: number;
  /** The same, what is typical and up to where, of what is woven and of what is knit. */
  readonly percent: ByStructure<readonly [typical: number, to: number]>;
  /** What resists a small pull, N/mm: beside the other classes, by the built-in fabrics of each. */
  readonly membrane: ByStructure<number>;
  readonly shear: number;
}

type ByStructure<T> = Readonly<Record<Fabric['structure'], T>>;

/** What gives farther before it resists is softer from the start: its yarn is crimped, looped or elastic. */
const STRETCH_CLASSES: Readonly<Record<StretchAnswer, StretchClass>> = {
  none: {
    ...{ from: 0, percent: { woven: [3, 5], knit: [5, 10] } },
    ...{ membrane: { woven: 6, knit: 2 }, shear: 0.1 },
  },
  some: {
    ...{ from: 6, percent: { woven: [12, 30], knit: [35, 60] } },
    ...{ membrane: { woven: 2.5, knit: 0.5 }, shear: 0.05 },
  },
  double: {
    ...{ from: 60, percent: { woven: [60, 100], knit: [100, 150] } },
    ...{ membrane: { woven: 0.8, knit: 0.35 }, shear: 0.04 },
  },
  'several-times': {
    ...{ from: 150, percent: { woven: [200, 400], knit: [300, 500] } },
    ...{ membrane: { woven: 0.15, knit: 0.12 }, shear: 0.03 },
  },
};
/** Weight of cloth, g/m²: from where on it belongs to a class, and what is typical there. */
const BODY_CLASSES: Readonly<Record<BodyAnswer, { readonly from: number; readonly typical: number }>> = {
  thin: { from: 0, typical: 120 },
  medium: { from: 155, typical: 200 },
  thick: { from: 255, typical: 330 },
};
/** A film on a cloth keeps its threads from turning on one another: coated nylon shears so many times harder than poplin. */
const COATED_SHEAR = 8;
/** A value that was moved by a rule of thumb may be off by so much again, either way. */
const DOUBT = 1.5;

const classOf = <C extends string>(value: number, from: readonly (readonly [C, number])[]): C =>
  from.reduce((found, [name, least]) => (value >= least ? name : found), from[0][0]);

/** The class that a fabric's stretch belongs to. */
const stretchOf = ({ stretch }: Fabric): StretchAnswer =>
  classOf(
    stretch.value,
    (Object.keys(STRETCH_CLASSES) as StretchAnswer[]).map((name) => [name, STRETCH_CLASSES[name].from]),
  );
const bodyOf = ({ mass }: Fabric): BodyAnswer =>
  classOf(
    mass.value,
    (Object.keys(BODY_CLASSES) as BodyAnswer[]).map((name) => [name, BODY_CLASSES[name].from]),
  );

type Values = Partial<{ -readonly [K in keyof Fabric]: Fabric[K] }>;

/**
 * That fabric under another name. An answer that is true of it already moves nothing.
 *
 * - stretch: how far it gives, what resists a pull and in shear, and the flags for what stretches, springs back or gives not at all
 * - body: weight, thickness and membrane by the yarn that there is, bending by its square (layers that slide on one another)
 * - surface: the flags for pile, gaps, what shows through and holes that stay; a film also keeps threads from shearing
 * - care: whether it may be washed
 */
export function fabricLike(base: Fabric, named: Pick<Fabric, 'id' | 'name'>, answers: LikeFabric): Fabric {
  const { stretch, body, surface, care } = answers;
  const basis = `like ${base.id}, but ${answersText(answers)}, as the shop's profile says; how far that moves it is our own assumption`;
  const times = (value: Sourced, factor: number): Sourced => ({
    ...value,
    value: rounded(value.value * factor),
    low: rounded((value.low * factor) / DOUBT),
    high: rounded(value.high * factor * DOUBT),
    basis,
  });
  const scaled = (of: Fabric, factors: Partial<Record<keyof Fabric, number>>): Values =>
    Object.fromEntries(
      Object.entries(factors).map(([key, factor]) => [
        key,
        times(of[key as keyof Fabric] as Sourced, factor),
      ]),
    );
  let made: Fabric = { ...base, ...named };
  if (stretch !== undefined && stretch !== stretchOf(base)) {
    const [from, to] = [STRETCH_CLASSES[stretchOf(base)], STRETCH_CLASSES[stretch]];
    const membrane = to.membrane[base.structure] / from.membrane[base.structure];
    const [value, high] = to.percent[base.structure];
    made = {
      ...made,
      ...scaled(made, {
        membraneAlong: membrane,
        membraneAcross: membrane,
        membraneShear: to.shear / from.shear,
      }),
      stretch: { ...made.stretch, value, low: to.from, high, basis },
      stretchy: stretch !== 'none',
      elastic: stretch === 'double' || stretch === 'several-times',
      rigid: made.rigid && stretch === 'none',
    };
  }
  if (body !== undefined && body !== bodyOf(base)) {
    const yarn = BODY_CLASSES[body].typical / base.mass.value;
    made = {
      ...made,
      ...scaled(made, {
        ...{ mass: yarn, thickness: yarn, membraneAlong: yarn, membraneAcross: yarn, membraneShear: yarn },
        ...{ bendingAlong: yarn ** 2, bendingAcross: yarn ** 2 },
      }),
    };
  }
  if (surface !== undefined) {
    const film = surface === 'coated' && !base.holesStay;
    made = {
      ...made,
      ...(film && scaled(made, { membraneShear: COATED_SHEAR })),
      pile: surface === 'pile',
      open: surface === 'open',
      sheer: surface === 'see-through',
      holesStay: surface === 'coated',
    };
  }
  return care === undefined ? made : { ...made, washable: care === 'washable' };
}

/** `stretch some, body thick`; nothing where it is like the other in all. */
export const answersText = ({ like: _, ...answers }: LikeFabric): string =>
  Object.entries(answers)
    .filter(([, answer]) => answer !== undefined)
    .map(([question, answer]) => `${question} ${answer}`)
    .join(', ');

/** As many digits as such a value means. */
const rounded = (value: number): number => Number(value.toPrecision(3));
