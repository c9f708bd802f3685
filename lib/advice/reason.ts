/**
 * Why a plan is as it is, what to mind when it is hooped, and what in the design would have to change: data, a code
 * with its figures, in words where reports are made. Lengths mm.
 */
import type { Cause } from '../mechanics/drivers.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { UnderlayKept } from '../vetting/finding.js';
import type { Accepted } from './accepted.js';
import type { UpperEnd } from './meets.js';

/** For what is said without a figure. */
export type NoFigure = Readonly<Record<never, never>>;

/** Height of the wrinkles with the underlay that the file has, and with the one to be laid. */
export type OwnAndLaid = readonly [own: number, laid: number];

/** By code, what goes into the reasons of a plan. */
export interface WhyParams {
  /** The recommended plan beside the standard; `only`: no other was looked at. */
  'meets-standard': { accepted: Accepted; only: boolean };
  /** `upper`: what may miss it. */
  'may-miss-standard': { accepted: Accepted; only: boolean; upper: UpperEnd | null };
  /** A cheaper plan of the list that most likely meets the standard; `upper`: what of it may miss it. */
  'cheaper-may-miss': { accepted: Accepted; upper: UpperEnd | null };
  'comes-closest': { accepted: Accepted; only: boolean };
  /** The sheet that the trade takes in doubt, where another setup of the same price lies flatter by so much. */
  'usual-sheet-first': { flatterMm: number; washes: number };
  /** Any other plan beside the recommended one; `lowerMm` is negative where its wrinkles are higher. */
  'beside-recommended': {
    cost: 'less' | 'more' | 'same';
    lowerMm: number;
    washes: number;
    accepted: Accepted;
  };
  'lighter-underlay': {
    to: LaidUnderlay;
    columns: number;
    nowMm: OwnAndLaid;
    washedMm: OwnAndLaid;
    washes: number;
  };
  /** Laid under columns that had none. */
  'underlay-where-none': { to: LaidUnderlay; columns: number };
  /** Columns that keep an underlay which the rule of the trade calls too heavy. */
  'underlay-kept': { columns: number; because: UnderlayKept };
  /** A rule of the trade that the backing which was asked for breaks. */
  'against-rule': { rule: Why };
  // The rules of the trade about backing, by their ids.
  'some-backing': NoFigure;
  'washable-sheets': NoFigure;
  'nothing-to-rinse': NoFigure;
  'sheets-that-stay': NoFigure;
  'woven-on-elastic': NoFigure;
  'crossed-woven': NoFigure;
  'woven-sandwich': NoFigure;
  'tear-away-on-rigid': NoFigure;
  'crisp-on-sheer': NoFigure;
  'structured-cap': NoFigure;
  'soft-cap': NoFigure;
  /** `light`: of no more stitches than film alone carries, which is `most`. */
  'towel-backing': { light: boolean; stitches: number; most: number };
  'stable-woven': { small: boolean };
  topping: { because: 'not-washable' | 'pile' | 'open-knit' | 'elastic' };
  needle: {
    because:
      | 'cap'
      | 'fine-knit'
      | 'narrow-on-knit'
      | 'knit'
      | 'heavy'
      | 'heavy-woven'
      | 'narrow'
      | 'narrow-for-thread'
      | 'woven';
  };
  speed: { speedSpm: number; because: 'cap' | 'thin-knit' | 'pile' | 'wide-satin' };
}

/** By code, what there is to mind in hooping and finishing. */
export interface HoopingParams {
  'on-cap-frame': NoFigure;
  'as-it-lies': NoFigure;
  'flat-and-firm': NoFigure;
  straight: NoFigure;
  'smooth-pile': NoFigure;
  'turn-backing': NoFigure;
  /** The first sheet straight and others turned; `sheets` of all. */
  'turn-others': { sheets: number };
  'hoop-together': NoFigure;
  'tear-backing': NoFigure;
  'tear-film-behind': NoFigure;
  'pick-from-back': NoFigure;
  'trim-backing': { leftMm: number };
  'topping-last': { removedBy: 'water' | 'heat' };
  'hoop-marks': { washable: boolean };
  'hoop-marks-for-good': NoFigure;
}

export type Coded<P> = { [C in keyof P]: { readonly code: C; readonly params: Readonly<P[C]> } }[keyof P];

export type Why = Coded<WhyParams>;
export type HoopingNote = Coded<HoopingParams>;

/** Causes of wrinkles that something can be done about in the design, the fabric or the hooping. */
export type DesignChange = Exclude<Cause, 'backing'>;
