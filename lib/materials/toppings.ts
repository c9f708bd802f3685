import { FROM_MEMORY, type Sourced } from '../core/sourced.js';
import { usdPerSheet } from './quantity.js';

/** A film laid over the fabric to keep stitches from sinking in. It is taken off again and carries no load. */
export interface Topping {
  readonly id: string;
  readonly name: string;
  readonly removedBy: 'water' | 'heat';
  readonly price: Sourced;
}

const list: readonly Topping[] = [
  {
    id: 'soluble-film',
    name: 'water-soluble film',
    removedBy: 'water',
    price: usdPerSheet(FROM_MEMORY, 0.08, 0.05, 0.12),
  },
  {
    id: 'heat-film',
    name: 'film removed by heat',
    removedBy: 'heat',
    price: usdPerSheet(FROM_MEMORY, 0.15, 0.1, 0.25),
  },
];

export const TOPPINGS: Readonly<Record<string, Topping>> = Object.fromEntries(list.map((t) => [t.id, t]));
