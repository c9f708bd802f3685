/** The cover report for a person: whether old holes will show and how far hooping may be off, which way to take, then what to do. */
import type { Block, Fact, ReportDocument, ReportSection, TableColumn } from '../document.js';
import { newFindings } from '../new-findings.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { capital } from '../quantities.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import { hideAllWords } from './recommendation.js';
import type { ResewModeReport, ResewObject, ResewReport } from './report.js';

type ResewWords = Words<'common' | 'findings' | 'resew' | 'risk'>;

/** Objects listed that leave holes to be seen; the rest are counted. */
const MOST_OBJECTS = 10;

export function resewDocument(report: ResewReport, words: ResewWords): ReportDocument {
  const { resew } = words;
  return {
    title: resew.title,
    language: 'en',
    blocks: [
      answer(report, words),
      ...(report.unchanged
        ? [{ is: 'paragraph', text: [{ text: resew.unchanged(report), strong: true }] } as const]
        : []),
      {
        is: 'facts',
        facts: [...figures(report, words), ...hiding(report, words), ...onFabric(report, words)],
      },
      waySection(report, words),
      ...objectSection(report, words),
      ...newFindings(report.findings, resew.newFindings, words),
      {
        is: 'section',
        title: resew.stepsTitle,
        blocks: [{ is: 'list', ordered: true, items: resew.steps }],
      },
      {
        is: 'section',
        title: resew.cautionsTitle,
        blocks: resew.cautions.map((text) => ({ is: 'caution', text }) as const),
      },
      { is: 'paragraph', text: resew.limit },
    ],
  };
}

/** The same as text: what `lieflat resew` prints. */
export const resewToText = (report: ResewReport, options: TextOptions): string =>
  renderText(resewDocument(report, wordsFor({ units: options.units, detail: 'full' })), options);

function answer(report: ResewReport, { resew }: ResewWords): Block {
  const { file, holes, mode, roomMm } = report;
  const askedMm = missedSlack(report);
  return {
    is: 'verdict',
    level: holes.exposed === 0 && askedMm === null ? 'sound' : 'warn',
    word: resew.answer({ holes: holes.total, exposed: holes.exposed, exact: askedMm !== null }),
    line: resew.taken({
      file: file.path,
      mode,
      grown: resew.grown(report),
      holes: holes.total,
      roomMm,
      askedMm,
    }),
  };
}

/** The hooping error that was to be allowed for, where some holes show at it though none does if hooped exactly; null elsewhere. */
function missedSlack({ roomMm, slackMm, find, smallestScaleThatHides }: ResewReport): number | null {
  const isFound = find && smallestScaleThatHides !== null;
  return roomMm !== null && roomMm < slackMm && !isFound ? slackMm : null;
}

/** How the new design was made, and what it is like. */
function figures(report: ResewReport, words: ResewWords): Fact[] {
  const { resew } = words;
  const { offset, movedToHide, spacingBeforeMm, spacingAfterMm, mode } = report;
  const { stitchesBefore, stitchesAfter, trimsAdded: trims } = report;
  return [
    { label: resew.wayLabel, text: resew.way({ mode, given: report.modeGiven, find: report.find }) },
    ...(offset.dx === 0 && offset.dy === 0
      ? []
      : [{ label: resew.movedLabel, text: resew.moved({ ...offset, toHide: movedToHide }) }]),
    {
      label: resew.sizeLabel,
      text: resew.size({
        before: [report.widthBeforeMm, report.heightBeforeMm],
        after: [report.widthAfterMm, report.heightAfterMm],
      }),
    },
    {
      label: resew.stitchesLabel,
      text: resew.stitches({ before: stitchesBefore, after: stitchesAfter, trims }),
    },
    ...(spacingBeforeMm === null || spacingAfterMm === null
      ? []
      : [
          {
            label: resew.spacingLabel,
            text: resew.spacing({
              beforeMm: spacingBeforeMm,
              afterMm: spacingAfterMm,
              threadMm: report.threadWidthMm,
            }),
          },
        ]),
    ...keptFacts(report, words),
    ...(report.unchanged ? [] : [{ label: resew.proofLabel, text: resew.proof({ mode }) }]),
  ];
}

/** Objects that the way could not lay anew. */
function keptFacts({ leftAsItWas, unsure, mode, proof }: ResewReport, words: ResewWords): Fact[] {
  const { resew } = words;
  const failed = new Set(proof.flatMap((one) => (one.proof === 'failed' ? [one.object] : [])));
  const notGrown = leftAsItWas.filter(({ object }) => !failed.has(object));
  const runs = notGrown.filter(({ because }) => because === 'run');
  const scaled = notGrown.filter(({ because }) => because !== 'run');
  const kept = leftAsItWas.filter(({ object }) => failed.has(object));
  const unsureParts = unsure.map((object) => ({ object, part: 'top' }) as const);
  const of = (parts: readonly NamedPart[]) => ({
    objects: partsInWords(parts, words),
    mode,
    one: parts.length === 1,
  });
  return [
    ...(scaled.length > 0 ? [resew.onlyScaled(of(scaled))] : []),
    ...(runs.length > 0 ? [resew.runs(of(runs))] : []),
    ...(kept.length > 0 ? [resew.failed(of(kept))] : []),
    ...(unsure.length > 0 ? [resew.unsure(of(unsureParts))] : []),
  ].map((text, i) => ({ label: i === 0 ? resew.keptLabel : '', text }));
}

type NamedPart = Pick<ResewReport['leftAsItWas'][number], 'object' | 'part'>;

function partsInWords(parts: readonly NamedPart[], { resew }: ResewWords): string {
  const names = parts
    .slice(0, MOST_OBJECTS)
    .map(({ object, part }) => resew.part({ object, underlay: part === 'underlay' }));
  return resew.parts({ names, more: parts.length - names.length });
}

/** What is hidden and what would hide more. */
function hiding(report: ResewReport, { resew }: ResewWords): Fact[] {
  const { exposed, slackMm, perMode, mode } = report;
  const gaps = exposed.flatMap(({ gapMm }) => (gapMm === null ? [] : [gapMm])).sort((a, b) => a - b);
  const showing =
    gaps.length === 0 ? resew.noTop : resew.gaps({ halfMm: gaps[gaps.length >> 1], mostMm: gaps.at(-1)! });
  const scale = resew.scale({
    smallest: report.smallestScaleThatHides,
    complete: report.searchComplete,
    slackMm,
    better: perMode.find((way) => way.mode === mode)?.betterOffset ?? null,
  });
  return [
    ...(exposed.length > 0 ? [{ label: resew.showLabel, text: showing }] : []),
    { label: resew.scaleLabel, text: scale },
  ];
}

function onFabric({ risk }: ResewReport, { resew, risk: words }: ResewWords): Fact[] {
  if (risk === null) return [];
  const { before, after, tooCloseToCall: tooClose, conditions } = risk;
  const worded = ({ grade, wrinkleMm }: typeof before) => ({
    grade,
    wrinkleMm,
    word: words.grade({ grade }),
  });
  return [
    { label: resew.riskLabel, text: resew.risk({ before: worded(before), after: worded(after), tooClose }) },
    { label: '', text: `${capital(words.on(conditions))}.` },
  ];
}

function waySection(report: ResewReport, words: ResewWords): ReportSection {
  const { resew, common, say } = words;
  const { perMode, mode: taken, holes, recommendation } = report;
  const { column } = resew;
  const columns: TableColumn[] = [
    { head: column.way },
    ...[column.larger, column.show, column.room({}), column.needed, column.stitches, column.spacing({})].map(
      (head) => ({ head, number: true }),
    ),
  ];
  const row = (way: ResewModeReport): string[] => [
    way.mode === taken ? resew.takenWay({ mode: taken }) : way.mode,
    resew.percent(way),
    say.count(way.exposed),
    way.roomMm === null ? common.nothing : say.bare(way.roomMm),
    neededWords(way.smallestScaleThatHides, way.searchComplete, words),
    say.count(way.stitchesAfter),
    way.spacingAfterMm === null ? common.nothing : say.bare(way.spacingAfterMm),
  ];
  const best = perMode.find(({ mode }) => mode === recommendation.mode)!;
  // Of the best way, where that is taken, the first line has said it.
  const take = best.mode === taken ? '' : resew.take({ ...best, holes: holes.total });
  const orders = [take, hideAllWords(best, perMode, words)].filter((text) => text !== '');
  return {
    is: 'section',
    title: resew.waysTitle,
    blocks: [
      { is: 'table', id: 'ways', columns, rows: perMode.map(row), note: resew.waysNote },
      ...(orders.length > 0 ? [{ is: 'paragraph', text: orders.join(' ') } as const] : []),
    ],
  };
}

const neededWords = (scale: number | null, complete: boolean, { resew }: ResewWords): string =>
  scale !== null ? resew.percent({ scale }) : complete ? resew.none : resew.unknown;

/** Where holes show; nothing where none does. */
function objectSection(report: ResewReport, words: ResewWords): ReportSection[] {
  const { objects, scale, perMode, mode } = report;
  const { resew, common, say } = words;
  const shown = objects.filter(({ exposed }) => exposed > 0).toSorted((a, b) => b.exposed - a.exposed);
  if (shown.length === 0) return [];
  const enough = objects.filter(({ exposed, holes }) => exposed === 0 && holes > 0);
  const complete = perMode.find((way) => way.mode === mode)!.searchComplete;
  const { column } = resew;
  const columns: TableColumn[] = [
    { head: column.object, number: true },
    { head: column.kind },
    ...[column.place({}), column.holes, column.showing, column.gap({}), column.needed].map((head) => ({
      head,
      number: true,
    })),
  ];
  const row = (object: ResewObject): string[] => [
    object.id === null ? resew.ties : String(object.id),
    object.kind === null ? common.nothing : common.kind[object.kind],
    object.at ? say.place(object.at) : common.nothing,
    say.count(object.holes),
    say.count(object.exposed),
    object.widestGapMm === null ? common.nothing : say.bare(object.widestGapMm),
    neededWords(object.smallestScaleThatHides, complete, words),
  ];
  const idsOf = (of: readonly ResewObject[]) => of.flatMap(({ id }) => id ?? []);
  const tiesIn = (of: readonly ResewObject[]) => of.some(({ id }) => id === null);
  return [
    {
      is: 'section',
      title: resew.objectsTitle({ scale, objects: idsOf(shown).length, ties: tiesIn(shown) }),
      blocks: [
        {
          is: 'table',
          id: 'objects',
          columns,
          rows: shown.map(row),
          mostRows: MOST_OBJECTS,
          tail: (left) => resew.listAll({ left }),
          note: resew.objectsNote,
        },
        ...(enough.length > 0
          ? [
              {
                is: 'paragraph',
                text: resew.enough({ scale, objects: idsOf(enough), ties: tiesIn(enough) }),
              } as const,
            ]
          : []),
      ],
    },
  ];
}
