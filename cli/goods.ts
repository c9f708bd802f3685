import type { GoodsRequest } from '../lib/index.js';
import { badArgument } from './bad-argument.js';
import type { Given } from './options.js';
import { value } from './options.js';

/** What a design is sewn on and what is done with it; all but the backing. */
const treatment = {
  fabric: value('<id> the fabric it is sewn on; lieflat catalog fabrics lists ids'),
  grain: value('<degrees> direction of its grain, 90 (upright) if not said'),
  'hoop-stretch': value('<percent> how far it is stretched in the hoop, 0 if not said'),
  'after-wash': value('<number> how often it is washed afterwards, 0 if not said'),
  thread: value('<id> polyester-40 if not said; lieflat catalog threads lists ids'),
};

const STACK = '<sheets> backing from the garment outward, as woven-polyester@0+cutaway-2.5oz, or none';

/** For commands that look at one backing. */
export const goods = { ...treatment, stack: value(STACK) };
export type Goods = Given<typeof goods>;

/** For commands that compare backings: `--stack` may be given again. */
export const goodsToCompare = {
  ...treatment,
  fabric: value('<id> the fabric it is sewn on; lieflat catalog fabrics lists ids', {
    demandOption:
      'pucker needs to know the fabric; write --fabric and an id, as pique-knit (lieflat catalog fabrics lists them)',
  }),
  stack: {
    type: 'string',
    array: true,
    nargs: 1,
    describe: `${STACK}; give it again to compare`,
  } as const,
};

/**
 * The goods that the options ask for, or null where no fabric is named.
 *
 * @throws LieflatError `bad-argument` for a number that is none, and for goods without a fabric
 */
export function goodsRequest(args: Omit<Goods, 'stack'>, stack: string | undefined): GoodsRequest | null {
  const { fabric, thread } = args;
  if (fabric === undefined) {
    const given = (['grain', 'hoop-stretch', 'after-wash', 'thread'] as const).find(
      (option) => args[option] !== undefined,
    );
    const alone = stack === undefined ? given : 'stack';
    if (alone !== undefined)
      throw badArgument(`--${alone} says nothing without a fabric`, 'write --fabric and an id beside it');
    return null;
  }
  return {
    fabric,
    stack,
    thread,
    grainDeg: numberOf('grain', args.grain, 'an angle in degrees, as 45'),
    hoopStretchPercent: numberOf(
      'hoop-stretch',
      args['hoop-stretch']?.replace(/\s*%$/, ''),
      'a percentage, as 5',
    ),
    washes: numberOf('after-wash', args['after-wash'], 'a count, as 3'),
  };
}

function numberOf(option: string, text: string | undefined, what: string): number | undefined {
  if (text === undefined) return undefined;
  const number = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(number)) throw badArgument(`--${option} cannot be ${text || 'empty'}`, `give ${what}`);
  return number;
}
