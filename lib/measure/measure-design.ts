import { type Design, Kind } from '../format/design.js';
import { acrossMiddle, boundsOf } from '../format/extent.js';
import type { Stitches } from '../format/stitches.js';
import { densestPlace } from './densest.js';
import { stackedLayers } from './layers.js';
import type { DesignMeasures, ObjectMeasures } from './measures.js';
import { type MachineProfile, sewSeconds } from './sew-time.js';
import { type ThreadUse, threadLength } from './thread-length.js';

/**
 * Numbers of the design as a whole: linear in its records; no input is changed.
 *
 * @param machine what the sewing time is reckoned with
 * @param use what the thread is reckoned with
 */
export function measureDesign(
  design: Design,
  stitches: Stitches,
  objects: readonly ObjectMeasures[],
  machine: MachineProfile,
  use: ThreadUse,
): DesignMeasures {
  const records = new Uint32Array(Kind.end + 1);
  const { kind } = design;
  // by index: the iterator of a typed array makes an object a record
  for (let i = 0; i < kind.length; i++) records[kind[i]]++;
  const bounds = boundsOf(stitches);
  return {
    stitches: stitches.count,
    jumps: records[Kind.jump],
    trims: records[Kind.trim],
    colourChanges: records[Kind.colour],
    stops: records[Kind.stop],
    bounds,
    widthMm: bounds.maxX - bounds.minX,
    heightMm: bounds.maxY - bounds.minY,
    acrossMm: acrossMiddle(stitches, bounds),
    ...threadLength(stitches, use),
    sewSeconds: sewSeconds(design, machine),
    densest: densestPlace(stitches, bounds),
    layers: stackedLayers(stitches, objects, bounds),
  };
}
