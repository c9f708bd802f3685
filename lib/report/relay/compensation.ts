/** What pull compensation did to a file: who was drawn out by how much, and how wide that comes out. */
import type { NotCompensated, ProvenCompensation } from '../../rework/proven-compensation.js';
import { wordsFor } from '../phrases/words.js';
import { type FailedProof, type ProofReport, proofReport } from '../rewrite-proof.js';
import { round } from '../round.js';

export interface CompensationReport {
  /** In sewing order. Whole steps of the file; outward is above zero. */
  objects: {
    object: number;
    /** Of the edges where its first stitch begins and where it ends. */
    alongMm: [number, number];
    /** Of the end that is sewn first and of the last, at right angles to that. */
    acrossMm: [number, number];
    /** Width in the file that was given: what the sewn one is to be. */
    drawnMm: number;
    /** Predicted width of the sewn piece, of that file and of the new one. */
    sewnMm: { before: number; after: number };
  }[];
  /** Objects that draw in and are as they were. */
  left: { object: number; because: Exclude<NotCompensated, null> | 'failed-proof'; reason: string }[];
  proof: (ProofReport | FailedProof)[];
}

export function compensationReport({
  objects,
  left,
  proofs,
  failed,
}: ProvenCompensation): CompensationReport {
  const { notCompensated } = wordsFor({ units: 'mm', detail: 'full' }).rework;
  return {
    objects: objects.map(({ object, alongMm, acrossMm, drawnMm, sewnMm: [before, after] }) => ({
      object,
      alongMm: [...alongMm],
      acrossMm: [...acrossMm],
      drawnMm: round(drawnMm),
      sewnMm: { before: round(before), after: round(after) },
    })),
    left: [...left]
      .map(([object, because]) => ({
        object,
        because: failed.has(object) ? ('failed-proof' as const) : because!,
        reason: notCompensated[because!],
      }))
      .toSorted((a, b) => a.object - b.object),
    proof: proofReport(proofs, failed.values()),
  };
}
