import type { Shop } from '../lib/index.js';
import type { Conditions, ConditionsRequest } from '../lib/mechanics/index.js';
import { badArgument } from './bad-argument.js';
import type { Given } from './options.js';
import { value, values } from './options.js';

const FABRIC =
  '<name> the garment, as polo or hoodie, or a fabric of lieflat catalog fabrics; ask asks you four questions';

/** What a design is sewn on and what is done with it; all but the backing. */
const treatment = {
  fabric: value(FABRIC),
  grain: value('<degrees> direction of its grain; default 90 (upright)'),
  'hoop-stretch': value('<percent> how far it is stretched in the hoop; default 0'),
  'after-wash': value('<number> how often it is washed afterward; default 0'),
  thread: value('<id> the thread it is sewn with; default polyester-40; lieflat catalog threads lists ids'),
};

const STACK =
  '<sheets> backing from the garment outward, as woven-polyester@0+cutaway-2.5oz, or none; 6 at most';

/** For commands that look at one backing. */
export const setup = { ...treatment, stack: value(STACK) };
export type SetupOptions = Given<typeof setup>;

/** For lines of an order that name no garment. */
export const orderFabric = value(`${FABRIC}; for files without a table, and lines without a garment`);

const demanded = (command: string) =>
  value(FABRIC, {
    required: [
      `${command} needs a fabric`,
      'write --fabric and the garment, as polo or hoodie, or --fabric ask',
    ],
  });

/** For commands that compare backings: `--stack` may be given again. */
export const setupsToCompare = {
  ...treatment,
  fabric: demanded('pucker'),
  stack: values(`${STACK}; give it again to compare`),
};

/** For commands that look for a plan, or at the one backing that is given. */
export const setupToPlan = (command: string) => ({
  ...treatment,
  fabric: demanded(command),
  'after-wash': value("<number> how often it is washed; default: the shop's own figure, or 8"),
  stack: value(`${STACK}; plan with this one only`),
});

/**
 * The conditions that the options ask for, or null where no fabric is named.
 *
 * @throws LieflatError `bad-argument` for a number that is none, and for conditions without a fabric
 */
export function conditionsRequest(
  args: Omit<SetupOptions, 'stack'>,
  stack: string | undefined,
): ConditionsRequest | null {
  const { fabric, thread } = args;
  if (fabric === undefined) {
    const given = (['grain', 'hoop-stretch', 'after-wash', 'thread'] as const).find(
      (option) => args[option] !== undefined,
    );
    const alone = stack === undefined ? given : 'stack';
    if (alone !== undefined) throw badArgument(`--${alone} needs a fabric`, 'add --fabric and an id');
    return null;
  }
  return {
    fabric,
    stack,
    thread,
    grainDeg: numberOf('grain', args.grain, GRAIN),
    hoopStretchPercent: numberOf('hoop-stretch', args['hoop-stretch']?.replace(/\s*%$/, ''), HOOP_STRETCH),
    washes: numberOf('after-wash', args['after-wash'], WASHES),
  };
}

/** Those conditions looked up; materials and mechanics are loaded only where a fabric is asked for. */
export const conditionsFor = async (shop: Shop, request: ConditionsRequest): Promise<Conditions> =>
  (await import('../lib/pipeline.js')).fullShop(shop).conditions(request);

/** What numbers an option takes, and how that is said. */
export interface NumberRange {
  takes: (number: number) => boolean;
  what: string;
}

const GRAIN: NumberRange = {
  takes: (degrees) => degrees >= -180 && degrees <= 180,
  what: 'degrees from -180 to 180, as 45',
};
const HOOP_STRETCH: NumberRange = {
  takes: (percent) => percent >= 0 && percent <= 50,
  what: 'a percentage from 0 to 50, as 5',
};
const WASHES: NumberRange = {
  takes: (count) => count >= 0 && Number.isInteger(count),
  what: 'a whole number from 0, as 3',
};

/**
 * The number that an option gives; undefined where it is not there.
 *
 * @throws LieflatError `bad-argument`
 */
export function numberOf(
  option: string,
  text: string | undefined,
  { takes, what }: NumberRange,
): number | undefined {
  if (text === undefined) return undefined;
  const number = text.trim() === '' ? Number.NaN : Number(text);
  if (!(Number.isFinite(number) && takes(number)))
    throw badArgument(`--${option} cannot be ${text || 'empty'}`, `give ${what}`);
  return number;
}
