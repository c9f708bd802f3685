/** Pull compensation applied to a file, with its proof, and checked by working out the sewn widths of the new file. */
import { RULE_LIMITS } from '../advice/rule-limits.js';
import type { Budget } from '../core/budget.js';
import type { DesignFormat } from '../format/decode.js';
import type { Design } from '../format/design.js';
import { UNITS_PER_MM } from '../format/dst-record.js';
import type { Stitches } from '../format/stitches.js';
import type { PullIn } from '../mechanics/column-pull.js';
import { type Compensation, compensationsOf, edges, sewnWidthMm } from '../mechanics/compensation.js';
import { widthInFile } from '../mechanics/ruler.js';
import type { StitchObject } from '../segment/objects.js';
import { compensated } from './compensated.js';
import { proveCompensated } from './compensation-proof.js';
import type { ObjectProof } from './proof.js';
import { fileOf } from './proven.js';
import type { SewnBefore } from './resew.js';

const STEP_MM = 1 / UNITS_PER_MM;
/** Designs that are worked out, at most: neighbors pull on each other, and what is left over is added once more. */
const MOST_SOLVES = 3;
/** Rounds in which objects are left that fail the proof. */
const MOST_ROUNDS = 4;
const PURPOSES: ReadonlySet<StitchObject['purpose']> = new Set(['top', 'edging']);

/** Why an object is as it was. */
export type NotCompensated = 'unsure' | 'piece' | 'passes' | 'foam' | 'too-far' | ObjectProof['because'];

export interface CompensatedObject extends Compensation {
  /** Width in the file before, which is what the sewn one is to be, mm. */
  readonly drawnMm: number;
  /** Width that a ruler would find on the sewn piece: of the file before, and of the new one. mm */
  readonly sewnMm: readonly [before: number, after: number];
}

export interface ProvenCompensation {
  readonly bytes: Uint8Array;
  readonly design: Design;
  readonly objects: readonly CompensatedObject[];
  readonly left: ReadonlyMap<number, NotCompensated>;
  readonly proofs: readonly ObjectProof[];
  readonly failed: ReadonlyMap<number, ObjectProof>;
}

/**
 * The design with each column and area drawn out by as much as it draws in, rounded to the step of the file.
 *
 * @param pullsOn how far the edges of each object move when it is sewn with needle points at these places
 * @param only ids of objects that may be drawn out
 * @param unsure of these, those of which it is not sure what they are
 */
export async function provenCompensation(
  before: SewnBefore,
  pullsOn: (stitches: Stitches) => readonly PullIn[],
  format: DesignFormat,
  budget: Budget,
  { only, unsure }: { readonly only: ReadonlySet<number>; readonly unsure: ReadonlySet<number> },
): Promise<ProvenCompensation> {
  const { stitches, objects } = before;
  const pulls = budget.run(() => pullsOn(stitches));
  const left = new Map<number, NotCompensated>();
  let wanted = compensationsOf(stitches, objects, pulls, STEP_MM).filter(({ object, alongMm }) => {
    if (!only.has(object)) return false;
    const why = notWanted(objects.find(({ id }) => id === object)!, alongMm, unsure);
    if (why) left.set(object, why);
    return why === null;
  });
  const failed = new Map<number, ObjectProof>();
  const widths = (at: Stitches, pulled: readonly PullIn[]) =>
    new Map(objects.map((object, k) => [object.id, sewnWidthMm(at, object, pulled[k])]));
  const sewnBefore = widths(stitches, pulls);
  const drawn = new Map(objects.map((object) => [object.id, widthInFile(stitches, object)?.widthMm]));
  for (let solve = 1; ; solve++) {
    const made = await provenOf(before, wanted, format, budget, failed);
    for (const [id, { because }] of failed) left.set(id, because);
    wanted = wanted.filter(({ object }) => !failed.has(object));
    const sewnAfter = widths(
      made.stitches,
      budget.run(() => pullsOn(made.stitches)),
    );
    const short = new Map(wanted.map(({ object }) => [object, drawn.get(object)! - sewnAfter.get(object)!]));
    const next = wanted.map((one) => withMore(one, short.get(one.object)!));
    const done = next.every((one, k) => one === wanted[k]);
    if (done || solve === MOST_SOLVES) {
      const all = wanted.map((one) => ({
        ...one,
        drawnMm: drawn.get(one.object)!,
        sewnMm: [sewnBefore.get(one.object)!, sewnAfter.get(one.object)!] as const,
      }));
      const { bytes, proofs } = made;
      return { bytes, design: made.design, objects: all, left, proofs, failed };
    }
    wanted = next;
  }
}

/** The file with what proves true of what is asked for; what does not is added to `failed`. */
async function provenOf(
  before: SewnBefore,
  asked: readonly Compensation[],
  format: DesignFormat,
  budget: Budget,
  failed: Map<number, ObjectProof>,
) {
  const { design, stitches, objects, said } = before;
  for (let round = 1; ; round++) {
    const still = round > MOST_ROUNDS ? [] : asked.filter(({ object }) => !failed.has(object));
    const moved = budget.run(() => compensated(design, stitches, objects, still));
    const { bytes, sewn } = await fileOf(still.length > 0 ? moved : design, format);
    const proofs = budget.run(() => proveCompensated(before, sewn, objects, still, said));
    const wrong = proofs.filter(({ proof }) => proof === 'failed');
    if (wrong.length === 0) {
      // Where nothing came true in so many rounds, each that was asked for is left.
      for (const { object } of asked)
        if (round > MOST_ROUNDS && !failed.has(object))
          failed.set(object, { object, proof: 'failed', because: 'changed', at: null, missingMm2: 0 });
      return { bytes, ...sewn, proofs };
    }
    for (const proof of wrong) failed.set(proof.object, proof);
  }
}

function notWanted(
  { id, kind, purpose, foam, passes }: StitchObject,
  alongMm: Compensation['alongMm'],
  unsure: ReadonlySet<number>,
): NotCompensated | null {
  if (unsure.has(id)) return 'unsure';
  if (!PURPOSES.has(purpose)) return 'piece';
  if (foam) return 'foam';
  if (kind === 'fill' && passes > 1) return 'passes';
  return Math.max(...alongMm) > RULE_LIMITS.mostDrawn.value ? 'too-far' : null;
}

/** With as much more along the stitches as the sewn width is short of the drawn one; itself where that is within a step. */
function withMore(one: Compensation, shortMm: number): Compensation {
  if (Math.abs(shortMm) <= STEP_MM) return one;
  return { ...one, alongMm: edges(one.alongMm[0] + one.alongMm[1] + shortMm, STEP_MM) };
}
