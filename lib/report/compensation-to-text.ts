import type { CompensationReport } from './compensation-report.js';
import { backingWords } from './labelled.js';
import { wordsFor } from './phrases/words.js';
import { bareLength, counted, length } from './quantities.js';
import { printable } from './render/printable.js';
import { textTable } from './render/text-table.js';
import { wrap } from './render/wrap.js';
import type { TextOptions } from './text-options.js';
import type { ConditionsReport } from './vet/report.js';

const INDENT = '  ';
/** Rows of the table: those that are drawn out most. */
const MOST_ROWS = 12;

/** What was drawn out by how much, how wide it comes out, and what was left. */
export function compensationLines(
  { objects, left }: CompensationReport,
  conditions: ConditionsReport,
  { width, units }: TextOptions,
): string[] {
  const lines = ['Pull compensation'];
  if (objects.length > 0) {
    const added = ({ alongMm }: (typeof objects)[number]) => alongMm[0] + alongMm[1];
    const wider = objects.filter((one) => added(one) !== 0).toSorted((a, b) => added(b) - added(a));
    const shown = new Set(wider.slice(0, MOST_ROWS));
    const off = Math.max(...objects.map(({ drawnMm, sewnMm }) => Math.abs(sewnMm.after - drawnMm)));
    const narrower = Math.max(...objects.map(({ drawnMm, sewnMm }) => drawnMm - sewnMm.before));
    lines.push(
      ...wrap(
        `On ${printable(conditions.fabricName)}, over ${backingWords(conditions)}, these come out within ${length(off, units)} of the width drawn; as the file was, up to ${length(narrower, units)} narrower.`,
        width,
        INDENT,
      ),
      ...textTable(
        [
          { head: 'object', align: 'right' },
          { head: `drawn ${units}`, align: 'right' },
          { head: 'sewn, as it was', align: 'right' },
          { head: 'sewn, new file', align: 'right' },
          { head: 'added in all', align: 'right' },
        ],
        objects
          .filter((one) => shown.has(one))
          .map((one) => [
            String(one.object),
            bareLength(one.drawnMm, units),
            bareLength(one.sewnMm.before, units),
            bareLength(one.sewnMm.after, units),
            bareLength(added(one), units),
          ]),
        width,
        INDENT,
      ),
      ...(wider.length > shown.size
        ? wrap(
            `${counted(wider.length - shown.size, 'object')} more by ${length(added(wider[shown.size]), units)} or less; --format json lists all.`,
            width,
            INDENT,
          )
        : []),
      ...wrap(
        'Every stitch is still there, in its order; only edges moved. Use it on a file that was drawn without pull compensation: what it has already is kept on top. Sew a test on the same fabric.',
        width,
        INDENT,
      ),
    );
  }
  const byReason = new Map<string, number[]>();
  for (const { object, reason } of left) byReason.set(reason, [...(byReason.get(reason) ?? []), object]);
  for (const [reason, ids] of byReason)
    lines.push(
      ...wrap(
        `Left as it was, ${wordsFor({ units: 'mm', detail: 'full' }).say.objects(ids)}: ${reason}.`,
        width,
        INDENT,
      ),
    );
  return lines.length > 1 ? lines : [];
}
