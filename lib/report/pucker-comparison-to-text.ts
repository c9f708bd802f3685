import { driverWords } from './driver-words.js';
import { backingWords } from './labelled.js';
import type { PuckerComparison } from './pucker-comparison.js';
import { bareLength, count, fixed, length } from './quantities.js';
import { NO_PAINT } from './render/paint.js';
import { printable } from './render/printable.js';
import { wrap } from './render/wrap.js';
import { riskPaint, riskWord, riskWordRange } from './risk-word.js';
import { setByYouWords } from './set-words.js';
import type { TextOptions } from './text-options.js';

const INDENT = '    ';

/** Sets a comparison as text: the backings, flattest first, then whether their order is sure. Every line fits the width. */
export function puckerComparisonToText(comparison: PuckerComparison, options: TextOptions): string {
  const { width, units, paint = NO_PAINT } = options;
  const { ranking, reports, file } = comparison;
  const { basis, conditions, setObjects } = reports[0];
  const lines = wrap(
    `${printable(file.path)} on ${printable(conditions.fabricName)}: ${count(ranking.length)} backings, flattest first`,
    width,
    '',
    '  ',
  ).map((line) => paint.strong(line));
  lines.push(...setByYouWords(setObjects).flatMap((text) => wrap(printable(text), width, '  ')));
  ranking.forEach(({ report, stack }, rank) => {
    const { risk, conditions: under } = reports[report];
    const [low, high] = risk.range.wrinkleMm;
    const word = riskWord(risk.grade).toUpperCase();
    const [main] = risk.drivers;
    lines.push(
      '',
      ...wrap(`${word}: ${printable(stack)}`, width, `${rank + 1}.  `, INDENT).map((line, i) =>
        i === 0 ? line.replace(word, riskPaint(risk.grade, paint)(word)) : line,
      ),
      ...wrap(backingWords(under), width, INDENT),
      ...wrap(
        `grade ${risk.grade}; wrinkles about ${length(risk.wrinkleMm, units)} high (${bareLength(low, units)} to ${bareLength(high, units)}: ${riskWordRange(risk.range.grade)}); pull-in ${length(risk.pullInMm, units)}${main ? `; mostly ${driverWords(main.cause, under.stack.length > 0).short}` : ''}`,
        width,
        INDENT,
      ),
    );
  });
  lines.push('', ...verdict(comparison, width), ...basis.restsOn.flatMap((line) => wrap(line, width)));
  const cautions = new Set(reports.flatMap((report) => report.cautions));
  for (const caution of cautions) lines.push(...wrap(caution, width, 'Caution: ', '         '));
  return `${lines.join('\n')}\n`;
}

function verdict({ ranking, reports }: PuckerComparison, width: number): string[] {
  const [best, ...others] = ranking;
  return others.flatMap(({ stack, wrinkleMm, fallToFlattest, tooCloseToCall }) => {
    const [a, b] = [printable(best.stack), printable(stack)];
    const same = reports[best.report].risk.wrinkleMm === wrinkleMm;
    if (same) return wrap(`No difference is predicted between ${a} and ${b}: the cheaper will do.`, width);
    const fall = `${fixed(100 * fallToFlattest, 0)}%`;
    return wrap(
      tooCloseToCall
        ? `Too close to call: ${a} comes out ${fall} lower than ${b}, but what is not known of these materials can turn that round. Sew both to be sure.`
        : `${a} lies flatter than ${b}: wrinkles ${fall} lower, more than what is not known of these materials can turn round.`,
      width,
    );
  });
}
