/** What a run of pieces costs the shop, what it is charged, and the hours that it takes. `cost.ts` has the piece at the machine. */
import { LieflatError } from '../core/errors.js';
import type { Sourced } from '../core/sourced.js';
import type { Prices } from '../materials/prices.js';

/** The people and the heads of a shop. */
export interface ShopWork {
  /** Heads that sew the same design side by side. */
  readonly heads: number;
  /** Null where the shop's prices are in a currency of its own and it has not said. */
  readonly laborPerHour: number | null;
  /** Minutes a piece. */
  readonly hoopingMinutes: number;
  /** Minutes a piece: thread ends, backing, topping. */
  readonly trimmingMinutes: number;
}

/** How a shop makes a price of what a run costs. */
export interface Pricing {
  /** Charged once a job, as it is: no margin on it, nothing off. */
  readonly setupFee: number;
  /** The same for each design that has to be digitized. */
  readonly digitizing: number;
  /** Part of the price of a piece that is left over its cost. */
  readonly marginPercent: number;
  /** Pieces that spoil, of those ordered. */
  readonly spoilagePercent: number;
  readonly quantityBreaks: readonly QuantityBreak[];
  /** No piece is charged less, whatever it costs and however many there are. */
  readonly leastEach: number;
}

/** From so many pieces of a job on so much is taken off the price of each. */
export interface QuantityBreak {
  readonly from: number;
  readonly offPercent: number;
}

/** What a price goes by. */
export interface ShopRates {
  readonly work: ShopWork;
  readonly pricing: Pricing;
  /** ISO 4217. */
  readonly currency: string;
}

export const ratesOf = (shop: {
  readonly work: ShopWork;
  readonly pricing: Pricing;
  readonly prices: Pick<Prices, 'currency'>;
}): ShopRates => ({ work: shop.work, pricing: shop.pricing, currency: shop.prices.currency });

const ours = (value: number, low: number, high: number, unit: string): Sourced => ({
  value,
  low,
  high,
  unit,
  basis: 'our own assumption',
});

/** Figures of a shop that has said nothing. */
export const USUAL_RATES = {
  laborPerHour: ours(18, 14, 28, 'USD/h'),
  hoopingMinutes: ours(1.5, 0.5, 3, 'min'),
  trimmingMinutes: ours(1, 0.5, 2, 'min'),
  marginPercent: ours(40, 25, 60, '%'),
  spoilagePercent: ours(2, 1, 5, '%'),
} as const;

export const USUAL_WORK: ShopWork = {
  heads: 1,
  laborPerHour: USUAL_RATES.laborPerHour.value,
  hoopingMinutes: USUAL_RATES.hoopingMinutes.value,
  trimmingMinutes: USUAL_RATES.trimmingMinutes.value,
};

/** Digitizing is bought outside, and breaks and fees are each shop's own. */
export const USUAL_PRICING: Pricing = {
  setupFee: 0,
  digitizing: 0,
  marginPercent: USUAL_RATES.marginPercent.value,
  spoilagePercent: USUAL_RATES.spoilagePercent.value,
  quantityBreaks: [],
  leastEach: 0,
};

/** Whether labor and price go by the built-in figures alone, whatever a shop says of its heads and minutes: a figure that it repeats is none of its own. */
export const ratesAreBuiltIn = ({ work, pricing }: Pick<ShopRates, 'work' | 'pricing'>): boolean =>
  work.laborPerHour === USUAL_WORK.laborPerHour &&
  pricing.quantityBreaks.length === 0 &&
  (['setupFee', 'digitizing', 'marginPercent', 'leastEach'] as const).every(
    (key) => pricing[key] === USUAL_PRICING[key],
  );

/** What one good piece costs, with its part of those that spoil; each amount to the cent. */
export interface PieceCost {
  /** Backing, thread and machine. */
  readonly sewing: number;
  /** Hooping and trimming. */
  readonly labor: number;
  /** The sum of both. */
  readonly each: number;
}

/**
 * Cents are rounded here, once: all that is reckoned with a piece adds up as it is printed.
 *
 * @param sewing backing, thread and machine of a piece: the total of its `Cost`
 * @throws LieflatError `bad-profile` where labor has no price in the shop's currency
 */
export function pieceCost(sewing: number, { work, pricing, currency }: ShopRates): PieceCost {
  if (work.laborPerHour === null)
    throw new LieflatError({
      code: 'bad-profile',
      place: 'work.laborPerHour',
      what: 'is missing, and the price needs it',
      todo: `give the price of an hour of labor in ${currency}`,
    });
  const each = sewing + (laborMinutes(1, work) / 60) * work.laborPerHour;
  const cents = {
    sewing: toCents(withSpoilage(sewing, pricing)),
    each: toCents(withSpoilage(each, pricing)),
  };
  return { ...cents, labor: toCents(cents.each - cents.sewing) };
}

/** Pieces, or what they take, with those that spoil: a part of a piece where it is one. */
export const withSpoilage = (amount: number, { spoilagePercent }: Pricing): number =>
  amount * (1 + spoilagePercent / 100);

/** Whole pieces to have at hand for a quantity. */
export const piecesToHave = (quantity: number, pricing: Pricing): number =>
  Math.ceil(withSpoilage(quantity, pricing) - 1e-9);

/** Minutes that people hoop and trim. */
export const laborMinutes = (quantity: number, { hoopingMinutes, trimmingMinutes }: ShopWork): number =>
  quantity * (hoopingMinutes + trimmingMinutes);

/** Minutes that the machine sews: all heads one piece each, as often as it takes; the next pieces are hooped meanwhile. */
export const machineMinutes = (quantity: number, sewMinutes: number, { heads }: ShopWork): number =>
  Math.ceil(quantity / heads) * sewMinutes;

/** Taken off the price of a piece in a job of so many: that of the largest break which it reaches. */
export function offPercent(quantity: number, { quantityBreaks }: Pricing): number {
  const reached = quantityBreaks.filter(({ from }) => from <= quantity);
  return reached.reduce((best, one) => (one.from > best.from ? one : best), { from: 0, offPercent: 0 })
    .offPercent;
}

/** Price of a piece in a job of so many, to the cent. */
export function piecePrice({ each }: PieceCost, ofJob: number, pricing: Pricing): number {
  const full = each / (1 - pricing.marginPercent / 100);
  return toCents(Math.max(pricing.leastEach, full * (1 - offPercent(ofJob, pricing) / 100)));
}

/** Some pieces of a job that cost the same. */
export interface RunLine {
  readonly quantity: number;
  readonly piece: PieceCost;
}

/** A job: what it costs, and what it is charged. */
export interface RunPrice {
  readonly quantity: number;
  /** Charged once. */
  readonly setupFee: number;
  readonly digitizing: number;
  readonly offPercent: number;
  /** Of all pieces. What is charged once is no cost: what a shop pays for it, if anything, is not known. */
  readonly cost: number;
  readonly price: number;
  /** Of a piece, line by line. */
  readonly prices: readonly number[];
}

/**
 * Cost and price of a job, the sum of its pieces to the cent. Setup fee and digitizing are charged on top, as they are; a break counts by the pieces of the whole job.
 * @param designs how many are digitized for it
 */
export function runPrice(lines: readonly RunLine[], designs: number, pricing: Pricing): RunPrice {
  const quantity = lines.reduce((sum, line) => sum + line.quantity, 0);
  const prices = lines.map(({ piece }) => piecePrice(piece, quantity, pricing));
  const { setupFee } = pricing;
  const digitizing = designs * pricing.digitizing;
  const sum = (amounts: readonly number[]): number =>
    lines.reduce((all, line, k) => all + line.quantity * amounts[k], 0);
  return {
    quantity,
    setupFee,
    digitizing,
    offPercent: offPercent(quantity, pricing),
    cost: toCents(sum(lines.map(({ piece }) => piece.each))),
    price: toCents(sum(prices) + setupFee + digitizing),
    prices,
  };
}

/** Half a cent goes up; the last digits of a double do not decide. */
const toCents = (amount: number): number => Math.round(amount * 100 + 1e-7) / 100;
