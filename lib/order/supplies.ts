/** What an order takes from the shelf: the sum of its lines, and spare pieces for those that spoil. */
import { type Pricing, piecesToHave } from '../advice/price.js';
import type { StackedSheet } from '../mechanics/layup.js';

/** What one piece of a line takes. */
export interface LineNeeds {
  readonly quantity: number;
  /** Pieces sewn before the run, on the same fabric. */
  readonly tests: number;
  readonly stack: readonly StackedSheet[];
  readonly topping: string | null;
  readonly needle: string;
  /** Of each sheet, as it is cut for the hoop, mm. */
  readonly cut: { readonly widthMm: number; readonly heightMm: number };
  /** By the name of the color; null where nobody has said. */
  readonly threads: readonly { readonly color: string | null; readonly lengthMm: number }[];
  readonly bobbinMm: number;
}

/** Pieces of one kind and size. */
export interface CutPieces {
  /** For the quantities ordered. */
  readonly pieces: number;
  /** To have beside them. */
  readonly spare: number;
  /** For the pieces that are sewn to try the setup before the run. */
  readonly forTests: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Of the pieces, those that are spare or for tests apart. */
  readonly areaM2: number;
}

export interface Supplies {
  readonly sheets: readonly (CutPieces & { readonly sheet: string })[];
  readonly toppings: readonly (CutPieces & { readonly topping: string })[];
  /** Top thread, mm; the color null for what nobody has named. */
  readonly threads: readonly { readonly color: string | null; readonly lengthMm: number }[];
  readonly bobbinMm: number;
  /** Ids. */
  readonly needles: readonly string[];
}

/** Of one kind and size, while lines are gone through. */
interface CutTally {
  readonly id: string;
  readonly pieces: number;
  /** Under which they lie. */
  readonly garments: number;
  /** The most under one of those. */
  readonly each: number;
  readonly forTests: number;
  readonly cut: LineNeeds['cut'];
}

/** Sheets and threads in the order in which the lines come to them. */
export function suppliesOf(lines: readonly LineNeeds[], pricing: Pricing): Supplies {
  const sheets = new Map<string, CutTally>();
  const toppings: typeof sheets = new Map();
  const threads = new Map<string | null, number>();
  const take = (
    shelf: typeof sheets,
    id: string,
    each: number,
    { quantity, tests, cut }: Pick<LineNeeds, 'quantity' | 'tests' | 'cut'>,
  ) => {
    const key = `${id} ${cut.widthMm} ${cut.heightMm}`;
    const before = shelf.get(key) ?? { pieces: 0, garments: 0, each: 0, forTests: 0 };
    shelf.set(key, {
      ...{ id, cut },
      pieces: before.pieces + quantity * each,
      garments: before.garments + quantity,
      each: Math.max(before.each, each),
      forTests: before.forTests + tests * each,
    });
  };
  for (const line of lines) {
    const { quantity, stack, topping, threads: own } = line;
    for (const sheet of new Set(stack.map((one) => one.sheet)))
      take(sheets, sheet, stack.filter((one) => one.sheet === sheet).length, line);
    if (topping !== null) take(toppings, topping, 1, line);
    for (const { color, lengthMm } of own)
      threads.set(color, (threads.get(color) ?? 0) + quantity * lengthMm);
  }
  const cutPieces = ({ pieces, garments, each, forTests, cut }: CutTally): CutPieces => ({
    pieces,
    // A garment that spoils takes all its sheets with it.
    spare: each * (piecesToHave(garments, pricing) - garments),
    forTests,
    ...cut,
    areaM2: (pieces * cut.widthMm * cut.heightMm) / 1e6,
  });
  return {
    sheets: [...sheets.values()].map((one) => ({ sheet: one.id, ...cutPieces(one) })),
    toppings: [...toppings.values()].map((one) => ({ topping: one.id, ...cutPieces(one) })),
    threads: [...threads].map(([color, lengthMm]) => ({ color, lengthMm })),
    bobbinMm: lines.reduce((sum, { quantity, bobbinMm }) => sum + quantity * bobbinMm, 0),
    needles: [...new Set(lines.map(({ needle }) => needle))],
  };
}
