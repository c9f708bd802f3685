import type { AdviceWish } from '../lib/advice/index.js';
import { factsOf } from '../lib/index.js';
import { fullShop } from '../lib/pipeline.js';
import { noStitches } from './bad-argument.js';
import { goodsRequest, type NumberRange, numberOf, type SetupOptions } from './goods.js';
import type { Io } from './io.js';
import type { Everywhere, PlacementOptions } from './options.js';
import { openDesign, settingsOf } from './settings.js';

export interface PlanArgs extends Everywhere, PlacementOptions, Omit<SetupOptions, 'fabric'> {
  words: readonly string[];
  fabric: string;
  quantity?: string;
}

const QUANTITY: NumberRange = {
  takes: (count) => count >= 1 && count <= 1e6 && Number.isInteger(count),
  what: 'a whole number from 1 to 1000000, as 24',
};

/**
 * What commands that plan the sewing of a design start from: the shop, the design vetted, and what is asked for.
 * @throws LieflatError `undecodable` where the file holds no stitch; and what reading and looking up throw
 */
export async function toPlan(args: PlanArgs, io: Io) {
  const { shop: own, place, hoop } = await settingsOf(args, io);
  const shop = fullShop(own);
  // With a fabric there always is a request.
  const quantity = numberOf('quantity', args.quantity, QUANTITY);
  const wish: AdviceWish = {
    ...goodsRequest(args, args.stack)!,
    ...(hoop && { hoop }),
    ...(quantity !== undefined && { quantity }),
  };
  const { file, budget } = await openDesign(io, args.words[0]);
  const facts = factsOf(file);
  const vetting = shop.vet(file.design, { place, hoop, file: facts, budget });
  if (vetting.stitches.count === 0) throw noStitches(file.path);
  return { shop, place, wish, path: file.path, facts, vetting };
}
