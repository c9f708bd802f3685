/** What a thread is asked of the design of an order, and what it answers; plain data. */
import type { OrderLine, OrderSetup } from '../../lib/order/index.js';
import type { OrderFile, RankedDesign } from '../../lib/pipeline.js';
import type { WorkedLine } from '../../lib/report/index.js';

/** What is asked of one design. */
export type OrderAsk =
  | { step: 'rank'; line: OrderLine }
  | {
      step: 'sew';
      line: OrderLine;
      /** How its design ranks. */
      ranked: RankedDesign['ranked'];
      setup: OrderSetup;
      names: { relaid: string; card: string; proof: string };
    };

export interface OrderAnswer {
  ranked?: RankedDesign;
  sewn?: { worked: WorkedLine; files: OrderFile[] };
}
