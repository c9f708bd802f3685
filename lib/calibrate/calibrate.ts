/** From a shop's graded sew-outs to the parameters of the model that suit them. */
import { LieflatError } from '../core/errors.js';
import type { Catalogue } from '../materials/catalogue.js';
import type { ParameterOverrides } from '../mechanics/parameter-overrides.js';
import { type MechanicsParameters, PARAMETERS } from '../mechanics/parameters.js';
import { type PreparedDesign, prepareRelaid } from '../mechanics/prepared-design.js';
import { prepare } from '../mechanics/risk.js';
import { relaid, type SewnDesign } from '../stitch/relaid.js';
import { type FittedParameter, fitGrades, foretoldGrade, priorsOf } from './fit.js';
import { freeValues } from './free-parameters.js';
import { type HeightTable, heightTables, type TableSettings } from './heights.js';
import { type Candidate, nextSewOuts, type Suggestion } from './next-sew-outs.js';
import type { LoggedSewOut, RowFault } from './sew-out-log.js';
import { type HeldParameter, requireSupport, supported } from './support.js';
import { underlayText } from './underlay-text.js';

export interface CalibrateInput {
  readonly rows: readonly LoggedSewOut[];
  /** By the name that the log has for them. */
  readonly designs: ReadonlyMap<string, SewnDesign>;
  readonly catalogue: Catalogue;
  /** The shop's; what is not fitted stays as it is there. */
  readonly parameters?: MechanicsParameters;
  /** Launderings that the shop judges by, for what to sew next. */
  readonly washes: number;
  /** What the log is called in errors. */
  readonly place: string;
}

/** What decides how a sew-out comes out. */
export type Setting = Pick<
  LoggedSewOut,
  'file' | 'fabric' | 'stack' | 'stackText' | 'underlay' | 'underlayText' | 'washes'
>;

export interface RowResult extends LoggedSewOut {
  /** Grade foretold before the fit, after it, and had this row been left out of it (first order). */
  readonly before: number;
  readonly foretold: number;
  readonly leftOut: number;
  /** So far from what is foretold that it should be looked at. */
  readonly outlying: boolean;
}

export interface Calibration {
  readonly parameters: readonly FittedParameter[];
  /** Left as they were, as the log says nothing of them. */
  readonly held: readonly HeldParameter[];
  readonly start: MechanicsParameters;
  readonly rows: readonly RowResult[];
  /** How many different ones there are among them. */
  readonly settings: number;
  /** Root mean square of grade written minus grade foretold. */
  readonly errors: { readonly before: number; readonly fitted: number; readonly leaveOneOut: number };
  /** Standard deviation of one grade, as the intervals take it. */
  readonly noise: number;
  readonly next: readonly Suggestion<Setting>[];
}

/** Beyond this many standard deviations a row is named: one in four hundred by chance. */
const OUTLYING = 3;
/** Cells of the grid that tables are made on, mm. */
const ROUGH_CELL_MM = 1.5;
/** Kinds of goods that are thought of. */
const MOST_GOODS = 12;

const keyOf = ({ file, fabric, stackText, underlayText, washes }: Setting): string =>
  JSON.stringify([file, fabric, stackText, underlayText, washes]);

/**
 * Rows whose underlay cannot have been sewn: a design has no such object, or it is no satin column. They would be reckoned with as
 * they lie in the file.
 */
export function underlayFaults({ rows, designs }: Pick<CalibrateInput, 'rows' | 'designs'>): RowFault[] {
  return rows.flatMap(({ line, file, underlay }) => {
    const objects = designs.get(file)?.objects;
    const wrong =
      objects &&
      underlay.find(({ object }) => !objects.some(({ id, kind }) => id === object && kind === 'satin'));
    if (!wrong) return [];
    const there = objects.some(({ id }) => id === wrong.object);
    return {
      line,
      what: there
        ? `object ${wrong.object} of ${file} is no satin column`
        : `${file} has no object ${wrong.object}`,
      todo: `lieflat vet ${file} --objects lists them`,
    };
  });
}

/**
 * @throws LieflatError `no-fit` where the log cannot carry a fit, saying what is missing
 */
export async function calibrate(input: CalibrateInput): Promise<Calibration> {
  const { rows, designs, catalogue, parameters: start = PARAMETERS, place } = input;
  requireSupport(rows, place);
  const priors = priorsOf(PARAMETERS);
  const settings = new Map(rows.map((row) => [keyOf(row), row as Setting]));
  const shop: TableSettings = { catalogue, parameters: start, priors };
  const tables = tabulate([...settings.values()], designs, shop);
  const tableOf = (row: LoggedSewOut) => tables.get(keyOf(row))!;
  const { names, held } = await supported(rows.map(tableOf), start, priors, place);
  const fit = await fitGrades(
    rows.map((row) => ({ table: tableOf(row), grade: row.grade })),
    names,
    start,
    priors,
  );
  const asBefore = freeValues(start);
  const results = rows.map(
    (row, i): RowResult => ({
      ...row,
      before: foretoldGrade(tableOf(row), asBefore),
      foretold: row.grade - fit.residuals[i],
      leftOut: row.grade - fit.leftOut[i],
      outlying: Math.abs(fit.standardised[i]) > OUTLYING,
    }),
  );
  const rms = (of: (row: RowResult) => number) =>
    Math.sqrt(results.reduce((sum, row) => sum + (row.grade - of(row)) ** 2, 0) / results.length);
  const thoughtOf = otherSettings(rows, input.washes);
  const roughly = tabulate(thoughtOf, designs, shop, true);
  const candidates: Candidate<Setting>[] = [...settings.values(), ...thoughtOf].map((setting) => ({
    setting,
    table: (tables.get(keyOf(setting)) ?? roughly.get(keyOf(setting)))!,
  }));
  return {
    parameters: fit.parameters,
    held,
    start,
    rows: results,
    settings: settings.size,
    errors: {
      before: rms(({ before }) => before),
      fitted: rms(({ foretold }) => foretold),
      leaveOneOut: rms(({ leftOut }) => leftOut),
    },
    noise: fit.noise,
    next: nextSewOuts(fit, candidates),
  };
}

/** Tables of heights by setting; a design is prepared once for all goods that it is sewn on. */
function tabulate(
  settings: readonly Setting[],
  designs: ReadonlyMap<string, SewnDesign>,
  shop: TableSettings,
  roughly = false,
): Map<string, HeightTable> {
  const out = new Map<string, HeightTable>();
  const { catalogue, parameters } = shop;
  for (const [file, ofFile] of groupedBy(settings, (setting) => setting.file)) {
    const sewn = designs.get(file);
    if (!sewn)
      throw new LieflatError({
        code: 'bad-argument',
        place: file,
        what: 'the design is not among those given',
        todo: 'give every design that the log names',
      });
    const own = prepare({ ...sewn, catalogue, parameters });
    const rough =
      own.grid.cellMm < ROUGH_CELL_MM
        ? prepare({ ...sewn, catalogue, parameters, cellMm: ROUGH_CELL_MM })
        : own;
    for (const [, alike] of groupedBy(ofFile, (setting) => setting.underlayText)) {
      const choices = new Map(alike[0].underlay.map(({ object, to }) => [object, to]));
      const other = choices.size === 0 ? null : relaid(sewn, choices);
      const laid = (design: PreparedDesign) => (other ? prepareRelaid(design, other) : design);
      const tabled = laid(rough);
      const twice = { rough: tabled, own: roughly || own === rough ? tabled : laid(own) };
      for (const [, same] of groupedBy(alike, ({ fabric, stackText }) => `${fabric} ${stackText}`)) {
        const washes = [...new Set(same.map((setting) => setting.washes))];
        const tables = heightTables(twice, same[0], washes, shop);
        for (const setting of same) out.set(keyOf(setting), tables.get(setting.washes)!);
      }
    }
  }
  return out;
}

/** The design that is logged most, on all goods of the log and washed otherwise: what the shop could sew next without buying anything. */
function otherSettings(rows: readonly LoggedSewOut[], washes: number): Setting[] {
  const byDesign = [
    ...groupedBy(rows, ({ file, underlayText }) => JSON.stringify([file, underlayText])).values(),
  ];
  const [{ file, underlay }] = byDesign.reduce((most, these) => (these.length > most.length ? these : most));
  const logged = new Set(rows.map(keyOf));
  const stacks = [...new Map(rows.map(({ stackText, stack }) => [stackText, stack]))];
  const goods = [...new Set(rows.map(({ fabric }) => fabric))].flatMap((fabric) =>
    stacks.map(([stackText, stack]) => ({ fabric, stackText, stack })),
  );
  // Where there are too many, some of all.
  const every = Math.max(1, goods.length / MOST_GOODS);
  return goods
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
export function calibrationKey(calibration: Calibration): ParameterOverrides {
  const { rows, parameters, start } = calibration;
  return Object.fromEntries(
    parameters.map(({ name, value, low, high }) => {
      const round = (x: number) => Number(x.toPrecision(4));
      return [
        name,
        {
          value: round(value),
          low: round(Math.min(low, value)),
          high: round(Math.max(high, value)),
          basis: `fitted to ${rows.length} graded sew-outs of the shop's own; built-in ${start[name].value}`,
        },
      ];
    }),
  );
}
