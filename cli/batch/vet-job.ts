import {
  csvPieces,
  digestOf,
  factsOf,
  jsonPieces,
  readDesignFile,
  type ShopFigures,
  shopOf,
  toText,
  type VetReportInParts,
  type Vetting,
  vetReportInParts,
} from '../../lib/index.js';
import { keptAnswers } from '../../lib/io/index.js';
import type { Conditions } from '../../lib/mechanics/index.js';
import { budgetOf, type FileBounds } from '../budget.js';
import { inLook, type PrintLook } from '../output.js';
import type { VettingFor } from '../settings.js';
import { markOf } from './mark.js';
import type { FileDone, Task } from './task.js';

export interface VetSetup extends FileBounds {
  figures: ShopFigures;
  /** Where it is sewn, as far as that is known. */
  fit: Omit<VettingFor, 'shop'>;
  conditions: Conditions | null;
  /** `digest` sets nothing: a line is made of what the summary takes. */
  format: 'text' | 'digest' | 'json' | 'jsonl' | 'csv' | 'html';
  objects: boolean;
  /** Tell files of the same content by its hash. */
  hashed: boolean;
  look: PrintLook;
  /** What `settings` of a report in JSON says of a design without objects that the shop has set right. */
  mark: string;
}

/** Reads, vets and sets one file. */
export async function vetWork({
  figures,
  fit,
  conditions,
  format,
  objects,
  hashed,
  look,
  mark,
  maxBytes,
  limits,
  answers,
}: VetSetup): Promise<(task: Task) => Promise<FileDone>> {
  const text = await inLook(look);
  const shop = shopOf(figures, keptAnswers(answers));
  const onFabric = conditions && (await import('../../lib/pipeline.js')).fullShop(shop);
  const set = async (vetting: Vetting, inParts: VetReportInParts, number: number) => {
    switch (format) {
      case 'digest':
        return { pieces: [] };
      case 'text':
        return { pieces: [toText(vetting.report, text, objects)] };
      case 'json':
      case 'jsonl':
        return {
          pieces: jsonPieces(
            { ...inParts, settings: markOf(mark, figures, inParts.file.sha256) },
            format === 'json' ? 2 : 0,
          ),
        };
      case 'csv':
        return { pieces: csvPieces(inParts) };
      case 'html': {
        const { vetSection } = await import('./pages.js');
        const { markup, entry } = await vetSection(vetting, number, look);
        return { pieces: [markup], entry };
      }
    }
  };
  return async ({ path, number }) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const asked = { ...fit, file: factsOf(file), budget };
    if (onFabric && format === 'digest')
      return { pieces: [], digest: onFabric.digestOn(file.design, asked, conditions, hashed) };
    const vetting = onFabric ? onFabric.vetOn(file.design, asked, conditions) : shop.vet(file.design, asked);
    const { designMeasures, measures, findings } = vetting;
    const inParts = conditions
      ? vetting.report
      : vetReportInParts(asked.file, designMeasures, measures, findings, vetting.set);
    return { ...(await set(vetting, inParts, number)), digest: digestOf(inParts, hashed) };
  };
}
