/** What pull compensation did to a file: who was drawn out by how much, and how wide that comes out. */
import type { NotCompensated, ProvenCompensation } from '../rework/proven-compensation.js';
import { type FailedProof, faultWords, type ProofReport, proofReport } from './proof-report.js';
import { round } from './round.js';

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
        reason: reasonOf(because!),
      }))
      .toSorted((a, b) => a.object - b.object),
    proof: proofReport(proofs, failed.values()),
  };
}

function reasonOf(because: Exclude<NotCompensated, null>): string {
  switch (because) {
    case 'unsure':
      return 'it is not sure what it is; --objects names it all the same';
    case 'piece':
      return 'its stitches go along a piece that is laid on';
    case 'foam':
      return 'the foam beneath it decides how wide it comes out';
    case 'passes':
      return 'it is sewn over more than once';
    case 'too-far':
      return 'it draws in by more than drawing it out makes up for: change the backing or the underlay';
    case 'changed':
      return 'its stitches would be read as something else';
    default:
      return faultWords(because);
  }
}
