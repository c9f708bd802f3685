/** What a vet report foresees on some goods, and what is advised for them. */
import { driverWords } from '../driver-words.js';
import { fixed, length, type Units } from '../quantities.js';
import { riskWords } from '../summary.js';
import type { VetReport } from '../vet-report.js';
import { html, tag } from './markup.js';
import { factList } from './table.js';

/** Nothing where no goods were named. */
export function goodsParts(report: VetReport, units: Units): string {
  const words = riskWords(report, units);
  if (report.risk === null || words === null) return '';
  const { drivers, conditions, pullInMm } = report.risk;
  const backed = conditions.stack.length > 0;
  return [
    tag('h3', {}, 'On the goods'),
    factList([
      ['sewn', html(words.goods)],
      ['risk', `${tag('strong', {}, html(words.word))} ${html(words.rest)}`],
      ['pull-in', html(`edges move in by about ${length(pullInMm, units)}`)],
    ]),
    drivers.length > 0
      ? tag('p', {}, 'What the wrinkles come from:') +
        tag(
          'ul',
          {},
          ...drivers.map(({ cause, share }) => {
            const { short, why } = driverWords(cause, backed);
            return tag('li', {}, html(`${short}, ${fixed(share * 100, 0)} %: ${why}`));
          }),
        )
      : '',
    adviceParts(report),
  ].join('\n');
}

function adviceParts({ advice, objects }: VetReport): string {
  const whole = lines(advice);
  const each = objects
    .map((object) => [object.id, lines(object.advice)] as const)
    .filter(([, text]) => text.length > 0);
  if (whole.length === 0 && each.length === 0) return '';
  return [
    tag('h3', {}, 'What is advised'),
    whole.length > 0 ? tag('ul', {}, ...whole.map((line) => tag('li', {}, html(line)))) : '',
    each.length > 0 ? factList(each.map(([id, text]) => [`object ${id}`, text.map(html).join('<br>')])) : '',
  ].join('\n');
}

/** An advice in words, a line each. */
function lines(advice: object | null): readonly string[] {
  return advice !== null && 'text' in advice && Array.isArray(advice.text) ? advice.text.map(String) : [];
}
