import {
  type Conditions,
  columnsReport,
  columnsToCsvRecords,
  columnsToText,
  foreseeColumns,
  readDesignFile,
  type Shop,
  toJson,
  vetDesign,
} from '../../lib/index.js';
import { budgetOf, type FileLimits } from '../budget.js';
import { factsOf } from '../facts.js';
import { inLook, type Look } from '../output.js';
import type { Done, Task } from './task.js';

export interface ColumnsSetup {
  shop: Shop;
  goods: Conditions | null;
  overMm: number | null;
  format: 'text' | 'json' | 'csv';
  look: Look;
  /** The largest file that is read, where a limit was given. */
  maxBytes: number | undefined;
  /** What the work on a file may take. */
  limits: FileLimits;
}

/** Reads one file and sets the list of its satin columns. */
export async function columnsWork({
  shop,
  goods,
  overMm,
  format,
  look,
  maxBytes,
  limits,
}: ColumnsSetup): Promise<(task: Task) => Promise<Done>> {
  const text = await inLook(look);
  const set = {
    text: (report: ReturnType<typeof columnsReport>) => columnsToText(report, text),
    json: toJson,
    csv: columnsToCsvRecords,
  }[format];
  return async ({ path }) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const vetting = vetDesign(file.design, { file: factsOf(file), shop, budget });
    const foreseen = goods && (await foreseeColumns(vetting, goods, shop));
    return { pieces: [set(columnsReport(vetting, overMm, foreseen))], digest: null };
  };
}
