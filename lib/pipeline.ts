/** The map: the whole way from the records of a file to the report, every step's result kept. */
import type { Design } from './format/design.js';
import { penetrations, type Stitches } from './format/stitches.js';
import type { HoopField, Place } from './materials/places.js';
import { measureDesign } from './measure/measure-design.js';
import { measureObject } from './measure/measure-object.js';
import type { DesignMeasures, ObjectMeasures } from './measure/measures.js';
import { DEFAULT_SHOP, type Shop } from './profile.js';
import { buildVetReport, type FileFacts } from './report/build-vet-report.js';
import type { VetReport } from './report/vet-report.js';
import { findObjects } from './segment/find-objects.js';
import type { StitchObject } from './segment/objects.js';
import { findFindings } from './vetting/find-findings.js';
import type { Finding } from './vetting/finding.js';

export interface VetSettings {
  /** What the report says of the file; `readDesignFile` gives it. */
  file: FileFacts;
  /** The shop's own figures; the built-in ones where it has none. */
  shop?: Shop;
  /** Where on the garment the design goes, if that is known. */
  place?: Place;
  /** The hoop it is sewn in, if that is known. */
  hoop?: HoopField;
}

/** Every result on the way, each made of those before it. */
export interface Vetting {
  stitches: Stitches;
  objects: readonly StitchObject[];
  measures: readonly ObjectMeasures[];
  designMeasures: DesignMeasures;
  findings: readonly Finding[];
  report: VetReport;
}

/**
 * Vets a decoded design: its needle points, the objects in them, their measures, what is wrong, and the report of
 * it all. Linear in the design's size; the design is not changed. A design without stitches gives an empty report
 * with a finding that says so.
 */
export function vetDesign(design: Design, settings: VetSettings): Vetting {
  const { file, shop = DEFAULT_SHOP, place, hoop } = settings;
  const stitches = penetrations(design);
  const objects = findObjects(stitches);
  const measures = objects.map((object) => measureObject(stitches, object));
  const designMeasures = measureDesign(design, stitches, measures, shop.machine, shop.threadUse);
  const findings = findFindings({
    design,
    stitches,
    objects: measures,
    measures: designMeasures,
    limits: shop.limits,
    place,
    hoop,
  });
  const report = buildVetReport(file, designMeasures, measures, findings);
  return { stitches, objects, measures, designMeasures, findings, report };
}
