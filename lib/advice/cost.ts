/** What one piece costs. */
import type { HoopField } from '../materials/places.js';
import { type Prices, priceOf } from '../materials/prices.js';
import type { DesignMeasures } from '../measure/measures.js';
import type { StackedSheet } from '../mechanics/layup.js';
import type { Cost } from './plan.js';

/** A sheet reaches this far past the sewing field on every side, so that the hoop holds it, mm (from memory). */
const HELD_MM = 50;
/** Field of the hoop that a price is for: that of a left chest, mm (common practice, no source). */
const PRICED_FIELD_MM = 100;

export interface CostInput {
  readonly stack: readonly StackedSheet[];
  readonly topping: string | null;
  /** Null where no hoop holds the design: the piece is cut to the design. */
  readonly hoop: HoopField | null;
  readonly design: Pick<DesignMeasures, 'widthMm' | 'heightMm'>;
  readonly threadMm: number;
  readonly bobbinMm: number;
  readonly sewSeconds: number;
  readonly prices: Prices;
}

/**
 * Money for one piece: each sheet and the topping at the price of its area, both threads by length, the machine by time. What is cut away is paid
 * for; labour apart from the machine's hour is not reckoned.
 * @throws LieflatError `bad-profile` where a sheet or the topping has no price
 */
export function costOf(input: CostInput): Cost {
  const { stack, topping, prices, threadMm, bobbinMm, sewSeconds } = input;
  const pieces = piecesOf(input);
  const sheets = pieces * stack.reduce((sum, { sheet }) => sum + priceOf(prices, 'sheets', sheet), 0);
  const over = topping === null ? 0 : pieces * priceOf(prices, 'toppings', topping);
  const topThread = (threadMm / 1e6) * prices.threadPer1000m;
  const bobbin = (bobbinMm / 1e6) * prices.bobbinPer1000m;
  const machine = (sewSeconds / 3600) * prices.machinePerHour;
  const backing = sheets + over;
  const thread = topThread + bobbin;
  return {
    total: backing + thread + machine,
    backing,
    thread,
    machine,
    currency: prices.currency,
    parts: { sheets, topping: over, topThread, bobbin, machineMinutes: sewSeconds / 60 },
  };
}

/** Size of the piece that is cut of each sheet, mm. */
export function cutSize({ hoop, design }: Pick<CostInput, 'hoop' | 'design'>): {
  readonly widthMm: number;
  readonly heightMm: number;
} {
  const width = hoop ? hoop.widthMm.value : design.widthMm;
  const height = hoop ? hoop.heightMm.value : design.heightMm;
  return { widthMm: width + 2 * HELD_MM, heightMm: height + 2 * HELD_MM };
}

/** Area of the piece that is cut, over that of the piece that a price is for. Sheets come cut for a left chest: a smaller hoop takes a whole one. */
function piecesOf(input: Pick<CostInput, 'hoop' | 'design'>): number {
  const { widthMm, heightMm } = cutSize(input);
  return Math.max(1, (widthMm * heightMm) / (PRICED_FIELD_MM + 2 * HELD_MM) ** 2);
}
