/** What the proof of a rewrite says, as data. */
import type { ObjectProof, ProofFault } from '../rework/proof.js';
import { round } from './round.js';

/** The proof of one object that was rewritten, in the file that is written. */
export interface ProofReport {
  object: number;
  /** `identical`: each stitch that is seen is the same; `covered`: all is covered that was, and no thread lies outside. */
  proof: 'identical' | 'covered';
}

/** An object that failed the proof and was left as it was; places are those of the rewritten design that was given up, mm. */
export interface FailedProof {
  object: number;
  proof: 'failed';
  because: ProofFault;
  at: { x: number; y: number } | null;
  missingMm2: number;
}

/** Failed proofs in the order of their objects, among the others. */
export function proofReport(
  proofs: readonly ObjectProof[],
  failed: Iterable<ObjectProof>,
): (ProofReport | FailedProof)[] {
  const byObject = new Map<number, ProofReport | FailedProof>();
  for (const { object, proof } of proofs) if (proof !== 'failed') byObject.set(object, { object, proof });
  for (const { object, because, at, missingMm2 } of failed) {
    byObject.set(object, {
      object,
      proof: 'failed',
      because: because!,
      at: at && { x: round(at.x), y: round(at.y) },
      missingMm2: round(missingMm2, 2),
    });
  }
  return [...byObject.values()].sort((a, b) => a.object - b.object);
}
