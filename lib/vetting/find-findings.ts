import { UNSURE } from '../segment/objects.js';
import type { Finder, FindingContext, VettingContext } from './context.js';
import type { Finding } from './finding.js';
import { decoding } from './findings/decoding.js';
import { densePlace } from './findings/dense-place.js';
import { doesNotFitHoop } from './findings/does-not-fit-hoop.js';
import { doesNotFitPlace } from './findings/does-not-fit-place.js';
import { fillTooManyPoints } from './findings/fill-too-many-points.js';
import { jumpNotTrimmed } from './findings/jump-not-trimmed.js';
import { layersStacked } from './findings/layers-stacked.js';
import { letteringTooSmall } from './findings/lettering-too-small.js';
import { littleRoomInHoop } from './findings/little-room-in-hoop.js';
import { missingLock } from './findings/missing-lock.js';
import { needlePointsPiled } from './findings/needle-points-piled.js';
import { noStitches } from './findings/no-stitches.js';
import { noTrims } from './findings/no-trims.js';
import { satinOverFoam } from './findings/satin-over-foam.js';
import { satinTooNarrow } from './findings/satin-too-narrow.js';
import { satinTooWide } from './findings/satin-too-wide.js';
import { fillTooDense, fillTooOpen, satinTooDense, satinTooOpen } from './findings/spacing.js';
import { stitchTooLong } from './findings/stitch-too-long.js';
import { stitchTooShort } from './findings/stitch-too-short.js';
import { wideSatinHeavyUnderlay } from './findings/wide-satin-heavy-underlay.js';
import { wideSatinNoUnderlay } from './findings/wide-satin-no-underlay.js';
import { findLines } from './lettering.js';
import { markLocks } from './lock-mask.js';
import { withOneCure } from './one-cure.js';
import { severestFirst } from './severest-first.js';

/** Everything that is looked for. */
export const FINDERS: readonly Finder[] = [
  decoding,
  noStitches,
  doesNotFitHoop,
  littleRoomInHoop,
  doesNotFitPlace,
  satinTooWide,
  satinTooNarrow,
  wideSatinHeavyUnderlay,
  wideSatinNoUnderlay,
  satinOverFoam,
  satinTooDense,
  satinTooOpen,
  fillTooDense,
  fillTooOpen,
  fillTooManyPoints,
  densePlace,
  layersStacked,
  needlePointsPiled,
  stitchTooShort,
  stitchTooLong,
  jumpNotTrimmed,
  missingLock,
  noTrims,
  letteringTooSmall,
];

/**
 * Everything found in a design: the severest first, then what is of the whole design, then in sewing order. Linear in
 * the stitches; nothing given is changed.
 *
 * @example
 * ```ts
 * import { BUILT_IN_FIGURES, factsOf, findFindings, readDesignFile, shopOf } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const vetting = shopOf().vet(file.design, { file: factsOf(file) });
 * const { design, stitches, measures, designMeasures } = vetting;
 * const { limits } = BUILT_IN_FIGURES;
 * findFindings({ design, stitches, objects: measures, measures: designMeasures, limits }).length; // => 8
 * ```
 */
export function findFindings(context: FindingContext): Finding[] {
  const { stitches, objects, limits } = context;
  const vetting: VettingContext = {
    ...context,
    locks: markLocks(stitches, objects),
    lines: findLines(stitches, objects, limits['lettering-too-small']),
  };
  const unsure = new Set(objects.flatMap(({ object }) => (object.confidence < UNSURE ? [object.id] : [])));
  const found = FINDERS.flatMap((find) => find(vetting)).map((finding) =>
    finding.object !== null && unsure.has(finding.object) ? { ...finding, unsure: true } : finding,
  );
  return withOneCure(found).sort(severestFirst);
}
