import { basename } from 'node:path';
import { toJson } from '../../lib/index.js';
import { advisePage, adviseToText } from '../../lib/report/index.js';
import { inLook, type PrintLook } from '../output.js';
import { type PlanSetup, toPlan } from '../to-plan.js';
import { pageNameOf } from './made-names.js';
import type { FileDone, Task } from './task.js';

export interface AdviseSetup extends PlanSetup {
  format: 'text' | 'json' | 'html';
  all: boolean;
  /** Each page is a file of its own. */
  pages: boolean;
  look: PrintLook;
}

/** Plans the sewing of one design. */
export async function adviseWork(setup: AdviseSetup): Promise<(task: Task) => Promise<FileDone>> {
  const { format, all, pages, look } = setup;
  const text = await inLook(look);
  const open = toPlan(setup);
  return async (task) => {
    const { shop, wish, path, facts, vetting } = await open(task.path);
    const report = shop.adviseReport(facts, shop.advise(vetting, wish), vetting.set);
    if (format === 'json') return { pieces: [toJson(report)], digest: null };
    if (format === 'text') return { pieces: [adviseToText(report, text, all)], digest: null };
    const page = advisePage(report, { title: basename(path), units: look.units });
    if (!pages) return { pieces: [page], digest: null };
    return { pieces: [], digest: null, made: { name: pageNameOf(path), content: page } };
  };
}
