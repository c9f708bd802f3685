import type { Design } from '../../lib/format/design.js';
import { penetrations } from '../../lib/format/stitches.js';
import { measureDesign } from '../../lib/measure/measure-design.js';
import { measureObject } from '../../lib/measure/measure-object.js';
import { DEFAULT_SHOP } from '../../lib/profile.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { Found } from './score.js';

/** The project's own way from a design to measured objects, as far as it is judged. */
export function findAndMeasure(design: Design): Found {
  const stitches = penetrations(design);
  const objects = findObjects(stitches);
  const measures = objects.map((object) => measureObject(stitches, object));
  const whole = measureDesign(design, stitches, measures, DEFAULT_SHOP.machine, DEFAULT_SHOP.threadUse);
  return {
    objects: objects.map((object, i) => ({
      kind: object.kind,
      block: object.block,
      group: object.group,
      range: object.range,
      widthMm: measures[i].widthMm?.median ?? null,
      spacingMm: measures[i].spacingMm?.median ?? null,
      angleDeg: measures[i].angleDeg,
      underlay: { kinds: object.underlay.kinds, range: object.underlay.range },
      split: object.split,
      locks: object.locks,
    })),
    totals: {
      stitches: whole.stitches,
      jumps: whole.jumps,
      trims: whole.trims,
      colourChanges: whole.colourChanges,
      stops: whole.stops,
    },
  };
}
