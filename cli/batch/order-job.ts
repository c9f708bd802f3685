/** The work on the designs of an order, a step at a time: first each is looked up, then ranked on the backings in question, then, once all share a setup, worked out on it. */

import type { RankedStacks } from '../../lib/advice/index.js';
import { type Budget, type HoopField, readDesignFile, type ShopFigures, shopOf } from '../../lib/index.js';
import { keptAnswers } from '../../lib/io/index.js';
import type { OrderLine } from '../../lib/order/index.js';
import {
  type FullShop,
  fullShop,
  type OpenLine,
  type OrderLook,
  offeredDesign,
  openLine,
  workedLine,
} from '../../lib/pipeline.js';
import { budgetOf, type FileBounds } from '../budget.js';
import type { OrderAnswer, OrderAsk } from './order-ask.js';
import type { FileDone, Task } from './task.js';

export interface OrderJobSetup extends OrderLook, FileBounds {
  figures: ShopFigures;
  /** For all designs; the smallest that holds each without it. */
  hoop: HoopField | undefined;
}

/** Designs that are kept worked out, and stitches in them: a name fills some ten megabytes, a jacket back some seventy. */
const MOST_KEPT = { designs: 16, stitches: 200_000 };

interface Kept {
  opened: OpenLine;
  /** Its time begins anew with every step. */
  renew(): void;
}

export async function orderWork(setup: OrderJobSetup): Promise<(task: Task) => Promise<FileDone>> {
  const shop = fullShop(shopOf(setup.figures, keptAnswers(setup.answers)));
  const { units, paper, language } = setup;
  // They are worked out in the order in which they are looked up: of more than can be kept, the first are of more use than the last. Of
  // the others the ranks are known.
  const kept = new Map<string, Kept>();
  const hasRoom = (stitches: number): boolean =>
    kept.size < MOST_KEPT.designs &&
    stitches + [...kept.values()].reduce((sum, { opened }) => sum + stitchesOf(opened), 0) <=
      MOST_KEPT.stitches;
  const open = async (path: string, line: OrderLine, ranked?: RankedStacks): Promise<OpenLine> => {
    const key = designKey(path, line);
    const known = kept.get(key);
    known?.renew();
    const one = known ?? (await openedNow(path, line, setup, shop, ranked));
    if (!known && hasRoom(stitchesOf(one.opened))) kept.set(key, one);
    // Two lines may be of one design.
    return { ...one.opened, line };
  };
  const answer = async (path: string, ask: OrderAsk): Promise<OrderAnswer> => {
    if (ask.step === 'offer') return { offered: offeredDesign(await open(path, ask.line)) };
    const opened = await open(path, ask.line, ask.ranked);
    if (ask.step === 'rank') return { ranked: opened.advice.ranked(ask.stack) };
    return { sewn: await workedLine(shop, opened, ask.setup, ask.names, { units, paper, language }) };
  };
  return async ({ path, order }) => ({ pieces: [], digest: null, order: await answer(path, order!) });
}

const stitchesOf = ({ vetting }: OpenLine): number => vetting.stitches.count;

/** What decides how a design ranks. */
export const designKey = (path: string, { garment, stack, place }: OrderLine): string =>
  JSON.stringify([path, garment, stack, place?.id ?? null]);

async function openedNow(
  path: string,
  line: OrderLine,
  { hoop, maxBytes, limits }: OrderJobSetup,
  shop: FullShop,
  ranked: RankedStacks | undefined,
): Promise<Kept> {
  let current = budgetOf(path, limits);
  const budget: Budget = {
    run: (work) => current.run(work),
    reserve: (bytes) => current.reserve(bytes),
  };
  const file = await readDesignFile(path, { maxBytes, budget });
  return {
    opened: openLine(shop, line, file, hoop, budget, ranked),
    renew: () => {
      current = budgetOf(path, limits);
    },
  };
}
