import type { ConditionsRequest } from '../../lib/mechanics/conditions.js';
import type { RiskedVetting } from '../../lib/pipeline.js';
import type { PuckerInput } from '../../lib/report/pucker/report.js';
import { SHOP } from '../built-in-shop.js';
import { coarsely } from '../mechanics/coarse-mesh.js';
import { littleCrest } from './little-design.js';

export const FILE = { path: 'crest.dst', format: 'dst', bytes: 1, sha256: '00'.repeat(32) } as const;
export const THIN = 'performance-knit-thin';

/** What was worked out once, by what was asked for: several files of tests ask for the same. */
function once<T>(work: (request: ConditionsRequest) => T): (request: ConditionsRequest) => Promise<T> {
  const known = new Map<string, T>();
  return async (request) => {
    const key = JSON.stringify(request);
    const made = known.get(key) ?? coarsely(() => work(request), 1.5);
    known.set(key, made);
    return made;
  };
}

/** The little crest vetted on a fabric, advice and all. */
export const crestOn = once(
  (request): RiskedVetting => SHOP.vetOn(littleCrest(), { file: FILE }, SHOP.conditions(request)),
);

/** The little crest vetted, and its risk on a fabric: what a report of that risk is made of. */
export const puckerInput = once((request): PuckerInput & RiskedVetting => {
  const vetting = SHOP.vet(littleCrest(), { file: FILE });
  const conditions = SHOP.conditions(request);
  const [risk] = SHOP.risks(vetting, [conditions]);
  const { catalogue, parameters } = SHOP;
  return { ...vetting, file: FILE, conditions, risk, catalogue, parameters };
});
