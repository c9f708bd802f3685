/** The proof of a design whose edges were moved outward for the pull: told by the two files and by what was asked for alone. */
import { distance } from '../core/distance.js';
import { Break } from '../format/stitches.js';
import type { Compensation } from '../mechanics/compensation.js';
import { findObjects } from '../segment/find-objects.js';
import type { StitchObject } from '../segment/objects.js';
import type { SetObject } from '../segment/set-right/saying.js';
import { setRight } from '../segment/set-right/set-right.js';
import { Faults, type ObjectProof, SAME_MM, type SewnFile } from './proof.js';
import { proveResew } from './resew-proof.js';

/** A wide part of a column moves as much more, up to twice. */
const MOST_WIDER = 2;
/** Both of the places may have been rounded to the step of the file, mm. */
const ROUNDED_MM = 2 * SAME_MM;
const IN_PLACE = { x: 0, y: 0, dx: 0, dy: 0 };

/**
 * Every stitch has to be there still, in its order, with the same cuts and pauses before it; no needle point lies farther from where it lay than its
 * object's edges were to move, and those of no such object not at all; what was covered is covered; and the same objects are read in the new file.
 *
 * @param said what the shop has said of the objects, which counts in what is read again
 */
export function proveCompensated(
  before: SewnFile,
  after: SewnFile,
  objects: readonly StitchObject[],
  compensations: readonly Compensation[],
  said: readonly SetObject[] = [],
): ObjectProof[] {
  const faults = new Faults();
  const ids = compensations.map(({ object }) => object);
  const [a, b] = [before.stitches, after.stitches];
  const moved = objects.filter(({ id }) => ids.includes(id));
  if (a.count !== b.count) {
    for (const id of ids) faults.add(id, 'machine', null);
    return faults.proofs(ids, 'covered');
  }
  const mayMove = new Float64Array(a.count);
  const whose = new Int32Array(a.count);
  compensations.forEach(({ object, alongMm, acrossMm }) => {
    const { range, underlay } = objects.find(({ id }) => id === object)!;
    const most = Math.hypot(
      MOST_WIDER * Math.max(...alongMm.map(Math.abs)),
      Math.max(...acrossMm.map(Math.abs)),
    );
    for (const [first, last] of underlay.range ? [underlay.range, range] : [range])
      for (let i = first; i <= last; i++) {
        mayMove[i] = Math.max(mayMove[i], most);
        whose[i] = object;
      }
  });
  const cutOrPause = (kind: number) => (kind >= Break.stop ? kind : Break.none);
  for (let i = 0; i < a.count; i++) {
    const far =
      distance(a.x[i], a.y[i], b.x[i], b.y[i]) > mayMove[i] + (mayMove[i] > 0 ? ROUNDED_MM : SAME_MM);
    const at = { x: b.x[i], y: b.y[i] };
    const cut = cutOrPause(a.breakBefore[i]) !== cutOrPause(b.breakBefore[i]) || a.block[i] !== b.block[i];
    const jumps = a.breakBefore[i] !== b.breakBefore[i];
    if (!far && !cut && !jumps) continue;
    // what moved that belongs to none is put down to all
    for (const id of whose[i] > 0 ? [whose[i]] : ids) faults.add(id, cut ? 'machine' : 'changed', at);
  }
  for (const { object, proof, because, at, missingMm2 } of proveResew(
    before,
    after,
    moved,
    'widen',
    IN_PLACE,
  ))
    if (proof === 'failed') faults.add(object, because!, at, missingMm2);
  const found = new Map(setRight(b, findObjects(b), said).objects.map((object) => [object.range[1], object]));
  for (const { id, kind, range } of moved) {
    const now = found.get(range[1]);
    if (now?.kind !== kind || now.range[0] !== range[0]) faults.add(id, 'changed', null);
  }
  return faults.proofs(ids, 'covered');
}
