/** Plans and advice under the names that the reports use. Lengths mm, money in the shop's currency. */
import type { Meets } from '../../advice/meets.js';
import type { Cost, PlanPrice } from '../../advice/plan.js';
import type { DesignChange, HoopingNote, Why } from '../../advice/reason.js';
import type { SheetKind } from '../../materials/sheets.js';
import type { Risk } from '../../mechanics/risk.js';
import type { UnderlayKind } from '../../segment/objects.js';
import type { LaidUnderlay } from '../../stitch/laid-underlay.js';
import type { FindingCode } from '../../vetting/finding.js';
import type { VerdictLevel, VerdictReason } from '../vet/verdict.js';

export interface PlanRiskReport extends Risk {
  /** Launderings before it is looked at. */
  washes: number;
  wrinkleBandMm: [p10: number, p50: number, p90: number];
  range: { score: [number, number]; wrinkleMm: [number, number] };
}

/** A sheet by what a supplier goes by, where its name does not say it. */
export interface SheetToAskFor {
  sheet: string;
  sheetName: string;
  kind: SheetKind;
  massGPerM2: number;
}

/** How many sheets of a stack differ, turned ones among them: where it is one, the order is no matter. */
export const kindsIn = (stack: PlanReport['stack']): number =>
  new Set(stack.map(({ sheet, angleDeg }) => `${sheet}@${angleDeg}`)).size;

export interface PlanReport {
  /** From the garment outward. */
  stack: { sheet: string; angleDeg: number }[];
  /** The same as it is written on the command line. */
  stackText: string;
  /** The same in words. */
  stackName: string;
  /** Each sheet of the stack once, by what a supplier goes by. */
  toAskFor: SheetToAskFor[];
  topping: string | null;
  toppingName: string | null;
  underlay: { object: number; to: LaidUnderlay }[];
  needle: string;
  needleName: string;
  speedSpm: number;
  /** English and metric, for programs that show them as they are. */
  hooping: string[];
  /** The same as data. */
  hoopingNotes: readonly HoopingNote[];
  cost: Cost;
  /** Of the run that was asked for; null where none was. */
  price: PlanPrice | null;
  riskNow: PlanRiskReport;
  riskWashed: PlanRiskReport;
  /** English and metric. */
  why: string[];
  /** The same as data. */
  reasons: readonly Why[];
}

/** The hoop that a design is sewn in, with the least room that is left on a side of its field: negative where it does not hold it. */
export interface HoopReport {
  id: string;
  name: string;
  holds: boolean;
  roomMm: number;
}

export interface ObjectAdviceReport {
  object: number;
  relay: {
    from: UnderlayKind[];
    to: LaidUnderlay;
    wrinkleMm: { now: [number, number]; washed: [number, number] };
  } | null;
  split: boolean;
  locks: boolean;
  pullCompensationMm: number | null;
  /** How far its edges move inward where drawing them out does not make up for it. */
  drawsInMm: number | null;
  /** The same in English and metric, the weightiest first. */
  text: string[];
}

/** Advice on a design in the vet report: the plan in short; `lieflat advise` has the others. */
export interface DesignAdviceReport {
  recommended: PlanReport;
  meets: Meets;
  /** On this fabric. */
  verdict: VerdictLevel;
  /** Why it is no better; none where it is good to sew. */
  verdictReasons: readonly VerdictReason[];
  /** Codes of the findings that are to be looked at before it is sewn. */
  warnings: readonly FindingCode[];
  /** Those of the warnings that are gone once the file is relaid as recommended. */
  relaidAway: readonly FindingCode[];
  /** Null where none that is known holds the design. */
  hoop: HoopReport | null;
  mustChange: string[];
  /** The same as data. */
  changes: readonly DesignChange[];
  /** Launderings after which the shop looks at its work. */
  washes: number;
  /** Plans that `lieflat advise` lists beside it. */
  otherPlans: number;
  /** The plan in sentences. */
  text: string[];
}
