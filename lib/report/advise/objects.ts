/** What objects need, put together: those that need the same are named in one breath. */
import { RULE_LIMITS } from '../../advice/rule-limits.js';
import { HEAVY_UNDERLAY, NO_UNDERLAY } from '../../vetting/columns-called.js';
import type { Finding, FindingCode } from '../../vetting/finding.js';
import { RANK } from '../../vetting/severest-first.js';
import type { Block, TableColumn } from '../document.js';
import type { Words } from '../phrases/words.js';
import type { ObjectAdviceReport } from './plan-report.js';

type Needs = Omit<ObjectAdviceReport, 'text'>;

/** Objects whose edges are to be drawn out by the same amount. */
export interface DrawnOut {
  /** On each side, mm, rounded to {@link STEP_MM}. */
  mm: number;
  /** Rising. */
  objects: number[];
}

/** Amounts of pull compensation that differ by less are one, mm: on both sides together it is the step of a stitch file. */
const STEP_MM = 0.05;

/** A sentence, and the kinds of finding that call for it. */
interface Need {
  readonly calledBy: readonly FindingCode[];
  readonly text: string;
}

/** How severe what calls for a need is; what nothing calls for goes last. */
const weightOf = ({ calledBy }: Need, findings: readonly Finding[]): number =>
  findings.reduce(
    (least, { code, severity }) => (calledBy.includes(code) ? Math.min(least, RANK[severity]) : least),
    RANK.note + 1,
  );

/**
 * What the objects need, a sentence for all that need the same, the weightiest first. Pull compensation is left to {@link drawnOut}.
 *
 * @param washes launderings after which wrinkles are told of
 * @param findings of the design: what the severest of them call for goes first
 */
export function adviceSentences(
  objects: readonly Needs[],
  washes: number,
  { advice }: Words<'advice'>,
  findings: readonly Finding[] = [],
): string[] {
  // A column that is split or filled gets its underlay with that.
  const relaid = objects.flatMap(({ object, relay, split }) => (relay && !split ? [{ object, relay }] : []));
  const kinds = [...new Set(relaid.map(({ relay }) => relay.to))];
  const split = objects.filter((one) => one.split);
  const unlocked = objects.filter(({ locks }) => locks);
  const drawingIn = objects.filter(({ drawsInMm }) => drawsInMm !== null);
  const overs = [...new Set(split.map(({ relay }) => relay?.to ?? null))];
  const needs: Need[] = [
    ...overs.map((over) => ({
      calledBy: ['satin-too-wide'] as const,
      text: advice.split({ objects: ids(split.filter(({ relay }) => (relay?.to ?? null) === over)), over }),
    })),
    ...(unlocked.length > 0
      ? [{ calledBy: ['missing-lock'] as const, text: advice.locks({ objects: ids(unlocked) }) }]
      : []),
    ...kinds.map((to) => {
      const same = relaid.filter(({ relay }) => relay.to === to);
      const [{ from }] = same.map(({ relay }) => relay);
      const text = advice.relay({
        objects: ids(same),
        to,
        from: same.every(({ relay }) => relay.from.join() === from.join()) ? from : null,
        heights: same.map(({ relay: { wrinkleMm } }) => (washes > 0 ? wrinkleMm.washed : wrinkleMm.now)),
        washes,
      });
      return { calledBy: [NO_UNDERLAY, HEAVY_UNDERLAY] as const, text };
    }),
    ...(drawingIn.length > 0
      ? [
          {
            calledBy: [],
            text: advice.drawsIn({
              objects: ids(drawingIn),
              movedMm: drawingIn.map(({ drawsInMm }) => drawsInMm!),
              mostMm: RULE_LIMITS.mostDrawn.value,
            }),
          },
        ]
      : []),
  ];
  return needs.toSorted((a, b) => weightOf(a, findings) - weightOf(b, findings)).map(({ text }) => text);
}

/** The objects to be drawn out, by how much, the least first. */
export function drawnOut(objects: readonly Needs[]): DrawnOut[] {
  const bySteps = new Map<number, number[]>();
  for (const { object, pullCompensationMm } of objects) {
    if (pullCompensationMm === null) continue;
    const steps = Math.round(pullCompensationMm / STEP_MM);
    bySteps.set(steps, [...(bySteps.get(steps) ?? []), object]);
  }
  return [...bySteps]
    .sort(([a], [b]) => a - b)
    .map(([steps, same]) => ({ mm: steps * STEP_MM, objects: same.toSorted((a, b) => a - b) }));
}

/** Everything in sentences. */
export function needSentences(
  objects: readonly Needs[],
  washes: number,
  words: Words<'advice'>,
  findings: readonly Finding[] = [],
): string[] {
  const amounts = drawnOut(objects);
  return [
    ...adviceSentences(objects, washes, words, findings),
    ...(amounts.length > 0 ? [words.advice.drawnOut({ amounts })] : []),
  ];
}

/**
 * The same as blocks: a list, and a table of pull compensation in both systems of units.
 *
 * @param id of the table, unique on its page
 */
export function objectNeeds(
  objects: readonly ObjectAdviceReport[],
  washes: number,
  id: string,
  words: Words<'advice'>,
  findings: readonly Finding[] = [],
): Block[] {
  const { advice, say } = words;
  const items = adviceSentences(objects, washes, words, findings);
  const amounts = drawnOut(objects);
  const columns: TableColumn[] = [
    { head: say.units, number: true, namesRow: true, sorts: true },
    { head: say.units === 'mm' ? 'in' : 'mm', number: true },
    { head: advice.drawnOutObjects, flexible: true },
  ];
  const rows = amounts.map(({ mm, objects: same }) => [
    { text: say.bare(mm), by: mm },
    say.bareOther(mm),
    advice.ids({ objects: same }),
  ]);
  const note = advice.drawnOutNote({ stepMm: STEP_MM });
  return [
    ...(items.length > 0 ? [{ is: 'list', items } as const] : []),
    ...(rows.length > 0
      ? [{ is: 'table', id, caption: advice.drawnOutTitle, columns, rows, note } as const]
      : []),
  ];
}

const ids = (advised: readonly { object: number }[]): number[] => advised.map(({ object }) => object);
