/**
 * Whether a design that was rewritten still looks as it should: told by the stitches of the two files and by what was asked for alone, by
 * nothing that made the new one or reads objects in it.
 */
import { type Design, Kind } from '../format/design.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';

/** Why an object fails. */
export type ProofFault =
  /** A stitch that had to stay is gone, has moved, or is sewn at another time. */
  | 'changed'
  /** New thread would be seen beside what covers it. */
  | 'shows'
  /** What was covered, or could be seen, is bare. */
  | 'bare'
  /** Thread was taken out that is no underlay: it is seen through what was sewn over it, or as dense. */
  | 'second-layer'
  /** What lies under it may hold cloth that is laid on the fabric. */
  | 'cloth'
  /** Stops, color changes or trims are not those of the design before. */
  | 'machine';

/** What the proof says of one object. */
export interface ObjectProof {
  readonly object: number;
  /** `identical`: what is seen is the same, stitch for stitch; `covered`: nothing is bare that was covered, and nothing new lies outside. */
  readonly proof: 'identical' | 'covered' | 'failed';
  /** The first place that is wrong, mm; null where nothing is. */
  readonly at: { readonly x: number; readonly y: number } | null;
  /** Fabric that are seen or bare and should not be. */
  readonly missingMm2: number;
  readonly because: ProofFault | null;
}

/** A design as its file is read, and its needle points. */
export interface SewnFile {
  readonly design: Design;
  readonly stitches: Stitches;
}

/** What the proof asks of an object of the design before: which needle points are its top stitching, which are in its underlay. */
export type ProvenObject = Pick<StitchObject, 'id' | 'range'> & {
  readonly underlay: Pick<StitchObject['underlay'], 'range' | 'also'>;
};

/** Two places of files are the same within this, mm: half a step. */
export const SAME_MM = 0.05;

/** Collects what is wrong by object. */
export class Faults {
  private readonly found = new Map<number, Omit<ObjectProof, 'proof' | 'object'>>();

  add(object: number, because: ProofFault, at: ObjectProof['at'], missingMm2 = 0): void {
    const before = this.found.get(object);
    if (before)
      this.found.set(object, {
        ...before,
        missingMm2: before.missingMm2 + missingMm2,
      });
    else this.found.set(object, { because, at, missingMm2 });
  }

  /** The proof of each of some objects, in their order: of those with nothing wrong the one given. */
  proofs(objects: Iterable<number>, sound: 'identical' | 'covered'): ObjectProof[] {
    return Array.from(objects, (object): ObjectProof => {
      const fault = this.found.get(object);
      return fault
        ? { object, proof: 'failed', ...fault }
        : { object, proof: sound, at: null, missingMm2: 0, because: null };
    });
  }
}

/** Color changes and stops among some records, in order. */
export function pausesOf({ kind }: Design, from: number, to: number): string {
  let pauses = '';
  for (let r = from; r < to; r++) if (kind[r] === Kind.colour || kind[r] === Kind.stop) pauses += kind[r];
  return pauses;
}

/** Trims among some records. */
export function trimsOf({ kind }: Design, from: number, to: number): number {
  let trims = 0;
  for (let r = from; r < to; r++) if (kind[r] === Kind.trim) trims++;
  return trims;
}
