/** From a shop's graded and measured sew-outs to the parameters of the model that suit them. */
import { LieflatError } from '../core/errors.js';
import type { Catalogue } from '../materials/catalogue.js';
import { type FittedParameters, type MechanicsParameters, PARAMETERS } from '../mechanics/parameters.js';
import { prepare } from '../mechanics/risk.js';
import { type WidthInFile, widthInFile } from '../mechanics/ruler.js';
import { relaid, type SewnDesign } from '../stitch/relaid.js';
import {
  type Fit,
  type FittedParameter,
  fitSewOuts,
  type Looked,
  type Noise,
  predicted,
  priorsOf,
} from './fit.js';
import { type FreeName, freeValues } from './free-parameters.js';
import { nextSewOuts, type SewOutCandidate, type Suggestion } from './next-sew-outs.js';
import { isRefused, type Refused } from './refusal.js';
import type { Fault, RowFault } from './row-fault.js';
import type { LoggedSewOut } from './sew-out-log.js';
import { type ModelSettings, type SewOutModel, sewOutModels } from './sew-out-model.js';
import { type Support, supported, supportOf } from './support.js';
import { underlayText } from './underlay-text.js';

export interface CalibrateInput {
  readonly rows: readonly LoggedSewOut[];
  /** By the name that the log has for them. */
  readonly designs: ReadonlyMap<string, SewnDesign>;
  readonly catalogue: Catalogue;
  /** The shop's; what is not fitted stays as it is there. */
  readonly parameters: MechanicsParameters;
  /** Launderings that the shop judges by, for what to sew next. */
  readonly washes: number;
}

/** What decides how a sew-out comes out. */
export type SewOutSetting = Pick<
  LoggedSewOut,
  'file' | 'fabric' | 'stack' | 'stackText' | 'underlay' | 'underlayText' | 'washes'
>;

/** One reading beside what is predicted of it: a grade, or a width in mm. */
export interface ReadingResult {
  readonly seen: number;
  /** Predicted before the fit, after it, and had this reading been left out of it (first order). */
  readonly before: number;
  readonly predicted: number;
  readonly leftOut: number;
  /** So far from what is predicted that it should be looked at. */
  readonly outlying: boolean;
}

export interface RowResult extends Omit<LoggedSewOut, 'grade' | 'width'> {
  readonly grade: ReadingResult | null;
  readonly width: (ReadingResult & { readonly object: number; readonly fileMm: number }) | null;
}

/** Root mean square of what was seen minus what was predicted. */
export interface FitErrors {
  readonly readings: number;
  readonly before: number;
  readonly fitted: number;
  readonly leaveOneOut: number;
  /** Standard deviation of one reading, as the intervals take it. */
  readonly oneReading: number;
}

export interface Calibration {
  readonly parameters: readonly FittedParameter[];
  /** Left as they were, as the log says nothing of them. */
  readonly held: readonly FreeName[];
  readonly support: Support;
  readonly start: MechanicsParameters;
  readonly rows: readonly RowResult[];
  /** How many different ones there are among them. */
  readonly settings: number;
  /** Null where the fit rests on none of the kind. */
  readonly grades: FitErrors | null;
  readonly widths: FitErrors | null;
  readonly next: readonly Suggestion<SewOutSetting>[];
}

/** Beyond this many standard deviations a row is named: one in four hundred by chance. */
const OUTLYING = 3;
/** Combinations of fabric and backing that are thought of to sew next. */
const MOST_FABRICS = 6;
/** Sewn width beside the width in the file beyond which a reading is a slip: of another object, in inches, a point gone astray. */
const NARROWEST_PART = 0.5;
const WIDER_MM = 0.6;

const keyOf = ({ file, fabric, stackText, underlayText, washes }: SewOutSetting): string =>
  JSON.stringify([file, fabric, stackText, underlayText, washes]);

/**
 * Rows that cannot have been sewn or measured as they say: a design has no such object, or it is not a satin column that other underlay could be
 * laid under, or no object with one width, or one of quite another width.
 */
export function unsewnRows({ rows, designs }: Pick<CalibrateInput, 'rows' | 'designs'>): RowFault[] {
  return rows.flatMap(({ line, file, underlay, width }) => {
    const design = designs.get(file);
    if (!design) return [];
    const named = [...underlay.map(({ object }) => object), ...(width ? [width.object] : [])];
    const missing = named.find((id) => !design.objects.some((object) => object.id === id));
    if (missing !== undefined) return [{ line, code: 'object-unknown', params: { file, object: missing } }];
    const wrong = underlay.find(
      ({ object }) => !design.objects.some(({ id, kind }) => id === object && kind === 'satin'),
    );
    if (wrong) return [{ line, code: 'object-no-column', params: { file, object: wrong.object } }];
    const fault = width && widthFault(design, file, width.object, width.widthMm);
    return fault ? [{ line, ...fault }] : [];
  });
}

function widthFault(
  { stitches, objects }: SewnDesign,
  file: string,
  object: number,
  seenMm: number,
): Fault | null {
  const inFile = widthInFile(stitches, objects.find(({ id }) => id === object)!);
  if (!inFile) return { code: 'object-no-width', params: { file, object } };
  const { even, from: fromMm, to: toMm, widthMm: fileMm } = inFile;
  if (!even) return { code: 'object-uneven', params: { file, object, fromMm, toMm } };
  if (seenMm < NARROWEST_PART * fileMm || seenMm > fileMm + WIDER_MM)
    return { code: 'width-of-another', params: { file, object, fileMm, seenMm } };
  return null;
}

/** One reading of a row, ready for a fit. */
interface FitReading {
  readonly row: LoggedSewOut;
  readonly looked: Looked;
  readonly seen: number;
}

/** Rows are taken as they are: leave those of {@link unsewnRows} out before. Refused where the log cannot carry a fit. */
export async function calibrate(input: CalibrateInput): Promise<Calibration | Refused> {
  const { designs, catalogue, parameters: start } = input;
  const support = supportOf(input.rows);
  if (isRefused(support)) return support;
  const used = (row: LoggedSewOut) => (support.grades && row.grade !== null) || row.width !== null;
  const rows = input.rows.filter(used);
  const priors = priorsOf(PARAMETERS);
  const settings = new Map(rows.map((row) => [keyOf(row), row as SewOutSetting]));
  const shop: ModelSettings = { catalogue, parameters: start, priors };
  const models = modelled([...settings.values()], designs, shop, true);
  const readings = rows.flatMap((row) =>
    readingsOf(row, models.get(keyOf(row))!, designs.get(row.file)!, support),
  );
  const told = await supported(
    readings.map(({ looked }) => looked),
    start,
    priors,
  );
  if (isRefused(told)) return told;
  const { names, held } = told;
  const fit = await fitSewOuts(
    readings.map(({ looked, seen }) => ({ ...looked, seen })),
    names,
    start,
    priors,
  );
  const asBefore = freeValues(start);
  const results = readings.map(
    ({ looked, seen }, i): ReadingResult => ({
      seen,
      before: predicted(looked, asBefore),
      predicted: seen - fit.residuals[i],
      leftOut: seen - fit.leftOut[i],
      outlying: Math.abs(fit.standardised[i]) > OUTLYING,
    }),
  );
  const errors = (of: Looked['of']) =>
    errorsOf(
      results.filter((_, i) => readings[i].looked.of === of),
      fit.noise[of],
    );
  const resultOf = (row: LoggedSewOut, of: Looked['of']) => {
    const i = readings.findIndex((reading) => reading.row === row && reading.looked.of === of);
    return i < 0 ? null : { result: results[i], looked: readings[i].looked };
  };
  return {
    parameters: fit.parameters,
    held,
    support,
    start,
    rows: rows.map((row): RowResult => {
      const width = resultOf(row, 'width');
      return {
        ...row,
        grade: resultOf(row, 'grade')?.result ?? null,
        width:
          width?.looked.of === 'width'
            ? { ...width.result, object: width.looked.object, fileMm: width.looked.fileMm }
            : null,
      };
    }),
    settings: settings.size,
    grades: errors('grade'),
    widths: errors('width'),
    next: nextOf(fit, rows, models, { designs, shop, washes: input.washes }),
  };
}

function readingsOf(
  row: LoggedSewOut,
  model: SewOutModel,
  design: SewnDesign,
  support: Support,
): FitReading[] {
  const out: FitReading[] = [];
  if (support.grades && row.grade !== null)
    out.push({ row, looked: { of: 'grade', model }, seen: row.grade });
  if (row.width) {
    const inFile = widthOf(design, row.width.object)!;
    out.push({ row, looked: asWidth(model, row.width.object, inFile), seen: row.width.widthMm });
  }
  return out;
}

const widthOf = ({ stitches, objects }: SewnDesign, id: number): WidthInFile | null =>
  widthInFile(stitches, objects.find((object) => object.id === id)!);

const asWidth = (model: SewOutModel, object: number, { widthMm, perAlong }: WidthInFile): Looked => ({
  of: 'width',
  model,
  object,
  fileMm: widthMm,
  perAlong,
});

function errorsOf(results: readonly ReadingResult[], oneReading: Noise['grade']): FitErrors | null {
  if (results.length === 0) return null;
  const rms = (of: (one: ReadingResult) => number) =>
    Math.sqrt(results.reduce((sum, one) => sum + (one.seen - of(one)) ** 2, 0) / results.length);
  return {
    readings: results.length,
    before: rms(({ before }) => before),
    fitted: rms((one) => one.predicted),
    leaveOneOut: rms(({ leftOut }) => leftOut),
    oneReading,
  };
}

/** Models by setting; a design is prepared once for all that it is sewn on in a hoop, and once on a cap frame. */
function modelled(
  settings: readonly SewOutSetting[],
  designs: ReadonlyMap<string, SewnDesign>,
  shop: ModelSettings,
  leveled: boolean,
): Map<string, SewOutModel> {
  const out = new Map<string, SewOutModel>();
  const { catalogue } = shop;
  const onCap = ({ fabric }: SewOutSetting): boolean => catalogue.fabrics[fabric].cap;
  for (const [, alike] of groupedBy(settings, (setting) =>
    JSON.stringify([setting.file, setting.underlayText, onCap(setting)]),
  )) {
    const [{ file, underlay }] = alike;
    const sewn = designs.get(file);
    if (!sewn)
      throw new LieflatError({
        code: 'bad-argument',
        place: file,
        what: 'the design is not among those given',
        todo: 'give every design that the log names',
      });
    const choices = new Map(underlay.map(({ object, to }) => [object, to]));
    const changed = choices.size > 0 ? relaid(sewn, choices) : sewn;
    const design = prepare({ ...changed, onCap: onCap(alike[0]) }, catalogue);
    for (const [, same] of groupedBy(alike, ({ fabric, stackText }) => `${fabric} ${stackText}`)) {
      const washes = [...new Set(same.map((setting) => setting.washes))];
      const models = sewOutModels(design, same[0], washes, shop, leveled);
      for (const setting of same) out.set(keyOf(setting), models.get(setting.washes)!);
    }
  }
  return out;
}

/** What would tell most: sewing and grading, or a ruler on what lies there already. */
function nextOf(
  fit: Fit,
  rows: readonly LoggedSewOut[],
  models: ReadonlyMap<string, SewOutModel>,
  { designs, shop, washes }: { designs: CalibrateInput['designs']; shop: ModelSettings; washes: number },
): Suggestion<SewOutSetting>[] {
  const settings = new Map(rows.map((row) => [keyOf(row), row as SewOutSetting]));
  const thoughtOf = otherSettings(rows, washes);
  const roughly = modelled(thoughtOf, designs, shop, false);
  const candidates = [...settings.values(), ...thoughtOf].flatMap(
    (setting): SewOutCandidate<SewOutSetting>[] => {
      const model = (models.get(keyOf(setting)) ?? roughly.get(keyOf(setting)))!;
      const graded: SewOutCandidate<SewOutSetting> = { setting, looked: { of: 'grade', model } };
      if (setting.washes > 0) return [graded];
      const design = designs.get(setting.file)!;
      const measured = rows.filter((row) => row.width && keyOf(row) === keyOf(setting));
      const widths = design.objects.flatMap((object): SewOutCandidate<SewOutSetting>[] => {
        const inFile = widthInFile(design.stitches, object);
        return inFile?.even && !measured.some(({ width }) => width!.object === object.id)
          ? [{ setting, looked: asWidth(model, object.id, inFile) }]
          : [];
      });
      return [graded, ...widths];
    },
  );
  return nextSewOuts(fit, candidates);
}

/** The design that is logged most, on all fabrics and backings of the log and washed otherwise: what the shop could sew next without buying anything. */
function otherSettings(rows: readonly LoggedSewOut[], washes: number): SewOutSetting[] {
  const byDesign = [
    ...groupedBy(rows, ({ file, underlayText }) => JSON.stringify([file, underlayText])).values(),
  ];
  const [{ file, underlay }] = byDesign.reduce((most, these) => (these.length > most.length ? these : most));
  const logged = new Set(rows.map(keyOf));
  const stacks = [...new Map(rows.map(({ stackText, stack }) => [stackText, stack]))];
  const layup = [...new Set(rows.map(({ fabric }) => fabric))].flatMap((fabric) =>
    stacks.map(([stackText, stack]) => ({ fabric, stackText, stack })),
  );
  // Where there are too many, some of all.
  const every = Math.max(1, layup.length / MOST_FABRICS);
  return layup
    .filter((_, i) => Math.floor(i / every) !== Math.floor((i - 1) / every))
    .flatMap((on) =>
      [...new Set([0, 1, washes])].map((n) => ({
        file,
        underlay,
        underlayText: underlayText(underlay),
        ...on,
        washes: n,
      })),
    )
    .filter((setting) => !logged.has(keyOf(setting)));
}

function groupedBy<T>(items: readonly T[], key: (item: T) => string): Map<string, T[]> {
  const out = new Map<string, T[]>();
  for (const item of items) {
    const group = out.get(key(item));
    if (group) group.push(item);
    else out.set(key(item), [item]);
  }
  return out;
}

/** What a profile's `calibration` says after the fit. */
export function calibrationKey({ parameters, start, grades, widths }: Calibration): FittedParameters {
  const counted = (n: number, what: string) => (n > 0 ? [`${n} ${what}${n === 1 ? '' : 's'}`] : []);
  const readings = [
    ...counted(grades?.readings ?? 0, 'grade'),
    ...counted(widths?.readings ?? 0, 'measured width'),
  ].join(' and ');
  return Object.fromEntries(
    parameters.map(({ name, value, low, high }) => {
      const round = (x: number) => Number(x.toPrecision(4));
      return [
        name,
        {
          value: round(value),
          low: round(Math.min(low, value)),
          high: round(Math.max(high, value)),
          basis: `fitted to ${readings} of the shop's own; before ${start[name].value}, built-in ${PARAMETERS[name].value}`,
        },
      ];
    }),
  );
}
