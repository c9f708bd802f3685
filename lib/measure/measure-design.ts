import { once } from '../core/memoize.js';
import { countOf, type Design, Kind } from '../format/design.js';
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
 *
 * @example
 * ```ts
 * import { BUILT_IN_FIGURES, findObjects, measureDesign, measureObjects, penetrations, readDesignFile } from 'lieflat';
 * const { design } = await readDesignFile('samples/name-drop.dst');
 * const stitches = penetrations(design);
 * const measures = measureObjects(stitches, findObjects(stitches));
 * const { machine, threadUse } = BUILT_IN_FIGURES;
 * measureDesign(design, stitches, measures, machine, threadUse).widthMm; // ≈ 56.3
 * ```
 */
export function measureDesign(
  design: Design,
  stitches: Stitches,
  objects: readonly ObjectMeasures[],
  machine: MachineProfile,
  use: ThreadUse,
): DesignMeasures {
  const { kind } = design;
  const bounds = boundsOf(stitches);
  // What few ask for waits until somebody does.
  const acrossMm = once(() => acrossMiddle(stitches, bounds));
  const layers = once(() => stackedLayers(stitches, objects, bounds));
  return {
    stitches: stitches.count,
    jumps: countOf(kind, Kind.jump),
    trims: countOf(kind, Kind.trim),
    colourChanges: countOf(kind, Kind.colour),
    stops: countOf(kind, Kind.stop),
    bounds,
    widthMm: bounds.maxX - bounds.minX,
    heightMm: bounds.maxY - bounds.minY,
    get acrossMm() {
      return acrossMm();
    },
    ...threadLength(stitches, use),
    sewSeconds: sewSeconds(design, machine),
    sewSpeedSpm: machine.speedSpm.value,
    densest: densestPlace(stitches, bounds),
    get layers() {
      return layers();
    },
  };
}
