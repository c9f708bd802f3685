/** Four questions about a garment, in everyday words; each answer can be typed. */
import type { FABRIC_QUESTIONS, FabricQuestion } from '../../../materials/fabric-questions.js';
import type { Voice } from '../voice.js';

type AnswersOf<Q extends FabricQuestion> = Readonly<Record<(typeof FABRIC_QUESTIONS)[Q][number], string>>;

/** The question, in full and in a word, and each answer. */
export interface Question<Q extends FabricQuestion> {
  readonly ask: string;
  readonly short: string;
  readonly answers: AnswersOf<Q>;
}

const stretch: Question<'stretch'> = {
  ask: 'Pull it between your hands. How far does it stretch?',
  short: 'stretch',
  answers: {
    none: 'not at all: dress shirt, canvas, nylon',
    some: 'a little, and more one way: polo, T-shirt, sweatshirt',
    double: 'to about twice its length: performance shirt',
    'several-times': 'to several times its length: running shirt, leggings',
  },
};
const body: Question<'body'> = {
  ask: 'How thick is it?',
  short: 'thickness',
  answers: {
    thin: 'like a dress shirt or a T-shirt',
    medium: 'like a polo or work pants',
    thick: 'like a sweatshirt, a towel or a tote bag',
  },
};
const surface: Question<'surface'> = {
  ask: 'What is its surface like?',
  short: 'surface',
  answers: {
    plain: 'smooth and closed',
    pile: 'loops or fur: towel, fleece',
    open: 'gaps that stitches sink into: piqué, rib, sweater',
    'see-through': 'your hand shows through it',
    coated: 'leather, or a film on it: needle holes stay for good',
  },
};
const care: Question<'care'> = {
  ask: 'May it get wet?',
  short: 'care',
  answers: {
    washable: 'yes, it goes in the wash',
    'keep-dry': 'no: silk, cashmere, leather. Wash and steam would spoil it',
  },
};

export const questions = {
  each: { stretch, body, surface, care } satisfies { [Q in FabricQuestion]: Question<Q> },
  title: 'Which fabric is it? Four questions',
  answer: 'your answer',
  again: ({ answers }: { answers: readonly string[] }, _: Voice): string =>
    `Type a number from 1 to ${answers.length}, or ${answers.slice(0, -1).join(', ')} or ${answers.at(-1)}.`,
  /** How the answers are typed where nobody can be asked. */
  typed: 'Put your four answers behind ask= like this:',
  example: '--fabric ask=some,medium,plain,washable',
  /** `akin`: garments that share a word with it. */
  unknown: ({ typed, akin }: { typed: string; akin: readonly string[] }, _: Voice): string =>
    akin.length === 0
      ? `No fabric or garment is called ${typed}.`
      : `${typed}: that may be several garments (${akin.join(', ')}). Start again with one of them, or answer four questions.`,
  ledTo: ({ fabric, name }: { fabric: string; name: string }, _: Voice): string =>
    `taken as ${name}: your answers come nearest to it. Next time write --fabric ${fabric}`,
};
