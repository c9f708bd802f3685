/** A plan: everything that the operator and the digitizer have to be told, what it costs and what it leads to. */
import type { StackedSheet } from '../mechanics/goods.js';
import type { Risk } from '../mechanics/risk.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { HoopingNote, Why } from './reason.js';

/** Underlay that is to be laid under one object in place of its own. Objects that are not named keep theirs. */
export interface UnderlayChange {
  readonly object: number;
  readonly to: LaidUnderlay;
}

/** Money for one piece, in the shop's currency. */
export interface Cost {
  /** Backing, thread and machine together. */
  readonly total: number;
  /** Sheets and topping. */
  readonly backing: number;
  /** Top and bobbin thread. */
  readonly thread: number;
  readonly machine: number;
  /** ISO 4217. */
  readonly currency: string;
  readonly parts: {
    readonly sheets: number;
    readonly topping: number;
    readonly topThread: number;
    readonly bobbin: number;
    readonly machineMinutes: number;
  };
}

/** A risk, how sure it is, and after how many launderings. */
export interface PlanRisk extends Risk {
  readonly washes: number;
  /** Tenth, half and nine tenths of the draws lie below these. */
  readonly wrinkleBandMm: readonly [p10: number, p50: number, p90: number];
  readonly range: {
    readonly score: readonly [low: number, high: number];
    readonly wrinkleMm: readonly [low: number, high: number];
  };
}

export interface Plan {
  /** From the garment outward. */
  readonly stack: readonly StackedSheet[];
  /** Topping id, or null for none. */
  readonly topping: string | null;
  readonly underlay: readonly UnderlayChange[];
  /** Needle id. */
  readonly needle: string;
  readonly speedSpm: number;
  /** What to mind in hooping. */
  readonly hooping: readonly HoopingNote[];
  readonly cost: Cost;
  readonly riskNow: PlanRisk;
  /** Goods that must not get wet are not laundered: the same as now, with no launderings. */
  readonly riskWashed: PlanRisk;
  /** The rules and causes that decided. */
  readonly why: readonly Why[];
}
