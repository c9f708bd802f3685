import type { ConditionsRequest } from '../../lib/mechanics/conditions.js';
import type { RiskedVetting } from '../../lib/pipeline.js';
import type { PuckerInput } from '../../lib/report/pucker/report.js';
import { SHOP } from '../built-in-shop.js';
import { littleCrest } from './little-design.js';

export const FILE = { path: 'crest.dst', format: 'dst', bytes: 1, sha256: '00'.repeat(32) } as const;
export const THIN = 'performance-knit-thin';

/** The little crest vetted on a fabric, advice and all. */
export async function crestOn(request: ConditionsRequest): Promise<RiskedVetting> {
  return SHOP.vetOn(littleCrest(), { file: FILE }, SHOP.conditions(request));
}

/** The little crest vetted, and its risk on a fabric: what a report of that risk is made of. */
export async function puckerInput(request: ConditionsRequest): Promise<PuckerInput & RiskedVetting> {
  const vetting = SHOP.vet(littleCrest(), { file: FILE });
  const conditions = SHOP.conditions(request);
  const [risk] = SHOP.risks(vetting, [conditions]);
  const { catalogue, parameters } = SHOP;
  return { ...vetting, file: FILE, conditions, risk, catalogue, parameters };
}
