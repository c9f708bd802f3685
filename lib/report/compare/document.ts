import type { UnderlayKind } from '../../segment/objects.js';
import { findingSection } from '../finding-section.js';
import { gradeStep } from '../phrases/en/risk.js';
import { wordsFor } from '../phrases/words.js';
import {
  bareLength,
  count,
  counted,
  duration,
  fixed,
  length,
  threadLength,
  type Units,
} from '../quantities.js';
import { NO_PAINT } from '../render/paint.js';
import { printable } from '../render/printable.js';
import { textTable } from '../render/text-table.js';
import { wrap } from '../render/wrap.js';
import type { TextOptions } from '../text-options.js';
import type { Change, CompareReport, ObjectChange, RiskChange, Value } from './report.js';

/** Objects listed one by one; the rest are counted. */
const MOST_OBJECTS = 12;
/** Objects named whose wrinkles changed most. */
const MOST_RISKS = 3;
/** A smaller change of wrinkle height is not worth a word, mm. */
const LEAST_WRINKLE_MM = 0.01;
const INDENT = '  ';

/** What a field is called in print, and what its figure is. */
const FIELDS: Readonly<
  Record<string, readonly [label: string, unit: 'mm' | 'm' | 'deg' | 'time' | 'count' | 'word']>
> = {
  stitches: ['stitches', 'count'],
  jumps: ['jumps', 'count'],
  trims: ['trims', 'count'],
  colourChanges: ['color changes', 'count'],
  stops: ['stops', 'count'],
  widthMm: ['width', 'mm'],
  heightMm: ['height', 'mm'],
  threadMm: ['thread', 'm'],
  bobbinMm: ['bobbin thread', 'm'],
  sewSeconds: ['sewing time', 'time'],
  'bounds.minX': ['left edge', 'mm'],
  'bounds.minY': ['lower edge', 'mm'],
  'bounds.maxX': ['right edge', 'mm'],
  'bounds.maxY': ['upper edge', 'mm'],
  kind: ['kind', 'word'],
  centreX: ['middle, x', 'mm'],
  centreY: ['middle, y', 'mm'],
  sizeX: ['size across', 'mm'],
  sizeY: ['size up', 'mm'],
  'widthMm.median': ['column width', 'mm'],
  'widthMm.max': ['widest swing', 'mm'],
  'spacingMm.median': ['spacing', 'mm'],
  angleDeg: ['stitch angle', 'deg'],
  split: ['split', 'word'],
  'underlay.kinds': ['underlay', 'word'],
  'underlay.spacingMm': ['underlay spacing', 'mm'],
  'underlay.stitches': ['underlay stitches', 'count'],
  'locks.start': ['locked at start', 'word'],
  'locks.end': ['locked at end', 'word'],
};

/** Sets a comparison as text, every line within the width. */
export function compareToText(report: CompareReport, options: TextOptions): string {
  const { width, units } = options;
  const paint = options.paint ?? NO_PAINT;
  const sections: string[][] = [
    wrap(
      `${headline(report)}: ${printable(report.before.path)} -> ${printable(report.after.path)}`,
      width,
      '',
      INDENT,
    ).map((line) => paint.strong(line)),
  ];
  sections.push(riskSection(report, width, units));
  if (report.design.length > 0) {
    sections.push([
      'Design',
      ...textTable(
        [
          { head: 'what', align: 'left' },
          { head: 'before', align: 'right' },
          { head: 'after', align: 'right' },
          { head: 'change', align: 'right' },
        ],
        report.design.map((c) => changeRow(c, units)),
        width,
        INDENT,
      ),
    ]);
  }
  if (report.related) {
    const { lost, gained } = report.findings;
    sections.push(
      objectSection(report, width, units),
      findingSection(`No longer found: ${count(lost.length)}`, lost, options),
      findingSection(`New findings: ${count(gained.length)}`, gained, options),
    );
  } else sections.push(strangers(report, width));
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}

function headline({ objects, design, findings, related }: CompareReport): string {
  if (!related) return 'Two different designs';
  const same =
    design.length === 0 &&
    objects.changed.length + objects.removed.length + objects.added.length === 0 &&
    findings.lost.length + findings.gained.length === 0;
  if (same) return 'No difference';
  const worse = findings.gained.filter((f) => f.severity !== 'note').length;
  const better = findings.lost.filter((f) => f.severity !== 'note').length;
  if (worse > 0 && better > 0) return 'Some better, some worse';
  if (worse > 0) return 'Worse';
  if (better > 0) return 'Better';
  return 'Changed';
}

/** What is said in place of lists that would hold everything in either design. */
function strangers({ objects: { before, after, alike } }: CompareReport, width: number): string[] {
  const again = alike === 0 ? 'none' : `only ${count(alike)}`;
  return wrap(
    `Of ${counted(before, 'object')} before and ${count(after)} after ${again} can be told to be the same, so objects and findings are not held against each other here; lieflat vet tells of each design, --format json lists all.`,
    width,
  );
}

/** Which of the two lies flatter on the fabric, whether that is sure, and where it shows most. */
function riskSection({ risk, related }: CompareReport, width: number, units: Units): string[] {
  if (risk === null) return [];
  const { conditions, objects } = risk;
  const { risk: words } = wordsFor({ units, detail: 'full' });
  const most = objects
    .filter(({ risk: of }) => Math.abs(wrinkleChange(of)) >= LEAST_WRINKLE_MM)
    .toSorted(
      (a, b) => Math.abs(wrinkleChange(b.risk)) - Math.abs(wrinkleChange(a.risk)) || a.before - b.before,
    );
  const named = most
    .slice(0, MOST_RISKS)
    .map((o) => `${objectName(o)} (wrinkles ${wrinkles(o.risk, units)})`)
    .join(', ');
  return [
    ...wrap(
      `On ${printable(conditions.fabricName)}, over ${printable(words.backing({ backing: conditions.stackName, given: conditions.stackGiven }))}`,
      width,
    ),
    ...wrap(riskWords(risk, units), width, INDENT),
    ...(related && most.length > 0
      ? wrap(`changed most: ${most.length === 1 ? 'object' : 'objects'} ${named}`, width, INDENT)
      : []),
  ];
}

const wrinkleChange = ({ before, after }: RiskChange): number => after.wrinkleMm - before.wrinkleMm;

const wrinkles = ({ before, after }: RiskChange, units: Units): string =>
  `${bareLength(before.wrinkleMm, units)} -> ${length(after.wrinkleMm, units)}`;

function riskWords(risk: RiskChange, units: Units): string {
  const { before, after, flatter, tooCloseToCall } = risk;
  const grade = ({ grade }: RiskChange['after']): string =>
    `${grade} (${wordsFor({ units, detail: 'full' }).risk.grade({ grade })})`;
  const grades = `grade ${grade(before)} -> ${grade(after)}, wrinkles ${wrinkles(risk, units)} high`;
  if (flatter === null) return `no difference is predicted: ${grades}`;
  if (tooCloseToCall && gradeStep(before.grade) === 0 && gradeStep(after.grade) === 0)
    return `both lie flat: ${grades}`;
  return tooCloseToCall
    ? `too close to call: the one ${flatter} comes out flatter, ${grades}, but typical values cannot settle it; sew both to be sure`
    : `the one ${flatter} lies flatter for sure: ${grades}`;
}

function objectSection({ objects }: CompareReport, width: number, units: Units): string[] {
  const { changed, removed, added, unchanged } = objects;
  if (changed.length + removed.length + added.length === 0) return [];
  const ids = (all: readonly number[]): string =>
    `${all.slice(0, MOST_OBJECTS).join(', ')}${all.length > MOST_OBJECTS ? ` and ${count(all.length - MOST_OBJECTS)} more` : ''}`;
  const most = changed.toSorted((a, b) => b.changes.length - a.changes.length || a.before - b.before);
  const shown = most.slice(0, MOST_OBJECTS);
  return [
    ...wrap(
      `Objects: ${count(objects.before)} before, ${count(objects.after)} after; ${count(unchanged)} as they were`,
      width,
    ),
    ...(removed.length > 0 ? wrap(`removed: ${ids(removed)} (numbers before)`, width, INDENT) : []),
    ...(added.length > 0 ? wrap(`added: ${ids(added)} (numbers after)`, width, INDENT) : []),
    ...(shown.length > 0
      ? textTable(
          [
            { head: 'object', align: 'right' },
            { head: 'what changed', align: 'left', flexible: true },
          ],
          shown.map((o) => [objectName(o), o.changes.map((c) => changeWords(c, units)).join('; ')]),
          width,
          INDENT,
        )
      : []),
    ...(most.length > shown.length
      ? wrap(
          `and ${counted(most.length - shown.length, 'more changed object')}; --format json lists all`,
          width,
          INDENT,
        )
      : []),
  ];
}

function objectName({ before, after }: Pick<ObjectChange, 'before' | 'after'>): string {
  return before === after ? String(before) : `${before} -> ${after}`;
}

function changeRow({ what, before, after }: Change, units: Units): string[] {
  const share =
    typeof before === 'number' && typeof after === 'number' && before > 0
      ? `${after >= before ? '+' : ''}${fixed((100 * (after - before)) / before, 1)} %`
      : '';
  return [FIELDS[what][0], shown(what, before, units), shown(what, after, units), share];
}

function changeWords({ what, before, after }: Change, units: Units): string {
  return `${FIELDS[what][0]} ${shown(what, before, units, true)} -> ${shown(what, after, units)}`;
}

function shown(what: string, value: Value, units: Units, bare = false): string {
  if (value === null || value === '') return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (what === 'underlay.kinds')
    return wordsFor({ units, detail: 'full' }).common.underlayList({
      kinds: String(value).split(' ') as UnderlayKind[],
    });
  if (typeof value === 'string') return value;
  switch (FIELDS[what][1]) {
    case 'mm':
      return bare ? bareLength(value, units) : length(value, units);
    case 'm':
      return threadLength(value, units);
    case 'deg':
      return `${fixed(value, 0)}°`;
    case 'time':
      return duration(value);
    default:
      return count(value);
  }
}
