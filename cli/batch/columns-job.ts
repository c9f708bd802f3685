import { factsOf, readDesignFile, type ShopFigures, shopOf, toJson } from '../../lib/index.js';
import { keptAnswers } from '../../lib/io/index.js';
import type { Conditions } from '../../lib/mechanics/index.js';
import { columnsReport, columnsToCsvRecords, columnsToText } from '../../lib/report/index.js';
import { budgetOf, type FileBounds } from '../budget.js';
import { inLook, type PrintLook } from '../output.js';
import type { FileDone, Task } from './task.js';

export interface ColumnsSetup extends FileBounds {
  figures: ShopFigures;
  conditions: Conditions | null;
  overMm: number | null;
  format: 'text' | 'json' | 'csv';
  look: PrintLook;
}

/** Reads one file and sets the list of its satin columns. */
export async function columnsWork({
  figures,
  conditions,
  overMm,
  format,
  look,
  maxBytes,
  limits,
  answers,
}: ColumnsSetup): Promise<(task: Task) => Promise<FileDone>> {
  const text = await inLook(look);
  const shop = shopOf(figures, keptAnswers(answers));
  const columnsRisk = conditions && (await import('../../lib/pipeline.js')).fullShop(shop).columnsRisk;
  const set = {
    text: (report: ReturnType<typeof columnsReport>) => columnsToText(report, text),
    json: toJson,
    csv: columnsToCsvRecords,
  }[format];
  return async ({ path }) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const vetting = shop.vet(file.design, { file: factsOf(file), budget });
    const foreseen = conditions && columnsRisk ? columnsRisk(vetting, conditions) : null;
    return { pieces: [set(columnsReport(vetting, overMm, foreseen))], digest: null };
  };
}
