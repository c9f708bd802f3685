/** What was drawn out by how much, how wide it comes out, and what was left. */
import type { Block, ReportSection } from '../document.js';
import type { ConditionsReport } from '../vet/report.js';
import type { CompensationReport } from './compensation.js';
import { type RelayWords, reasonsOf } from './reasons.js';

/** Rows of the table: those that are drawn out most. */
const MOST_ROWS = 12;

export function compensationSection(
  { objects, left }: CompensationReport,
  conditions: ConditionsReport,
  words: RelayWords,
): ReportSection[] {
  const { relay } = words;
  const blocks: Block[] = [
    ...(objects.length > 0 ? drawnOut(objects, conditions, words) : []),
    ...(left.length > 0
      ? [
          {
            is: 'list',
            items: reasonsOf(left).map(([reason, ids]) => relay.left({ objects: ids, reason })),
          } as const,
        ]
      : []),
  ];
  return blocks.length === 0 ? [] : [{ is: 'section', title: relay.compensation.title, blocks }];
}

type Drawn = CompensationReport['objects'][number];

const added = ({ alongMm }: Drawn): number => alongMm[0] + alongMm[1];

function drawnOut(
  objects: readonly Drawn[],
  conditions: ConditionsReport,
  { relay, risk, say }: RelayWords,
): Block[] {
  const { result, column, more, note } = relay.compensation;
  const wider = objects.filter((one) => added(one) !== 0).toSorted((a, b) => added(b) - added(a));
  const shown = new Set(wider.slice(0, MOST_ROWS));
  const offMm = Math.max(...objects.map(({ drawnMm, sewnMm }) => Math.abs(sewnMm.after - drawnMm)));
  const narrowerMm = Math.max(...objects.map(({ drawnMm, sewnMm }) => drawnMm - sewnMm.before));
  return [
    { is: 'paragraph', text: result({ on: risk.on(conditions), offMm, narrowerMm }) },
    {
      is: 'table',
      id: 'compensation',
      columns: [column.object, column.drawn({}), column.before, column.after, column.added].map((head) => ({
        head,
        number: true,
      })),
      rows: objects
        .filter((one) => shown.has(one))
        .map((one) => [
          String(one.object),
          ...[one.drawnMm, one.sewnMm.before, one.sewnMm.after, added(one)].map((mm) => say.bare(mm)),
        ]),
      more: wider.length - shown.size,
      tail: (rest) => more({ left: rest, upToMm: added(wider[shown.size]) }),
    },
    { is: 'paragraph', text: note },
  ];
}
