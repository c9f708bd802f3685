import {
  type Conditions,
  csvPieces,
  digestOf,
  jsonPieces,
  readDesignFile,
  toText,
  type VetReportInParts,
  type Vetting,
  vetDesign,
  vetOnGoods,
  vetReportInParts,
  vetSection,
} from '../../lib/index.js';
import { budgetOf, type FileLimits } from '../budget.js';
import { factsOf } from '../facts.js';
import { inLook, type Look } from '../output.js';
import type { Settings } from '../settings.js';
import { markOf } from './mark.js';
import type { Done, Task } from './task.js';

export interface VetSetup {
  settings: Settings;
  goods: Conditions | null;
  format: 'text' | 'json' | 'jsonl' | 'csv' | 'html';
  objects: boolean;
  look: Look;
  /** What `settings` of a report in JSON says of a design without objects that the shop has set right. */
  mark: string;
  /** The largest file that is read, where a limit was given. */
  maxBytes: number | undefined;
  /** What the work on a file may take. */
  limits: FileLimits;
}

/** Reads, vets and sets one file. */
export async function vetWork({
  settings,
  goods,
  format,
  objects,
  look,
  mark,
  maxBytes,
  limits,
}: VetSetup): Promise<(task: Task) => Promise<Done>> {
  const text = await inLook(look);
  const set = async (vetting: Vetting, inParts: VetReportInParts, number: number) => {
    switch (format) {
      case 'text':
        return { pieces: [toText(vetting.report, text, objects)] };
      case 'json':
      case 'jsonl':
        return {
          pieces: jsonPieces(
            { ...inParts, settings: markOf(mark, settings.shop, inParts.file.sha256) },
            format === 'json' ? 2 : 0,
          ),
        };
      case 'csv':
        return { pieces: csvPieces(inParts) };
      case 'html': {
        const { markup, entry } = await vetSection(vetting, number, look);
        return { pieces: [markup], entry };
      }
    }
  };
  return async ({ path, number }) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const asked = { ...settings, file: factsOf(file), budget };
    const vetting = goods ? await vetOnGoods(file.design, asked, goods) : vetDesign(file.design, asked);
    const { designMeasures, measures, findings } = vetting;
    const inParts = goods
      ? vetting.report
      : vetReportInParts(asked.file, designMeasures, measures, findings, vetting.set);
    return { ...(await set(vetting, inParts, number)), digest: digestOf(inParts) };
  };
}
