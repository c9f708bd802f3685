/** Several backings as a document: which lies flattest, whether that is sure, and the figures of each. */
import type { Entry, ReportDocument } from '../document.js';
import { garmentFacts } from '../garment-facts.js';
import { wordsFor } from '../phrases/words.js';
import { renderText } from '../render/text.js';
import { setFacts } from '../set-words.js';
import type { TextOptions } from '../text-options.js';
import { causeWords, gradeLevel } from '../vet/on-fabric.js';
import type { PuckerComparison, RankedStack } from './comparison.js';
import { type PuckerWords, standsOn } from './document.js';

export function puckerComparisonDocument(comparison: PuckerComparison, words: PuckerWords): ReportDocument {
  const { ranking, reports, file } = comparison;
  const { basis, conditions, setObjects } = reports[0];
  const { pucker, risk, common } = words;
  const best = ranking[0];
  const { grade } = reports[best.report].risk;
  const cautions = new Set(reports.flatMap((report) => report.cautions));
  return {
    title: pucker.comparison.title,
    language: 'en',
    blocks: [
      {
        is: 'verdict',
        level: gradeLevel(grade),
        word: risk.grade({ grade }).toUpperCase(),
        line: pucker.comparison.answer({
          file: file.path,
          fabric: conditions.fabricName,
          best: best.stack,
          backings: ranking.length,
          order: orderOf(comparison),
        }),
      },
      { is: 'facts', facts: [...garmentFacts(conditions.garment, words), ...setFacts(setObjects, words)] },
      { is: 'list', items: ranking.slice(1).map((other) => beside(best, other, comparison, words)) },
      { is: 'entries', entries: ranking.map((_, rank) => entry(comparison, rank, words)) },
      {
        is: 'section',
        title: common.howSure,
        blocks: [
          ...[...standsOn(basis, words), risk.sewATest].map((text) => ({ is: 'paragraph', text }) as const),
          ...[...cautions].map((text) => ({ is: 'caution', text: common.caution({ text }) }) as const),
        ],
      },
    ],
  };
}

/** The same as text. Every line fits the width. */
export function puckerComparisonToText(comparison: PuckerComparison, options: TextOptions): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(puckerComparisonDocument(comparison, words), options);
}

function entry({ ranking, reports }: PuckerComparison, rank: number, words: PuckerWords): Entry {
  const { report, stack } = ranking[rank];
  const { risk, conditions } = reports[report];
  const [main] = risk.grade < 5 ? risk.drivers : [];
  return {
    level: gradeLevel(risk.grade),
    word: words.risk.grade(risk).toUpperCase(),
    head: words.pucker.comparison.rank({ rank: rank + 1, stack }),
    lines: [
      words.risk.backing(conditions),
      words.pucker.comparison.figures({
        grade: risk.grade,
        height: words.risk.height({ wrinkleMm: risk.wrinkleMm, range: risk.range.wrinkleMm }),
        grades: words.risk.grades({ range: risk.range.grade }),
        pullInMm: risk.pullInMm,
        cause: main ? causeWords(main.cause, conditions.stack.length > 0, words.risk).short : null,
      }),
    ],
  };
}

/** Whether it is sure which lies flattest. */
function orderOf({ ranking, reports }: PuckerComparison): 'sure' | 'open' | 'alike' {
  const heights = new Set(ranking.map(({ report }) => reports[report].risk.wrinkleMm));
  if (heights.size === 1) return 'alike';
  return ranking.some(({ tooCloseToCall }) => tooCloseToCall) ? 'open' : 'sure';
}

/** Whether the flattest is flatter than another for sure. */
function beside(
  { stack: best, report }: RankedStack,
  { stack: other, wrinkleMm, fallToFlattest: fall, tooCloseToCall }: RankedStack,
  { reports }: PuckerComparison,
  { pucker: { comparison } }: PuckerWords,
): string {
  if (reports[report].risk.wrinkleMm === wrinkleMm) return comparison.alike({ best, other });
  return comparison[tooCloseToCall ? 'tooClose' : 'flatter']({ best, other, fall });
}
