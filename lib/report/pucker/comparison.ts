/** One design on one fabric over several backings, and which of them lies flatter. */

import { type PairedDraws, pairedDraws, withinRange } from '../../mechanics/paired-draws.js';
import type { DesignRisk } from '../../mechanics/risk.js';
import { round } from '../round.js';
import type { VetReport } from '../vet/report.js';
import { type PuckerInput, type PuckerReport, puckerReport } from './report.js';

export interface RankedStack {
  /** As it is written on the command line. */
  stack: string;
  /** Index into `reports`. */
  report: number;
  wrinkleMm: number;
  /** How much higher than the flattest, a part of one of this one's height; 0 for the flattest itself. */
  fallToFlattest: number;
  /** The flattest beside this one over the same draws: height ratio, and in which part of them it lies flatter; null for the flattest itself. */
  flattest: PairedDraws | null;
  /** True where which of this and the flattest lies flatter is within the uncertainty. */
  tooCloseToCall: boolean;
}

export interface PuckerComparison {
  schema: 'lieflat/pucker-comparison@1';
  file: VetReport['file'];
  fabric: string;
  /** In the order asked for. */
  reports: PuckerReport[];
  /** Flattest first. */
  ranking: RankedStack[];
}

/** Compares risks of the same design; at least one. What all rest on alike does not blur their ranking. */
export function puckerComparison(inputs: readonly PuckerInput[]): PuckerComparison {
  const reports = inputs.map(puckerReport);
  const order = inputs.map((_, i) => i).sort((a, b) => beside(inputs[a].risk, inputs[b].risk) || a - b);
  const best = inputs[order[0]].risk;
  return {
    schema: 'lieflat/pucker-comparison@1',
    file: reports[0].file,
    fabric: reports[0].fabric,
    reports,
    ranking: order.map((i, rank) => {
      const { risk } = inputs[i];
      return {
        stack: reports[i].conditions.stackText,
        report: i,
        wrinkleMm: reports[i].risk.wrinkleMm,
        fallToFlattest: risk.wrinkleMm > 0 ? Number((1 - best.wrinkleMm / risk.wrinkleMm).toFixed(3)) : 0,
        flattest: rank > 0 ? roundedPair(pairedDraws(best.draws, risk.draws)) : null,
        tooCloseToCall: rank > 0 && withinRange(best, risk),
      };
    }),
  };
}

/** Below zero where a lies flatter; of two that lie flat, the one that is farther from a wrinkle. */
const beside = (a: DesignRisk, b: DesignRisk): number => a.wrinkleMm - b.wrinkleMm || a.nearness - b.nearness;

export const roundedPair = ({ ratio, flatterIn }: PairedDraws): PairedDraws => ({
  ratio: ratio.map((r) => round(r)) as [number, number, number],
  flatterIn: round(flatterIn),
});
