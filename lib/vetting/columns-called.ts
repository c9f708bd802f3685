import type { Finding } from './finding.js';

/** The finding that calls for a lighter underlay. */
export const HEAVY_UNDERLAY = 'wide-satin-heavy-underlay';
/** The finding that calls for one where there is none. */
export const NO_UNDERLAY = 'wide-satin-no-underlay';

/** Satin columns that call for another underlay by the rule of the trade, by their ids. What may be something else is not among them. */
export interface CalledColumns {
  /** Wide ones over zigzag. */
  readonly heavy: ReadonlySet<number>;
  /** Wide ones with nothing under them. */
  readonly bare: ReadonlySet<number>;
}

export function calledColumns(findings: readonly Finding[]): CalledColumns {
  const of = (called: Finding['code']): Set<number> =>
    new Set(
      findings.flatMap(({ code, object, unsure }) =>
        code === called && object !== null && !unsure ? [object] : [],
      ),
    );
  return { heavy: of(HEAVY_UNDERLAY), bare: of(NO_UNDERLAY) };
}

/** Whether a finding calls for another underlay. */
export const callsForUnderlay = ({ code }: Pick<Finding, 'code'>): boolean =>
  code === HEAVY_UNDERLAY || code === NO_UNDERLAY;
