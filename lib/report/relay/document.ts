/** What relaying did, as a document: the answer, the figures, each column, what was left, what is newly found. */

import { UNDERLAY_KEPT } from '../../vetting/finding.js';
import type { Block, Facts, ReportDocument, ReportSection, TableColumn } from '../document.js';
import { newFindings } from '../new-findings.js';
import type { OwnUnderlay } from '../phrases/en/relay.js';
import { wordsFor } from '../phrases/words.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import { compensationSection } from './compensation-section.js';
import { type RelayWords, reasonsOf } from './reasons.js';
import type { RelayedColumn, RelayReport } from './report.js';

/** @param written whether a file holds it */
export function relayDocument(report: RelayReport, written: boolean, words: RelayWords): ReportDocument {
  const { compensation, conditions } = report;
  return {
    title: words.relay.title,
    language: 'en',
    blocks: [
      answer(report, written, words),
      { is: 'facts', facts: figures(report, words) },
      ...columnSection(report, words),
      ...leftSection(report, words),
      ...(compensation && conditions ? compensationSection(compensation, conditions, words) : []),
      ...bareBlocks(report, words),
      ...newFindings(report.findings, words.relay.newFindings, words),
    ],
  };
}

/** The same as text: what `lieflat relay` prints. */
export function relayToText(report: RelayReport, options: TextOptions, written: boolean): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(relayDocument(report, written, words), options);
}

function answer(
  { file: { path: file }, objects, left, to, compensation }: RelayReport,
  written: boolean,
  { relay, setup }: RelayWords,
): Block {
  const is = (level: 'sound' | 'note', word: string, line: string) =>
    ({ is: 'verdict', level, word, line }) as const;
  const columns = objects.length;
  const drawnOut = compensation?.objects.length ?? 0;
  if (columns > 0 && to !== 'keep')
    return is(
      'sound',
      relay.relaid({ columns }),
      relay.relaidTo({ file, laid: setup.laid[to], own: ownOf(objects), written }),
    );
  if (drawnOut > 0)
    return is('sound', relay.drawnOut({ objects: drawnOut }), relay.drawnOutOf({ file, written }));
  if (compensation) return is('note', relay.nothing, relay.drawsInLittle({ file }));
  const why = left.every(isKept) ? (left.length > 0 ? relay.allKept : relay.noneNeeds) : relay.allLeft;
  return is('note', relay.nothing, why({ file }));
}

const isKept = ({ because }: RelayReport['left'][number]): boolean =>
  (UNDERLAY_KEPT as readonly string[]).includes(because);

function ownOf(objects: RelayReport['objects']): OwnUnderlay {
  const bare = objects.filter(({ before }) => before.underlay.kinds.length === 0).length;
  return bare === 0 ? 'some' : bare === objects.length ? 'none' : 'both';
}

function figures(
  { design: { before, after }, conditions, flatter, advised, findingsGone, proof, compensation }: RelayReport,
  { relay, risk }: RelayWords,
): Facts['facts'] {
  const columns = proof.filter((one) => one.proof === 'identical').length;
  const both = (of: 'trims' | 'jumps') => [before[of], after[of]] as const;
  const facts = [
    {
      label: relay.stitchesLabel,
      text: relay.stitches({ before: before.stitches, after: after.stitches }),
    },
    { label: relay.threadLabel, text: relay.thread({ before: before.threadMm, after: after.threadMm }) },
    { label: relay.machineLabel, text: relay.machine({ trims: both('trims'), jumps: both('jumps') }) },
    ...(columns > 0
      ? [
          {
            label: relay.proofLabel,
            text: relay.proof({ columns, moved: (compensation?.objects.length ?? 0) > 0 }),
          },
        ]
      : []),
    ...(findingsGone > 0
      ? [{ label: relay.findingsLabel, text: relay.gone({ findings: findingsGone }) }]
      : []),
  ];
  if (!conditions || !flatter || !before.risk || !after.risk) return facts;
  const sure = flatter.tooCloseToCall ? ` ${relay.tooClose}` : '';
  const looks = relay.looks({ before: before.risk, after: after.risk });
  return [
    ...facts,
    { label: risk.label, text: `${looks} ${risk.on(conditions)}.${sure} ${risk.sewATest}` },
    ...(advised ? [{ label: '', text: advisedText(advised, relay) }] : []),
  ];
}

/** What the change does over the backing that is advised. */
function advisedText(
  { before, after, tooCloseToCall, conditions }: NonNullable<RelayReport['advised']>,
  relay: RelayWords['relay'],
): string {
  const sure = tooCloseToCall ? ` ${relay.tooClose}` : '';
  return relay.advised({ name: conditions.stackName, looks: relay.looks({ before, after }), sure });
}

function columnSection({ objects, conditions }: RelayReport, { relay, say }: RelayWords): ReportSection[] {
  if (objects.length === 0) return [];
  const { column } = relay;
  const columns: TableColumn[] = [
    { head: column.object, number: true },
    { head: column.underlay, flexible: true },
    { head: column.stitches, number: true },
    { head: column.thread({}), number: true },
    { head: column.points, number: true },
    ...(conditions ? [{ head: column.wrinkle({}), number: true }] : []),
  ];
  const cells: ((one: RelayedColumn) => string)[] = [
    ({ underlay }) => relay.underlay(underlay),
    ({ stitches }) => say.count(stitches),
    ({ threadMm }) => say.bareThread(threadMm),
    ({ densityPerMm2 }) => say.fixed(densityPerMm2, 1),
    ...(conditions ? [({ risk }: RelayedColumn) => say.bare(risk!.wrinkleMm)] : []),
  ];
  const rows = objects.map(({ object, before, after }) => [
    String(object),
    ...cells.map((cell) => relay.change({ before: cell(before), after: cell(after) })),
  ]);
  const table = { is: 'table', id: 'columns', columns, rows, note: relay.tableNote } as const;
  return [{ is: 'section', title: relay.tableTitle, blocks: [table] }];
}

function leftSection({ left: all }: RelayReport, { relay }: RelayWords): ReportSection[] {
  const kept = all.filter(isKept);
  const left = all.filter((one) => !isKept(one));
  return [
    ...leftBecause(kept, relay.keptTitle, relay.keptNote, relay),
    ...leftBecause(left, relay.leftTitle, relay.leftNote, relay),
  ];
}

function leftBecause(
  left: RelayReport['left'],
  title: string,
  note: (of: { objects: number }) => string,
  relay: RelayWords['relay'],
): ReportSection[] {
  if (left.length === 0) return [];
  const items = reasonsOf(left).map(([reason, objects]) => relay.left({ objects, reason }));
  // A page has no word for what takes a terminal.
  const text = note({ objects: left.length });
  const more: Block[] = text === '' ? [] : [{ is: 'paragraph', text }];
  return [{ is: 'section', title, blocks: [{ is: 'list', items }, ...more] }];
}

function bareBlocks({ bare, left }: RelayReport, { relay }: RelayWords): Block[] {
  // What was asked for and left has its reason above.
  const objects = bare.filter((id) => !left.some(({ object }) => object === id));
  return objects.length === 0 ? [] : [{ is: 'paragraph', text: relay.bare({ objects }) }];
}
