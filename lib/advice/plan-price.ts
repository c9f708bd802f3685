import type { Cost, PlanPrice } from './plan.js';
import {
  laborMinutes,
  machineMinutes,
  pieceCost,
  ratesAreBuiltIn,
  runPrice,
  type ShopRates,
} from './price.js';

/** Pieces of one design, and what their price goes by. */
export interface AskedRun {
  readonly quantity: number;
  readonly rates: ShopRates;
}

/**
 * The price of a run of one plan.
 * @throws LieflatError `bad-profile` where labor has no price in the shop's currency
 */
export function planPrice({ total, parts }: Cost, { quantity, rates }: AskedRun): PlanPrice {
  const { work, pricing } = rates;
  const piece = pieceCost(total, rates);
  const { cost, price, prices, setupFee, digitizing, offPercent } = runPrice(
    [{ quantity, piece }],
    1,
    pricing,
  );
  return {
    quantity,
    each: prices[0],
    run: price,
    cost: { each: piece.each, run: cost },
    labor: piece.labor,
    setupFee,
    digitizing,
    marginPercent: pricing.marginPercent,
    offPercent,
    spoilagePercent: pricing.spoilagePercent,
    heads: work.heads,
    machineMinutes: machineMinutes(quantity, parts.machineMinutes, work),
    laborMinutes: laborMinutes(quantity, work),
    ratesAreBuiltIn: ratesAreBuiltIn(rates),
  };
}
