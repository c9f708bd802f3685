import type { GoodsRequest } from '../../lib/mechanics/conditions.js';
import { goodsOf, type RiskedVetting, vetOnGoods } from '../../lib/pipeline.js';
import type { PuckerInput } from '../../lib/report/pucker-report.js';
import { littleCrest } from './little-design.js';

export const FILE = { path: 'crest.dst', format: 'dst', bytes: 1, sha256: '00'.repeat(32) } as const;
export const THIN = 'performance-knit-thin';

/** The little crest vetted on some goods. */
export async function crestOn(request: GoodsRequest): Promise<RiskedVetting> {
  return vetOnGoods(littleCrest(), { file: FILE }, await goodsOf(request));
}

/** What a report of that risk is made of. */
export async function puckerInput(request: GoodsRequest): Promise<PuckerInput> {
  return { file: FILE, ...(await crestOn(request)) };
}
