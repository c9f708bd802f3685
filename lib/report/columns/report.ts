/** The satin columns of a design, widest first. */
import type { ObjectMeasures } from '../../measure/measures.js';
import type { UnderlayKind } from '../../segment/objects.js';
import type { Finding } from '../../vetting/finding.js';
import { HEAVY_UNDERLAY } from '../../vetting/heavy-columns.js';
import { csvRecord } from '../csv.js';
import { plainOf } from '../document.js';
import { messageInUnits } from '../message-in-units.js';
import { wordsFor } from '../phrases/words.js';
import { wordsOf } from '../phrases/words-of.js';
import { bareLength, count, counted, length, lengthInBoth, place } from '../quantities.js';
import { NO_PAINT } from '../render/paint.js';
import { printable } from '../render/printable.js';
import { textTable } from '../render/text-table.js';
import { wrap } from '../render/wrap.js';
import { round, roundAll } from '../round.js';
import { setFacts } from '../set-words.js';
import type { TextOptions } from '../text-options.js';
import type { ConditionsReport, RiskReport, SetObjectReport, VetReport } from '../vet/report.js';

/** The finding that calls for one where there is none. */
export const NO_UNDERLAY = 'wide-satin-no-underlay';

/** What a finding calls for, from which width, and what that rests on. */
export interface CalledFor {
  message: string;
  limitMm: number | string | null;
  basis: string;
}

export interface ColumnReport {
  object: number;
  block: number;
  group: number;
  /** The widest place: stitch index and position. */
  stitch: number;
  at: { x: number; y: number };
  lengthMm: number;
  widthMm: { min: number; median: number; p95: number; max: number };
  spacingMm: { min: number; median: number; max: number } | null;
  split: boolean;
  /** The shop has said what it is. */
  setByShop: boolean;
  underlay: { kinds: UnderlayKind[]; spacingMm: number | null };
  /** Why a lighter underlay is called for, or null where it is not. */
  lighterUnderlay: CalledFor | null;
  /** Why an underlay is called for where there is none at all, or null. */
  missingUnderlay: CalledFor | null;
  /** On the goods asked for: as it is, and with every column that needs it relaid on a light fill; null without goods. */
  foreseen: { now: RiskReport; onLightFill: RiskReport | null } | null;
}

export interface ColumnsReport {
  schema: 'lieflat/columns@1';
  file: VetReport['file'];
  /** Only columns wider than this are listed. */
  overMm: number | null;
  columns: ColumnReport[];
  /** What the shop has said of the design's objects. */
  setObjects: SetObjectReport[];
  /** The whole design likewise; `relaid` are the objects that the light fill goes under. */
  foreseen: {
    conditions: ConditionsReport;
    relaid: number[];
    now: RiskReport;
    onLightFill: RiskReport | null;
  } | null;
}

/** What the columns do on some goods: of the design, and of each object by its id. */
export interface ColumnsForeseen {
  conditions: ConditionsReport;
  relaid: readonly number[];
  now: RiskByObject;
  onLightFill: RiskByObject | null;
}

export interface RiskByObject {
  design: RiskReport;
  objects: ReadonlyMap<number, RiskReport>;
}

/**
 * Lists satin columns by width, widest first: by the width that 95 of 100 swings stay within, which a single
 * stray swing does not move.
 *
 * @param overMm leave out columns not wider than this; null for all
 * @param foreseen what the goods do, if they were asked for
 */
export function columnsReport(
  vetting: { report: VetReport; measures: readonly ObjectMeasures[]; findings: readonly Finding[] },
  overMm: number | null = null,
  foreseen: ColumnsForeseen | null = null,
): ColumnsReport {
  const found = new Map(vetting.findings.map((finding) => [`${finding.code} ${finding.object}`, finding]));
  const calledFor = (code: string, object: number): CalledFor | null => {
    const finding = found.get(`${code} ${object}`);
    return finding
      ? {
          message: wordsOf(finding, { units: 'mm', detail: 'full' }),
          limitMm: finding.limit,
          basis: finding.basis,
        }
      : null;
  };
  const columns: ColumnReport[] = [];
  for (const { object, widthMm, widestAt, spacingMm, lengthMm } of vetting.measures) {
    if (widthMm === null || widestAt === null || (overMm !== null && !(widthMm.p95 > overMm))) continue;
    columns.push({
      object: object.id,
      block: object.block,
      group: object.group,
      stitch: widestAt.stitch,
      at: { x: round(widestAt.x), y: round(widestAt.y) },
      lengthMm: round(lengthMm),
      widthMm: roundAll(widthMm),
      spacingMm: spacingMm && roundAll(spacingMm),
      split: object.split,
      setByShop: object.setByShop,
      underlay: {
        kinds: [...object.underlay.kinds],
        spacingMm: object.underlay.spacingMm === null ? null : round(object.underlay.spacingMm),
      },
      lighterUnderlay: calledFor(HEAVY_UNDERLAY, object.id),
      missingUnderlay: calledFor(NO_UNDERLAY, object.id),
      foreseen: foreseen && {
        now: foreseen.now.objects.get(object.id)!,
        onLightFill: foreseen.onLightFill?.objects.get(object.id) ?? null,
      },
    });
  }
  columns.sort((a, b) => b.widthMm.p95 - a.widthMm.p95 || a.object - b.object);
  return {
    schema: 'lieflat/columns@1',
    file: vetting.report.file,
    overMm,
    columns,
    setObjects: vetting.report.setObjects,
    foreseen: foreseen && {
      conditions: foreseen.conditions,
      relaid: [...foreseen.relaid],
      now: foreseen.now.design,
      onLightFill: foreseen.onLightFill?.design ?? null,
    },
  };
}

/** Sets the list as text, every line within the width. */
export function columnsToText(report: ColumnsReport, options: TextOptions): string {
  const { width, units, paint = NO_PAINT } = options;
  const { columns, overMm } = report;
  const words = wordsFor({ units, detail: 'full' });
  const { common } = words;
  const lighter = columns.filter((c) => c.lighterUnderlay);
  const bare = columns.filter((c) => c.missingUnderlay);
  const over = overMm === null ? '' : ` wider than ${lengthInBoth(overMm, units)}`;
  const lines = wrap(
    `${printable(report.file.path)}: ${counted(columns.length, 'satin column')}${over}${
      lighter.length > 0 ? `, ${count(lighter.length)} in need of a lighter underlay` : ''
    }${bare.length > 0 ? `, ${count(bare.length)} wide and without any underlay` : ''}`,
    width,
    '',
    '  ',
  ).map((line) => paint.strong(line));
  lines.push(
    ...setFacts(report.setObjects, words).flatMap(({ text }) => wrap(printable(plainOf(text)), width, '  ')),
  );
  if (columns.length === 0) return `${lines.join('\n')}\n`;
  lines.push(
    ...textTable(
      [
        { head: 'object', align: 'right' },
        { head: `width ${units}`, align: 'right' },
        // What the goods do takes the room of these two.
        ...(report.foreseen
          ? []
          : ([
              { head: 'median', align: 'right' },
              { head: 'spacing', align: 'right' },
            ] as const)),
        { head: `at x, y ${units}`, align: 'right' },
        { head: 'underlay', align: 'left', flexible: true },
        { head: 'lighter?', align: 'left' },
        ...(report.foreseen ? ([{ head: `wrinkle ${units}`, align: 'right' }] as const) : []),
      ],
      columns.map((c) => [
        String(c.object),
        bareLength(c.widthMm.p95, units),
        ...(c.foreseen
          ? []
          : [bareLength(c.widthMm.median, units), c.spacingMm ? bareLength(c.spacingMm.median, units) : '-']),
        place(c.at.x, c.at.y, units),
        `${common.underlayList(c.underlay)}${c.split ? ' (split satin)' : ''}${c.setByShop ? ' (set by you)' : ''}`,
        c.lighterUnderlay ? 'YES' : c.missingUnderlay ? 'NO UNDERLAY' : 'no',
        ...(c.foreseen ? [change(c.foreseen, (r) => bareLength(r.wrinkleMm, units), ' -> ')] : []),
      ]),
      width,
      '  ',
    ),
  );
  if (report.foreseen) lines.push(...foreseenLines(report.foreseen, lighter.length, options));
  const explained = [
    ['YES', lighter[0]?.lighterUnderlay],
    ['NO UNDERLAY', bare[0]?.missingUnderlay],
  ] as const;
  for (const [word, called] of explained) {
    if (!called) continue;
    const label = `  ${word}: `;
    lines.push(
      '',
      ...wrap(printable(messageInUnits(called.message, units)), width, label, ' '.repeat(label.length)),
    );
  }
  return `${lines.join('\n')}\n`;
}

/** A figure as it is and, where something is relaid, as it would be. */
function change(
  { now, onLightFill }: { now: RiskReport; onLightFill: RiskReport | null },
  of: (risk: RiskReport) => string,
  arrow: string,
): string {
  return of(now) + (onLightFill ? arrow + of(onLightFill) : '');
}

function foreseenLines(
  foreseen: NonNullable<ColumnsReport['foreseen']>,
  lighter: number,
  { width, units }: TextOptions,
): string[] {
  const { conditions, relaid } = foreseen;
  const { risk: words } = wordsFor({ units, detail: 'full' });
  const of = (r: RiskReport): string =>
    `${words.grade({ grade: r.grade })} (grade ${r.grade}, wrinkles ${length(r.wrinkleMm, units)})`;
  const columns = counted(relaid.length, 'column');
  const what =
    relaid.length === 0
      ? ''
      : relaid.length === lighter
        ? `, with a light fill under ${columns} instead`
        : `, with a light fill instead under ${relaid.length === 1 ? 'the one column of the design that needs' : `all ${columns} of the design that need`} it`;
  return [
    '',
    ...wrap(
      `On ${printable(conditions.fabricName)}, over ${printable(words.backing({ backing: conditions.stackName, given: conditions.stackGiven }))}${what}: ${change(foreseen, of, ' would become ')}. ${words.sewATest}`,
      width,
      '  ',
    ),
  ];
}

/** The heading record of the table, once however many files. */
export const columnsCsvHeader = (): string =>
  csvRecord([
    'file',
    'object',
    'block',
    'group',
    'x_mm',
    'y_mm',
    'length_mm',
    'width_median_mm',
    'width_p95_mm',
    'width_max_mm',
    'spacing_median_mm',
    'split',
    'underlay',
    'underlay_spacing_mm',
    'lighter_underlay',
    'fabric',
    'backing',
    'grade',
    'wrinkle_mm',
    'light_fill_grade',
    'light_fill_wrinkle_mm',
    'set_by_shop',
  ]);

/** One record a column. */
export function columnsToCsvRecords(report: ColumnsReport): string {
  return report.columns
    .map((c) =>
      csvRecord([
        report.file.path,
        c.object,
        c.block,
        c.group,
        c.at.x,
        c.at.y,
        c.lengthMm,
        c.widthMm.median,
        c.widthMm.p95,
        c.widthMm.max,
        c.spacingMm?.median,
        c.split,
        c.underlay.kinds.join(' '),
        c.underlay.spacingMm,
        c.lighterUnderlay !== null,
        report.foreseen?.conditions.fabric,
        report.foreseen?.conditions.stackText,
        c.foreseen?.now.grade,
        c.foreseen?.now.wrinkleMm,
        c.foreseen?.onLightFill?.grade,
        c.foreseen?.onLightFill?.wrinkleMm,
        c.setByShop,
      ]),
    )
    .join('');
}
