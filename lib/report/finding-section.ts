import type { Finding, Severity } from '../vetting/finding.js';
import { messageInUnits } from './message-in-units.js';
import { NO_PAINT, severityWord } from './paint.js';
import { printable } from './printable.js';
import { count, place, type Units } from './quantities.js';
import type { TextOptions } from './text-options.js';
import { wrap } from './wrap.js';

/** Places named for each kind of finding; the rest are counted. */
const MOST_PLACES = 3;
const SEVERITIES = ['fail', 'warn', 'note'] as const satisfies readonly Severity[];
const INDENT = '  ';

/**
 * Findings under a title: one entry for each kind, the severest first, with its worst places and what to do at the
 * worst of them. No lines at all where there are none.
 */
export function findingSection(title: string, findings: readonly Finding[], options: TextOptions): string[] {
  if (findings.length === 0) return [];
  const paint = options.paint ?? NO_PAINT;
  const lines = [title];
  for (const severity of SEVERITIES) {
    const byCode = new Map<string, Finding[]>();
    for (const finding of findings) {
      if (finding.severity !== severity) continue;
      const same = byCode.get(finding.code);
      if (same) same.push(finding);
      else byCode.set(finding.code, [finding]);
    }
    for (const [code, found] of byCode) {
      const ranked = worstFirst(found);
      const label = `${INDENT}${severity.toUpperCase()}  `;
      const indent = ' '.repeat(label.length);
      const [first, ...more] = wrap(
        `${printable(code)}${where(ranked, options.units)}`,
        options.width,
        label,
        indent,
      );
      lines.push(
        `${INDENT}${severityWord(severity, paint)}${paint.strong(first.slice(label.length - 2))}`,
        ...more.map((line) => paint.strong(line)),
        ...wrap(printable(messageInUnits(ranked[0].message, options.units)), options.width, indent),
      );
    }
  }
  return lines;
}

/** `: object 3 at 1.0, 2.0 mm; object 5 at …; and 4 more`. */
function where(findings: readonly Finding[], units: Units): string {
  const places = findings
    .map(({ object, at }) =>
      [object === null ? '' : `object ${object}`, at ? `at ${place(at.x, at.y, units)} ${units}` : '']
        .filter(Boolean)
        .join(' '),
    )
    .filter(Boolean);
  if (places.length === 0) return '';
  const left = places.length - MOST_PLACES;
  return `: ${places.slice(0, MOST_PLACES).join('; ')}${left > 0 ? `; and ${count(left)} more` : ''}`;
}

/** Furthest past its limit first: that one speaks for its kind. */
function worstFirst(findings: readonly Finding[]): Finding[] {
  const excess = ({ measured, limit }: Finding): number =>
    typeof measured === 'number' && typeof limit === 'number' ? Math.abs(measured - limit) : 0;
  return findings.toSorted((a, b) => excess(b) - excess(a));
}
