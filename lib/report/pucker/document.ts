/** The risk of one design as a document: the answer, why, the figures, the objects, how sure it is. */
import { RULE_LIMITS } from '../../advice/rule-limits.js';
import type { Block, ReportDocument, ReportSection, TableColumn } from '../document.js';
import { garmentFacts } from '../garment-facts.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { renderText } from '../render/text.js';
import { setFacts } from '../set-words.js';
import type { TextOptions } from '../text-options.js';
import { causeWords, gradeLevel } from '../vet/on-fabric.js';
import type { ConditionsReport } from '../vet/report.js';
import type { PuckerObject, PuckerReport } from './report.js';

export type PuckerWords = Words<'common' | 'findings' | 'risk' | 'setup' | 'vet' | 'pucker'>;

/** Objects shown unless all are asked for. */
const MOST_OBJECTS = 5;
/** Causes behind less than this part are left to the JSON. */
const LEAST_SHARE = 0.05;
/** A ruler that narrows the range by less says less than an eye. */
const LITTLE = 0.05;

/** @param allObjects every object in sewing order, not only the worst */
export function puckerDocument(report: PuckerReport, words: PuckerWords, allObjects = false): ReportDocument {
  const { file, risk, conditions } = report;
  return {
    title: words.pucker.title,
    language: 'en',
    blocks: [
      {
        is: 'verdict',
        level: gradeLevel(risk.grade),
        word: words.risk.grade(risk).toUpperCase(),
        line: words.pucker.on({ file: file.path, fabric: conditions.fabricName }),
      },
      {
        is: 'facts',
        facts: [
          ...whyFacts(report, words),
          ...figures(report, words),
          ...garmentFacts(conditions.garment, words),
          ...setFacts(report.setObjects, words),
        ],
      },
      ...objectSection(report, words, allObjects),
      { is: 'section', title: words.common.howSure, blocks: howSure(report, words) },
    ],
  };
}

/** The same as text. Every line fits the width; names are made safe for a terminal. */
export function puckerToText(report: PuckerReport, options: TextOptions, allObjects = false): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(puckerDocument(report, words, allObjects), options);
}

/** Each cause behind more than a little; of what lies flat nothing is the cause. */
function whyFacts({ risk, stack }: PuckerReport, words: PuckerWords) {
  const strong = risk.grade === 5 ? [] : risk.drivers.filter(({ share }) => share >= LEAST_SHARE);
  return strong.map(({ cause, share }, i) => ({
    label: i === 0 ? words.pucker.label.why : '',
    text: words.pucker.cause({ ...causeWords(cause, stack.length > 0, words.risk), share }),
  }));
}

function figures({ risk, conditions }: PuckerReport, words: PuckerWords) {
  const { pucker, risk: said } = words;
  const { wrinkleMm, range } = risk;
  const grades = said.grades({ range: range.grade });
  return [
    { label: pucker.label.wrinkles, text: pucker.wrinkles({ wrinkleMm, range: range.wrinkleMm, grades }) },
    { label: pucker.label.pullIn, text: pucker.pullIn({ mm: risk.pullInMm }) },
    { label: pucker.label.looks, text: pucker.looks(risk) },
    {
      label: pucker.label.backing,
      text: said.backing(conditions),
    },
    { label: pucker.label.sewn, text: sewn(conditions, words) },
  ];
}

const sewn = (
  { threadName: thread, grainDeg, hoopStretchPercent: stretchPercent, washes }: ConditionsReport,
  { pucker }: PuckerWords,
): string => pucker.sewn({ thread, grainDeg, stretchPercent, washes });

function objectSection(report: PuckerReport, words: PuckerWords, all: boolean): ReportSection[] {
  const { pucker, say } = words;
  const { column } = pucker;
  const worstFirst = report.objects.toSorted((a, b) => b.risk.wrinkleMm - a.risk.wrinkleMm || a.id - b.id);
  const shown = all ? report.objects : worstFirst.slice(0, MOST_OBJECTS);
  if (shown.length === 0) return [];
  const columns: TableColumn[] = [
    { head: column.object, number: true },
    { head: column.kind },
    { head: column.place({}), number: true },
    { head: column.looks },
    { head: column.grade, number: true },
    { head: column.high({}), number: true },
    { head: column.pullIn({}), number: true },
    { head: column.across, number: true },
  ];
  const mostMm = RULE_LIMITS.mostDrawn.value;
  const anyFar = shown.some((object) => pullIn(object).some((mm) => mm !== null && Math.abs(mm) > mostMm));
  return [
    {
      is: 'section',
      title: all ? pucker.inOrder : pucker.worstFirst,
      blocks: [
        {
          is: 'table',
          id: 'objects',
          columns,
          rows: shown.map((object) => [
            String(object.id),
            object.setByShop
              ? pucker.setByYou({ kind: words.common.kind[object.kind] })
              : words.common.kind[object.kind],
            say.place(object.at),
            words.risk.grade(object.risk),
            say.plain(object.risk.grade, 1),
            say.bare(object.risk.wrinkleMm),
            ...pullIn(object).map((mm) =>
              mm === null ? words.common.nothing : Math.abs(mm) > mostMm ? pucker.far : say.bare(mm),
            ),
          ]),
          more: report.objects.length - shown.length,
          tail: (left) => pucker.listAll({ left }),
          note: [pucker.pullInNote, ...(anyFar ? [pucker.farNote({ mostMm })] : [])].join(' '),
        },
      ],
    },
  ];
}

/** How far its edges move in along the stitches and across them, mm; a run has no edges across. */
const pullIn = ({
  kind,
  pullCompensationMm: { along, across },
}: PuckerObject): [along: number, across: number | null] => [along, kind === 'run' ? null : across];

function howSure({ basis, cautions }: PuckerReport, words: PuckerWords): Block[] {
  const { pucker, risk, common } = words;
  const [first, second] = new Set(basis.sensitivities.map(({ source }) => sourceWords(source, words)));
  const { measure } = basis;
  const lines = [
    ...(first ? [pucker.unknowns({ first, second: second ?? null })] : []),
    ...standsOn(basis, words),
    ...(measure
      ? [
          pucker.measure({
            object: measure.object,
            fileMm: measure.fileMm,
            sewnMm: [measure.sewnMm[0], measure.sewnMm[2]],
            narrows: measure.narrows < LITTLE ? null : measure.narrows,
          }),
        ]
      : []),
    ...(basis.resolution.met ? [] : [pucker.coarse]),
    risk.sewATest,
  ];
  return [
    ...lines.map((text) => ({ is: 'paragraph', text }) as const),
    ...cautions.map((text) => ({ is: 'caution', text: common.caution({ text }) }) as const),
  ];
}

/** Whose values the figures rest on. */
export const standsOn = ({ ownValues, ownFit }: PuckerReport['basis'], { pucker }: PuckerWords): string[] => [
  pucker.values({ own: ownValues }),
  ...(ownFit ? [pucker.ownFit] : []),
];

/** What a sensitivity is to; any but the known ones is to a sheet. */
const sourceWords = (source: string, { risk: { sources } }: PuckerWords): string =>
  Object.hasOwn(sources, source) ? sources[source as keyof typeof sources] : sources.sheet;
