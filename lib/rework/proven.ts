/** Rewriting with its proof: what fails the proof is left as it was, and where that does not mend it there is no file. */
import type { Budget } from '../core/budget.js';
import { LieflatError } from '../core/errors.js';
import { type DesignFormat, decodeDesign, encodeDesign } from '../format/decode.js';
import type { Design } from '../format/design.js';
import { penetrations } from '../format/stitches.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { Enlargement } from './enlargement.js';
import type { ObjectProof } from './proof.js';
import { inAnotherWay, type LeftBecause, type Relay, type RelayTry, relay } from './relay.js';
import { proveRelay } from './relay-proof.js';
import { bestWay, ENLARGE, type Resewing, type ResewWish, resew, type SewnBefore } from './resew.js';
import type { ResewMode } from './resew-mode.js';
import { proveResew } from './resew-proof.js';
import { asWritten } from './resew-written.js';

/** A rewritten file, read again, with the proof of each object that was rewritten. */
interface Proven {
  readonly bytes: Uint8Array;
  readonly design: Design;
  readonly proofs: readonly ObjectProof[];
  /** What was proven wrong of objects, which were left as they were for it. */
  readonly failed: ReadonlyMap<number, ObjectProof>;
}

export interface ProvenRelay extends Proven {
  readonly relaid: Relay['relaid'];
  /** Of those asked for, without those that failed. */
  readonly left: ReadonlyMap<number, LeftBecause>;
  readonly said: Relay['said'];
}

/** Rounds in which objects are left; after these none is relaid. */
const MOST_ROUNDS = 4;

/** Rounds in which what would show is laid in another way. */
const OTHER_WAYS = 6;

/** {@link relay}, with every column left as it was that fails the proof in every way in which it reads as meant. */
export async function provenRelay(
  { design, stitches, objects, said: saidBefore = [] }: SewnBefore,
  choices: ReadonlyMap<number, LaidUnderlay>,
  format: DesignFormat,
  budget: Budget,
): Promise<ProvenRelay> {
  const failed = new Map<number, ObjectProof>();
  const begin = new Map<number, RelayTry>();
  // an ornament or an edging is open on purpose: what shows beneath it is not to be tucked away
  const tops = new Set(objects.flatMap(({ id, purpose }) => (purpose === 'top' ? [id] : [])));
  const shown = new Map<number, ObjectProof>();
  let rounds = 0;
  for (let tried = 0; ; tried++) {
    const still = new Map([...choices].filter(([id]) => !failed.has(id)));
    const {
      relaid,
      left: asRead,
      tries,
      said,
      design: made,
    } = budget.run(() => relay(design, stitches, objects, still, undefined, saidBefore, begin));
    const { bytes, sewn } = await fileOf(made, format);
    const proofs = budget.run(() => proveRelay({ design, stitches }, sewn, objects, [...relaid.keys()]));
    const wrong = proofs.filter(({ proof }) => proof === 'failed');
    if (wrong.length === 0) {
      for (const [id, proof] of shown) if (asRead.has(id)) failed.set(id, proof);
      const left = new Map([...asRead].filter(([id]) => !failed.has(id)));
      return { bytes, design: sewn.design, proofs, failed, relaid, left, said };
    }
    const given = wrong.filter((proof) => {
      const mayHide = proof.because === 'shows' && tops.has(proof.object) && tried < OTHER_WAYS;
      const other = mayHide && inAnotherWay(tries.get(proof.object)!);
      if (!other) return true;
      begin.set(proof.object, other);
      shown.set(proof.object, proof);
      return false;
    });
    if (given.length > 0 && ++rounds === MOST_ROUNDS) {
      for (const { object } of proofs) failed.set(object, { ...wrong[0], object });
    } else for (const proof of given) failed.set(proof.object, proof);
  }
}

export interface ProvenResew extends Proven {
  readonly resewing: Resewing;
}

/**
 * {@link resew}, with every object left that fails the proof: its stitches stay as they are and are only moved. Where no way was asked for, the best of
 * those that can be proven, what had to be left taken into account.
 * @throws LieflatError `bad-argument` where the design fails all the same
 */
export async function provenResew(
  before: SewnBefore,
  wish: ResewWish,
  format: DesignFormat,
  budget: Budget,
): Promise<ProvenResew> {
  const first = budget.run(() => resew(before, wish));
  if (wish.mode !== null) return provenWay(before, { ...wish, mode: wish.mode }, format, budget, first);
  const proven = new Map<ResewMode, ProvenResew>();
  for (let ways = first.modes; ; ) {
    const best = bestWay(ways, 'find' in wish.by);
    const done = proven.get(best.mode);
    if (done) {
      const resewing = { ...done.resewing, best: best.mode, modeGiven: false };
      return { ...done, resewing };
    }
    const start = { ...first, chosen: best };
    try {
      const way = await provenWay(before, { ...wish, mode: best.mode }, format, budget, start);
      proven.set(best.mode, way);
      ways = ways.map((one) => (one === best ? way.resewing.chosen : one));
    } catch (error) {
      if (ways.length === 1 || !(error instanceof LieflatError) || error.code !== 'bad-argument') throw error;
      ways = ways.filter((one) => one !== best);
    }
  }
}

/** @param first what comes of it with nothing left */
async function provenWay(
  before: SewnBefore,
  wish: ResewWish & { readonly mode: ResewMode },
  format: DesignFormat,
  budget: Budget,
  first: Resewing,
): Promise<ProvenResew> {
  let failed: ReadonlyMap<number, ObjectProof> = new Map();
  let resewing = first;
  for (let round = 1; ; round++) {
    const { by, written, mode } = resewing.chosen;
    const { bytes, sewn } = await fileOf(written.design, format);
    const proofs = budget.run(() => proveResew(before, sewn, before.objects, mode, by));
    const wrong = proofs.filter(({ proof }) => proof === 'failed');
    if (wrong.length === 0) return { bytes, design: sewn.design, proofs, failed, resewing };
    if (round === MOST_ROUNDS) throw notCovered(wrong[0].object, mode);
    failed = await failingObjects(before, mode, by, format, budget, failed, wish.unsure);
    resewing = budget.run(() => resew(before, { ...wish, leave: new Set(failed.keys()) }));
  }
}

/**
 * The objects that have to be left with a certain growth so that all others are proven, and what was wrong of each.
 *
 * @param known objects that failed already
 * @param unsure ids of others that are left
 * @throws LieflatError `bad-argument` where one that is left fails all the same
 */
export async function failingObjects(
  before: SewnBefore,
  mode: ResewMode,
  by: Enlargement,
  format: DesignFormat,
  budget: Budget,
  known: ReadonlyMap<number, ObjectProof> = new Map(),
  unsure: ReadonlySet<number> = new Set(),
): Promise<Map<number, ObjectProof>> {
  const failed = new Map(known);
  const { design, stitches, objects } = before;
  for (;;) {
    const leave = new Set([...failed.keys(), ...unsure]);
    const written = budget.run(() => asWritten(ENLARGE[mode](design, stitches, objects, leave)(by).whole()));
    const { sewn } = await fileOf(written.design, format);
    const proofs = budget.run(() => proveResew(before, sewn, objects, mode, by));
    const wrong = proofs.filter(({ proof }) => proof === 'failed');
    if (wrong.length === 0) return failed;
    const still = wrong.find(({ object }) => leave.has(object));
    if (still) throw notCovered(still.object, mode);
    for (const proof of wrong) failed.set(proof.object, proof);
  }
}

const notCovered = (object: number, mode: ResewMode) =>
  new LieflatError({
    code: 'bad-argument',
    place: '--mode',
    what: `object ${object} cannot be made larger with --mode ${mode} and stay covered`,
    todo: 'use --mode machine, or ask the digitizer to enlarge it',
  });

/** A design as a file, and as that file is read again. */
export async function fileOf(design: Design, format: DesignFormat) {
  const bytes = encodeDesign(design, format);
  const read = await decodeDesign(bytes, format);
  return { bytes, sewn: { design: read, stitches: penetrations(read) } };
}
