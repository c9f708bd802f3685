/** A shop, and the first half of the way: from the records of a file to what is wrong with the design. `pipeline.ts` has the rest. */
import { type Answers, NOTHING_KEPT } from './core/answers.js';
import { type Budget, UNBOUNDED } from './core/budget.js';
import type { Design } from './format/design.js';
import { penetrations, type Stitches } from './format/stitches.js';
import type { DesignFile } from './io/read-file.js';
import type { HoopField, Place } from './materials/places.js';
import { measureDesign } from './measure/measure-design.js';
import { measureObjects } from './measure/measure-object.js';
import type { DesignMeasures, PackedMeasures } from './measure/measures.js';
import { vetBytes, vettedBytes } from './measure/memory.js';
import { BUILT_IN_FIGURES, type ShopFigures } from './profile.js';
import { buildVetReport, type FileFacts } from './report/vet/build.js';
import type { VetReport } from './report/vet/report.js';
import { findObjects } from './segment/find-objects.js';
import type { StitchObject } from './segment/objects.js';
import type { SetObject, SetOutcome } from './segment/set-right/saying.js';
import { numberedAs, setRight } from './segment/set-right/set-right.js';
import { findFindings } from './vetting/find-findings.js';
import type { Finding } from './vetting/finding.js';

/** What is known of a design beside its records. */
export interface VetSettings {
  /** What the report says of the file; `factsOf` gives it. */
  file: FileFacts;
  /** Where on the garment the design goes, if that is known. */
  place?: Place;
  /** The hoop it is sewn in, if that is known. */
  hoop?: HoopField;
  /** What the work may take; without it there is no limit. */
  budget?: Budget;
  /** Of a design that was made from another: what the shop has said of its objects, and the objects whose numbers it keeps. */
  madeFrom?: { said: readonly SetObject[]; objects: readonly StitchObject[] };
}

/** Every result on the way, each made of those before it. */
export interface Vetting {
  design: Design;
  stitches: Stitches;
  /** As found, but as the shop says where it has said something of them. */
  objects: readonly StitchObject[];
  /** What the shop has said of objects. */
  said: readonly SetObject[];
  /** What came of it. */
  set: readonly SetOutcome[];
  measures: readonly PackedMeasures[];
  designMeasures: DesignMeasures;
  findings: readonly Finding[];
  report: VetReport;
  /** What is left of it is for the work that goes on from here. */
  budget: Budget;
  /** The hoop it is sewn in, if that is known. */
  hoop?: HoopField;
}

/** A shop's figures, and what goes by them. Made once: nothing that it does can fall back to the built-in figures. */
export interface Shop {
  readonly figures: ShopFigures;
  /** Where what takes long is kept. */
  readonly answers: Answers;
  /**
   * Vets a decoded design: its needle points, the objects in them, their measures, what is wrong, and the report of it all. Linear in the
   * design's size; the design is not changed. A design without stitches gives an empty report with a finding that says so.
   * @throws LieflatError `over-budget` where there is a budget
   */
  vet(design: Design, settings: VetSettings): Vetting;
  /** The objects in the needle points of a file, as the shop says where it has said something of them. */
  objectsOf(stitches: Stitches, file: Pick<FileFacts, 'sha256'>): readonly StitchObject[];
}

/**
 * The shop of a profile, or the one that everything is built in of.
 *
 * @param figures what `readProfile` gives
 * @param answers where what takes long is kept, as `keptAnswers` of `lieflat/io` keeps it in a folder; nowhere without it
 *
 * @example
 * ```ts
 * import { factsOf, readDesignFile, readProfile, shopOf } from 'lieflat';
 * const strict = shopOf(await readProfile('{ "limits": { "satin-too-wide": 4 } }', 'lieflat.config.json'));
 * const file = await readDesignFile('samples/name-drop.dst');
 * const codes = strict.vet(file.design, { file: factsOf(file) }).findings.map(({ code }) => code);
 * codes.includes('satin-too-wide'); // => true
 * ```
 */
export const shopOf = (figures: ShopFigures = BUILT_IN_FIGURES, answers: Answers = NOTHING_KEPT): Shop => ({
  figures,
  answers,
  vet: (design, settings) => (settings.budget ?? UNBOUNDED).run(() => vetWithin(design, settings, figures)),
  objectsOf: (stitches, file) => setRight(stitches, findObjects(stitches), saidOf(file, figures)).objects,
});

function vetWithin(design: Design, settings: VetSettings, figures: ShopFigures): Vetting {
  const { file, place, hoop, budget = UNBOUNDED, madeFrom } = settings;
  const { limits, machine, threadUse } = figures;
  budget.reserve(vetBytes(design));
  const stitches = penetrations(design);
  const said = madeFrom?.said ?? saidOf(file, figures);
  const { objects: found, set } = setRight(stitches, findObjects(stitches), said);
  const objects = madeFrom && said.length > 0 ? numberedAs(found, madeFrom.objects) : found;
  budget.reserve(vettedBytes(design, objects.length));
  const measures = measureObjects(stitches, objects);
  const designMeasures = measureDesign(design, stitches, measures, machine, threadUse);
  const findings = findFindings({
    design,
    stitches,
    objects: measures,
    measures: designMeasures,
    limits,
    place,
    hoop,
  });
  let report: VetReport | undefined;
  return {
    design,
    stitches,
    objects,
    said,
    set,
    measures,
    designMeasures,
    findings,
    budget,
    hoop,
    // As large as all the rest, and not everybody asks for it.
    get report() {
      report ??= budget.run(() => buildVetReport(file, designMeasures, measures, findings, set));
      return report;
    },
  };
}

/**
 * What a report says of a file that was read; its hash is worked out where that is asked for.
 *
 * @example
 * ```ts
 * import { factsOf, readDesignFile } from 'lieflat';
 * factsOf(await readDesignFile('samples/name-drop.dst')).bytes; // => 3371
 * ```
 */
export const factsOf = (file: DesignFile): FileFacts => ({
  path: file.path,
  format: file.format,
  bytes: file.bytes.length,
  get sha256() {
    return file.sha256;
  },
});

/** What a shop has said of the objects of a file. */
const saidOf = (file: Pick<FileFacts, 'sha256'>, { setObjects }: ShopFigures): readonly SetObject[] =>
  setObjects?.get(file.sha256)?.objects ?? [];
