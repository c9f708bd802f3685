import {
  type Conditions,
  digestOf,
  readDesignFile,
  toCsvRecords,
  toJson,
  toJsonLine,
  toText,
  type Vetting,
  vetDesign,
  vetOnGoods,
  vetSection,
} from '../../lib/index.js';
import { budgetOf, type FileLimits } from '../budget.js';
import { factsOf } from '../facts.js';
import { inLook, type Look } from '../output.js';
import type { Settings } from '../settings.js';
import type { Done, Task } from './task.js';

export interface VetSetup {
  settings: Settings;
  goods: Conditions | null;
  format: 'text' | 'json' | 'jsonl' | 'csv' | 'html';
  objects: boolean;
  look: Look;
  /** What `settings` of a report in JSON says. */
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
  const set = async ({ report, stitches }: Vetting, number: number): Promise<Omit<Done, 'digest'>> => {
    switch (format) {
      case 'text':
        return { piece: toText(report, text, objects) };
      case 'json':
        return { piece: toJson({ ...report, settings: mark }) };
      case 'jsonl':
        return { piece: toJsonLine({ ...report, settings: mark }) };
      case 'csv':
        return { piece: toCsvRecords(report) };
      case 'html': {
        const { markup, entry } = await vetSection({ report, stitches }, number, look);
        return { piece: markup, entry };
      }
    }
  };
  return async ({ path, number }) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const asked = { ...settings, file: factsOf(file), budget };
    const vetting = goods ? await vetOnGoods(file.design, asked, goods) : vetDesign(file.design, asked);
    return { ...(await set(vetting, number)), digest: digestOf(vetting.report) };
  };
}
