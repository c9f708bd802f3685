/**
 * Four questions that lead to a fabric of the catalogue, for whoever holds a garment and does not know its name. Which answers lead where is
 * common practice, no source.
 */
export const STRETCHES = ['none', 'some', 'double', 'several-times'] as const;
export const BODIES = ['thin', 'medium', 'thick'] as const;
export const SURFACES = ['plain', 'pile', 'open', 'see-through', 'coated'] as const;
export const CARES = ['washable', 'keep-dry'] as const;

/** What is said of a fabric by hand and eye. */
export interface FabricAnswers {
  /** How far it gives when it is pulled: not at all, a little, to twice its length, to several times its length. */
  readonly stretch: (typeof STRETCHES)[number];
  readonly body: (typeof BODIES)[number];
  /** Smooth, with loops or fur, with gaps in the knit or weave, thin enough to see through, leather or with a film on it. */
  readonly surface: (typeof SURFACES)[number];
  /** May be washed, or must not get wet. */
  readonly care: (typeof CARES)[number];
}

type Guess = Readonly<Record<FabricAnswers['body'], string>>;
const all = (id: string): Guess => ({ thin: id, medium: id, thick: id });

const COATED: Readonly<Record<FabricAnswers['stretch'], Guess>> = {
  none: { thin: 'nylon-jacket', medium: 'nylon-jacket', thick: 'leather' },
  some: { thin: 'nylon-jacket', medium: 'softshell', thick: 'softshell' },
  double: all('softshell'),
  'several-times': all('leggings-knit'),
};
const PLAIN: Readonly<Record<FabricAnswers['stretch'], Guess>> = {
  none: { thin: 'poplin', medium: 'twill', thick: 'canvas-tote' },
  some: { thin: 'jersey-tee', medium: 'jersey-knit', thick: 'fleece' },
  double: { thin: 'performance-knit', medium: 'stretch-scrub', thick: 'leggings-knit' },
  'several-times': { thin: 'performance-knit-thin', medium: 'leggings-knit', thick: 'leggings-knit' },
};
const OPEN: Readonly<Record<FabricAnswers['stretch'], Guess>> = {
  none: all('sheer-linen'),
  some: { thin: 'pique-knit', medium: 'pique-knit', thick: 'beanie-knit' },
  double: { thin: 'performance-knit', medium: 'beanie-knit', thick: 'beanie-knit' },
  'several-times': { thin: 'performance-knit-thin', medium: 'beanie-knit', thick: 'beanie-knit' },
};

/** The fabric id that the answers come nearest to. What must not get wet goes first: a wrong topping spoils it for good. */
export function fabricFor({ stretch, body, surface, care }: FabricAnswers): string {
  if (surface === 'coated') return care === 'keep-dry' ? 'leather' : COATED[stretch][body];
  if (care === 'keep-dry') return stretch === 'none' ? 'silk' : 'fine-sweater';
  if (surface === 'pile') return stretch === 'none' ? 'terry-towel' : 'fleece';
  if (surface === 'see-through') return stretch === 'none' ? 'sheer-linen' : PLAIN[stretch].thin;
  return (surface === 'open' ? OPEN : PLAIN)[stretch][body];
}

/** The questions in the order in which they are asked, each with its answers. */
export const FABRIC_QUESTIONS = { stretch: STRETCHES, body: BODIES, surface: SURFACES, care: CARES } as const;
export type FabricQuestion = keyof typeof FABRIC_QUESTIONS;

/** What most garments are; how far one stretches has to be said. */
const USUAL: Omit<FabricAnswers, 'stretch'> = { body: 'medium', surface: 'plain', care: 'washable' };

/**
 * Answers in any order, as `some, thin`: no answer belongs to two questions. What is left out is medium, plain and washable.
 *
 * @returns null where a word answers nothing, two answer one question, or none says how far it stretches
 */
export function answersIn(text: string): FabricAnswers | null {
  const said = new Map<string, string>();
  for (const word of text.split(/[\s,;]+/).filter((part) => part !== '')) {
    const question = (Object.keys(FABRIC_QUESTIONS) as FabricQuestion[]).find((one) =>
      (FABRIC_QUESTIONS[one] as readonly string[]).includes(word.toLowerCase()),
    );
    if (question === undefined || said.has(question)) return null;
    said.set(question, word.toLowerCase());
  }
  return said.has('stretch') ? ({ ...USUAL, ...Object.fromEntries(said) } as FabricAnswers) : null;
}
