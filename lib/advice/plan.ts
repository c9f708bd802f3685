/** A plan: everything that the operator and the digitizer have to be told, what it costs and what it leads to. */
import type { StackedSheet } from '../mechanics/layup.js';
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

/** What a run of one plan costs and what it is charged, in the currency of the plan's cost. */
export interface PlanPrice {
  /** Pieces. */
  readonly quantity: number;
  /** Charged for a piece, to the cent, and for the run: its pieces, and setup fee and digitizing once. */
  readonly each: number;
  readonly run: number;
  /** What the pieces cost the shop: backing, thread, machine and labor, with those that spoil; what is charged once is no part of it. */
  readonly cost: { readonly each: number; readonly run: number };
  /** Labor within the cost of a piece. */
  readonly labor: number;
  readonly setupFee: number;
  readonly digitizing: number;
  readonly marginPercent: number;
  readonly offPercent: number;
  readonly spoilagePercent: number;
  readonly heads: number;
  /** At the machine, all heads at work; and of people who hoop and trim. */
  readonly machineMinutes: number;
  readonly laborMinutes: number;
  /** The shop has said nothing of its people and prices: the price is a start, not its own. */
  readonly ratesAreBuiltIn: boolean;
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
  /** Null where no quantity was asked for. */
  readonly price: PlanPrice | null;
  readonly riskNow: PlanRisk;
  /** Fabric that must not get wet are not laundered: the same as now, with no launderings. */
  readonly riskWashed: PlanRisk;
  /** The rules and causes that decided. */
  readonly why: readonly Why[];
}
