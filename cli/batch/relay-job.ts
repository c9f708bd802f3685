import {
  factsOf,
  formatOf,
  type JsonReports,
  type LaidUnderlay,
  readDesignFile,
  shopOf,
  toJson,
} from '../../lib/index.js';
import { keptAnswers } from '../../lib/io/index.js';
import { fullShop } from '../../lib/pipeline.js';
import { relayToText } from '../../lib/report/index.js';
import { noStitches } from '../bad-argument.js';
import { budgetOf } from '../budget.js';
import { inLook } from '../output.js';
import { stitchNameOf } from './made-names.js';
import type { RewriteSetup } from './rewrite.js';
import type { FileDone, Task } from './task.js';

export type RelaySetup = RewriteSetup<{
  objects?: readonly number[];
  to?: LaidUnderlay | 'keep';
  compensate: boolean;
}>;

/** Relays one design. */
export async function relayWork(setup: RelaySetup): Promise<(task: Task) => Promise<FileDone>> {
  const { figures, fit, wish, conditions, format, look, out, dry, maxBytes, limits, answers } = setup;
  const text = await inLook(look);
  const shop = fullShop(shopOf(figures, keptAnswers(answers)));
  return async ({ path }) => {
    const budget = budgetOf(path, limits);
    const file = await readDesignFile(path, { maxBytes, budget });
    const name = out ?? stitchNameOf(path);
    const { bytes, before, after, report } = await shop.relay(
      file.design,
      { ...fit, file: factsOf(file), budget },
      {
        ...wish,
        format: dry && out === null ? undefined : (formatOf(name) ?? undefined),
        conditions: conditions ?? undefined,
      },
    );
    if (before.stitches.count === 0) throw noStitches(file.path);
    // A file that is as it was would be taken for a better one.
    const written = !dry && (report.objects.length > 0 || (report.compensation?.objects.length ?? 0) > 0);
    const told =
      format === 'json'
        ? toJson({ ...report, out: written ? name : null } satisfies JsonReports['relay'])
        : await relayToText(report, text, written);
    return {
      pieces: [told],
      digest: null,
      ...(written && { made: { name, content: bytes, set: after.set } }),
    };
  };
}
