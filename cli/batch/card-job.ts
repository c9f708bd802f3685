import { basename } from 'node:path';
import type { Units } from '../../lib/index.js';
import { type CardJob, type CardLanguage, operatorCard, type PaperName } from '../../lib/report/index.js';
import { withUnderlay } from '../../lib/rework/index.js';
import { threadsFor } from '../threads.js';
import { type PlanSetup, toPlan } from '../to-plan.js';
import { pageNameOf } from './made-names.js';
import type { FileDone, Task } from './task.js';

export interface CardSetup extends PlanSetup {
  units: Units;
  paper: PaperName;
  language: CardLanguage;
  cost: boolean;
  /** The thread colors that were typed. */
  threads: string | undefined;
  job: CardJob;
  /** The page to write; null where it is called as its design. */
  out: string | null;
}

/** Makes the operator's page of one design. */
export async function cardWork(setup: CardSetup): Promise<(task: Task) => Promise<FileDone>> {
  const { figures, units, paper, language, cost, threads, job, out } = setup;
  const open = toPlan(setup);
  return async (task) => {
    const { shop, place, wish, path, facts, vetting } = await open(task.path);
    const advice = shop.advise(vetting, wish);
    const report = shop.adviseReport(facts, advice, vetting.set);
    const plan = report.recommended;
    const sewn = withUnderlay(vetting, new Map(plan.underlay.map(({ object, to }) => [object, to])));
    const washed = { ...advice.conditions, stack: plan.stack, washes: plan.riskWashed.washes };
    const page = await operatorCard(
      {
        ...vetting,
        advice: report,
        grainDeg: advice.conditions.grainDeg,
        hoop: advice.hoop,
        place,
        maps: shop.wrinkles({ ...sewn, hoop: advice.hoop ?? undefined, budget: vetting.budget }, washed),
        machine: shop.figures.machine,
        catalogue: shop.catalogue,
        threads: threadsFor(threads, figures, facts.sha256),
        job,
      },
      { title: basename(path), units, paper, language, cost },
    );
    return { pieces: [], digest: null, made: { name: out ?? pageNameOf(path), content: page } };
  };
}
