/** What the proof of a rewrite says, as data for programs and in words. */
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

/** Why a rewrite of one object was given up, as a clause of which the object is the subject. */
export function faultWords(because: ProofFault): string {
  switch (because) {
    case 'changed':
      return 'its top stitching would not stay stitch for stitch as it is';
    case 'shows':
      return 'new thread would show beside its top stitching';
    case 'bare':
      return 'fabric would show that its thread covers now';
    case 'second-layer':
      return 'what lies under it reads as a layer of its top stitching, not as underlay';
    case 'cloth':
      return 'what lies under it may hold cloth that is laid on: a line beneath it marks where';
    case 'machine':
      return 'its trims, stops or color changes would not stay as they are';
  }
}
