/** What things cost; a shop puts its own prices and its own currency in its profile. */
import { LieflatError } from '../core/errors.js';
import { FROM_MEMORY, type Sourced } from '../core/sourced.js';
import type { Catalogue } from './catalogue.js';

/** Currency of the prices in the catalogue, ISO 4217. */
export const CATALOGUE_CURRENCY = 'USD';

/** Prices of one shop, all in one currency. What has no price is not offered. */
export interface Prices {
  /** ISO 4217. */
  readonly currency: string;
  /** By id, for a piece that fits a left-chest hoop. */
  readonly sheets: Readonly<Record<string, number>>;
  readonly toppings: Readonly<Record<string, number>>;
  readonly threadPer1000m: number;
  readonly bobbinPer1000m: number;
  /** One head. */
  readonly machinePerHour: number;
}

const usd = (unit: string, value: number, low: number, high: number): Sourced => ({
  value,
  low,
  high,
  unit: `${CATALOGUE_CURRENCY}/${unit}`,
  basis: FROM_MEMORY,
});

/** Thread and machine; sheets and toppings have their prices in the catalogue. */
export const USUAL_PRICES = {
  threadPer1000m: usd('1000 m', 1.5, 1, 2.5),
  bobbinPer1000m: usd('1000 m', 2, 1, 3),
  machinePerHour: usd('h', 12, 6, 25),
} as const;

/** A shop that has said nothing of prices. */
export const CATALOGUE_PRICES: Prices = {
  currency: CATALOGUE_CURRENCY,
  sheets: {},
  toppings: {},
  threadPer1000m: USUAL_PRICES.threadPer1000m.value,
  bobbinPer1000m: USUAL_PRICES.bobbinPer1000m.value,
  machinePerHour: USUAL_PRICES.machinePerHour.value,
};

/** The shop's prices, with those of the catalogue for what it left out where the currency is the same: two currencies never mix. */
export function withCataloguePrices(own: Prices, { sheets, toppings }: Catalogue): Prices {
  if (own.currency !== CATALOGUE_CURRENCY) return own;
  const listed = (shelf: Readonly<Record<string, { price: Sourced }>>) =>
    Object.fromEntries(Object.entries(shelf).map(([id, { price }]) => [id, price.value]));
  return {
    ...own,
    sheets: { ...listed(sheets), ...own.sheets },
    toppings: { ...listed(toppings), ...own.toppings },
  };
}

/**
 * The price of a sheet or topping.
 * @throws LieflatError `bad-profile`, naming the key, where the shop has none: a sum without it would be no cost
 */
export function priceOf(prices: Prices, shelf: 'sheets' | 'toppings', id: string): number {
  if (Object.hasOwn(prices[shelf], id)) return prices[shelf][id];
  throw new LieflatError({
    code: 'bad-profile',
    place: `prices.${shelf}.${id}`,
    what: 'is missing, and the plan needs it',
    todo: `give the price of a piece for a left-chest hoop in ${prices.currency}`,
  });
}
