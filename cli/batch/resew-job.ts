import { basename } from 'node:path';
import { factsOf, formatOf, readDesignFile, shopOf, toJson } from '../../lib/index.js';
import { keptAnswers } from '../../lib/io/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { coverMap, resewToText } from '../../lib/report/index.js';
import type { ResewRequest } from '../../lib/rework/index.js';
import { noStitches } from '../bad-argument.js';
import { budgetOf } from '../budget.js';
import { inLook } from '../output.js';
import { stitchNameOf } from './made-names.js';
import type { RewriteSetup } from './rewrite.js';
import type { FileDone, Task } from './task.js';

export interface ResewSetup extends RewriteSetup<ResewRequest> {
  /** Draw the old holes. */
  map: boolean;
}

/** Enlarges one design to be sewn again. */
export async function resewWork(setup: ResewSetup): Promise<(task: Task) => Promise<FileDone>> {
  const { figures, fit, wish, conditions, format, look, out, dry, map, maxBytes, limits, answers } = setup;
  const text = await inLook(look);
  const shop = fullShop(shopOf(figures, keptAnswers(answers)));
  return async ({ path }) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const asked = { ...fit, file: factsOf(file), budget };
    const before = shop.vet(file.design, asked);
    if (before.stitches.count === 0) throw noStitches(file.path);
    const name = out ?? stitchNameOf(path);
    const request = { ...wish, format: dry && out === null ? 'dst' : (formatOf(name) ?? 'dst') } as const;
    const { resewing, bytes, after, report } = await shop.resew(before, request, asked, conditions);
    return {
      pieces: [format === 'json' ? toJson(report) : await resewToText(report, text)],
      digest: null,
      found: report.holes.exposed > 0,
      // A copy of the old design would be taken for a larger one.
      ...(!dry && !report.unchanged && { made: { name, content: bytes, set: after.set } }),
      ...(map && { picture: await coverMap(resewing, { title: basename(path), units: look.units }) }),
    };
  };
}
