/** The risk of one design on one fabric over one stack: what `lieflat pucker --format json` prints. */
import { middleOf } from '../../core/bounds.js';
import { CATALOGUE, type Catalogue } from '../../materials/catalogue.js';
import type { ObjectMeasures } from '../../measure/measures.js';
import type { Conditions } from '../../mechanics/conditions.js';
import { type MechanicsParameters, PARAMETERS } from '../../mechanics/parameters.js';
import type { DesignRisk } from '../../mechanics/risk.js';
import type { TellingWidth } from '../../mechanics/telling-width.js';
import type { ObjectKind } from '../../segment/objects.js';
import type { SetOutcome } from '../../segment/set-right/saying.js';
import { cautionsFor } from '../cautions.js';
import { wordsFor } from '../phrases/words.js';
import { conditionsReport, riskReport } from '../risk-report.js';
import { round, roundAll } from '../round.js';
import { setObjectReport } from '../set-words.js';
import type { ConditionsReport, ObjectRiskReport, SetObjectReport, VetReport } from '../vet/report.js';

export interface PuckerObject {
  id: number;
  kind: ObjectKind;
  /** The shop has said what it is. */
  setByShop: boolean;
  /** Middle of the object, mm. */
  at: { x: number; y: number };
  risk: ObjectRiskReport;
  /** How far to draw each edge out against the pull: along the stitches and across them; below zero the edge moves outward. */
  pullCompensationMm: { along: number; across: number };
}

export interface PuckerReport {
  schema: 'lieflat/pucker@1';
  file: VetReport['file'];
  fabric: string;
  stack: ConditionsReport['stack'];
  risk: ObjectRiskReport;
  objects: PuckerObject[];
  /** What the shop has said of the design's objects. */
  setObjects: SetObjectReport[];
  conditions: ConditionsReport;
  basis: {
    /** What the figures rest on, a sentence each, and what decides. */
    restsOn: string[];
    /** Ids of fabric, sheets and thread that have values of the shop's own. */
    ownValues: string[];
    /** The model is fitted to the shop's own sew-outs. */
    ownFit: boolean;
    /** Change of the design's wrinkle height, mm, with each uncertain value at its low and at its high; the largest first. */
    sensitivities: { source: string; atLowMm: number; atHighMm: number }[];
    /**
     * The object whose sewn width, measured with a ruler, narrows the band of the height most; how wide it is in the file and will come out, mm, and the
     * part by which the band gets narrower. Null where none narrows it enough.
     */
    measure: { object: number; fileMm: number; sewnMm: [number, number, number]; narrows: number } | null;
    /** Cells of the calculation; `met` is false where the design was too large for as fine a grid as its columns call for. */
    resolution: { cellMm: number; wantedCellMm: number; met: boolean };
  };
  cautions: string[];
}

/** What a report of one risk is made of. */
export interface PuckerInput {
  file: VetReport['file'];
  measures: readonly ObjectMeasures[];
  /** What came of what the shop has said of its objects. */
  set?: readonly SetOutcome[];
  risk: DesignRisk;
  conditions: Conditions;
  catalogue: Catalogue;
  parameters: MechanicsParameters;
}

/** Nothing of the input is kept or changed. */
export function puckerReport(input: PuckerInput): PuckerReport {
  const { file, measures, set = [], risk, conditions, catalogue, parameters } = input;
  const named = conditionsReport(conditions, catalogue);
  const own = ownValues(conditions, catalogue);
  const ownFit = parameters !== PARAMETERS;
  const byId = new Map(measures.map((m) => [m.object.id, m]));
  const weight = ({ atLow, atHigh }: { atLow: number; atHigh: number }): number =>
    Math.max(Math.abs(atLow), Math.abs(atHigh));
  return {
    schema: 'lieflat/pucker@1',
    file: { path: file.path, format: file.format, bytes: file.bytes, sha256: file.sha256 },
    fabric: named.fabric,
    stack: named.stack,
    risk: riskReport(risk),
    objects: risk.objects.map((object) => {
      const { object: found, bounds } = byId.get(object.id)!;
      const { alongStitchMm, acrossStitchMm } = object.pullCompensation;
      return {
        id: object.id,
        kind: found.kind,
        setByShop: found.setByShop,
        at: roundAll(middleOf(bounds)),
        risk: riskReport(object),
        pullCompensationMm: { along: round(alongStitchMm), across: round(acrossStitchMm) },
      };
    }),
    setObjects: set.map(setObjectReport),
    conditions: named,
    basis: {
      restsOn: restsOn(own, ownFit),
      ownValues: own,
      ownFit,
      sensitivities: risk.sensitivities
        .toSorted((a, b) => weight(b) - weight(a))
        .map(({ source, atLow, atHigh }) => ({ source, atLowMm: round(atLow), atHighMm: round(atHigh) })),
      measure: measureReport(risk.measure),
      resolution: {
        cellMm: round(risk.resolution.cellMm),
        wantedCellMm: round(risk.resolution.wantedCellMm),
        met: risk.resolution.met,
      },
    },
    cautions: cautionsFor(conditions, catalogue),
  };
}

function measureReport(measure: TellingWidth | null): PuckerReport['basis']['measure'] {
  if (!measure) return null;
  const [low, middle, high] = measure.sewnMm.map((mm) => round(mm, 2));
  return {
    object: measure.object,
    fileMm: round(measure.fileMm, 2),
    sewnMm: [low, middle, high],
    narrows: round(measure.narrows, 2),
  };
}

/** Ids of what the shop has values of its own for. */
function ownValues({ fabric, stack, thread }: Conditions, catalogue: Catalogue): string[] {
  const sheets = new Set(stack.map(({ sheet }) => sheet));
  return [
    ...(catalogue.fabrics[fabric] === CATALOGUE.fabrics[fabric] ? [] : [fabric]),
    ...[...sheets].filter((id) => catalogue.sheets[id] !== CATALOGUE.sheets[id]),
    ...(catalogue.threads[thread] === CATALOGUE.threads[thread] ? [] : [thread]),
  ];
}

/** The same in English, and what decides. */
function restsOn(own: readonly string[], ownFit: boolean): string[] {
  const { pucker, risk } = wordsFor({ units: 'mm', detail: 'full' });
  return [pucker.values({ own }), ownFit ? pucker.ownFit : pucker.builtInFit, risk.sewATest];
}
