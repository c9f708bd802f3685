/** What a thread is asked of the design of an order, and what it answers; plain data. */
import type { RankedPlan, RankedStacks } from '../../lib/advice/index.js';
import type { OrderLine, OrderSetup } from '../../lib/order/index.js';
import type { OfferedDesign, OrderFile } from '../../lib/pipeline.js';
import type { WorkedLine } from '../../lib/report/index.js';

/** What is asked of one design. */
export type OrderAsk =
  | { step: 'offer'; line: OrderLine }
  | { step: 'rank'; line: OrderLine; stack: string; ranked: RankedStacks }
  | {
      step: 'sew';
      line: OrderLine;
      /** How its design ranks, as far as that is known. */
      ranked: RankedStacks;
      setup: OrderSetup;
      names: { relaid: string; card: string; proof: string };
    };

export interface OrderAnswer {
  offered?: OfferedDesign;
  ranked?: readonly RankedPlan[];
  sewn?: { worked: WorkedLine; files: OrderFile[] };
}
