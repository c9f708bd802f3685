import type { AdviceWish } from '../lib/advice/index.js';
import { factsOf, readDesignFile, type ShopFigures, shopOf } from '../lib/index.js';
import { keptAnswers } from '../lib/io/index.js';
import { fullShop } from '../lib/pipeline.js';
import { noStitches } from './bad-argument.js';
import { boundsOf, budgetOf, type FileBounds } from './budget.js';
import type { Io } from './io.js';
import type { Everywhere, PlacementOptions } from './options.js';
import { settingsOf, type VettingFor } from './settings.js';
import { conditionsRequest, type NumberRange, numberOf, type SetupOptions } from './setup-options.js';

export interface PlanArgs extends Everywhere, PlacementOptions, Omit<SetupOptions, 'fabric'> {
  words: readonly string[];
  fabric: string;
  quantity?: string;
}

export const QUANTITY: NumberRange = {
  takes: (count) => count >= 1 && count <= 1e6 && Number.isInteger(count),
  what: 'a whole number from 1 to 1000000, as 24',
};

/** What planning the sewing of any design starts from; plain data, for a thread. */
export interface PlanSetup extends FileBounds {
  figures: ShopFigures;
  fit: Omit<VettingFor, 'shop'>;
  wish: AdviceWish;
}

/** @throws LieflatError `bad-argument`, `unknown-id`, and what reading the profile throws */
export async function planSetup(args: PlanArgs, io: Io): Promise<PlanSetup> {
  const { shop, ...fit } = await settingsOf(args, io);
  const quantity = numberOf('quantity', args.quantity, QUANTITY);
  const wish: AdviceWish = {
    // With a fabric there always is a request.
    ...conditionsRequest(args, args.stack)!,
    ...(fit.hoop && { hoop: fit.hoop }),
    ...(quantity !== undefined && { quantity }),
  };
  // An unknown fabric is said once, and before any design is read.
  fullShop(shop).conditions(wish);
  return { figures: shop.figures, fit, wish, ...boundsOf(io) };
}

/**
 * What commands that plan the sewing of a design start from, file by file: the shop, the design vetted, and what is asked for.
 * @throws LieflatError `undecodable` where the file holds no stitch; and what reading throws
 */
export function toPlan({ figures, fit, wish, maxBytes, limits, answers }: PlanSetup) {
  const shop = fullShop(shopOf(figures, keptAnswers(answers)));
  return async (path: string) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const facts = factsOf(file);
    const vetting = shop.vet(file.design, { ...fit, file: facts, budget });
    if (vetting.stitches.count === 0) throw noStitches(file.path);
    return { shop, place: fit.place, wish, path: file.path, facts, vetting };
  };
}
