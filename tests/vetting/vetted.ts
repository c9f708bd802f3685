import { COMMERCIAL_HEAD } from '../../lib/materials/machine.js';
import { USUAL_THREAD_USE } from '../../lib/materials/thread-use.js';
import { measureDesign } from '../../lib/measure/measure-design.js';
import { measureObject } from '../../lib/measure/measure-object.js';
import type { FindingContext } from '../../lib/vetting/context.js';
import { findFindings } from '../../lib/vetting/find-findings.js';
import type { Finding } from '../../lib/vetting/finding.js';
import { LIMITS } from '../../lib/vetting/limits.js';
import type { Sketch } from '../measure/sketch.js';

/** Everything that a sketch is vetted by. */
export function contextOf(sketch: Sketch, more: Partial<FindingContext> = {}): FindingContext {
  const design = sketch.design();
  const stitches = sketch.penetrations();
  const objects = sketch.objects.map((object) => measureObject(stitches, object));
  const measures = measureDesign(design, stitches, objects, COMMERCIAL_HEAD, USUAL_THREAD_USE);
  return { design, stitches, objects, measures, limits: LIMITS, ...more };
}

export const vetted = (sketch: Sketch, more: Partial<FindingContext> = {}): Finding[] =>
  findFindings(contextOf(sketch, more));

export const found = (code: string, sketch: Sketch, more: Partial<FindingContext> = {}): Finding[] =>
  vetted(sketch, more).filter((finding) => finding.code === code);
