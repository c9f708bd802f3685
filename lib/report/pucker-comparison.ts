/** One design on one fabric over several backings, and which of them lies flatter. */
import type { DesignRisk } from '../mechanics/risk.js';
import { withinRange } from '../mechanics/uncertainty.js';
import { type PuckerInput, type PuckerReport, puckerReport } from './pucker-report.js';
import type { VetReport } from './vet-report.js';

export interface RankedStack {
  /** As it is written on the command line. */
  stack: string;
  /** Index into `reports`. */
  report: number;
  wrinkleMm: number;
  /** How much higher than the flattest, a part of one of this one's height; 0 for the flattest itself. */
  fallToFlattest: number;
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
  const order = inputs
    .map((_, i) => i)
    .sort((a, b) => height(inputs[a].risk) - height(inputs[b].risk) || a - b);
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
        tooCloseToCall: rank > 0 && withinRange(best, risk),
      };
    }),
  };
}

const height = ({ wrinkleMm }: DesignRisk): number => wrinkleMm;
