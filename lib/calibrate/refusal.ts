/** What a log lacks to carry a fit: a code with its figures, put into words where reports are made. */
import type { FreeName } from './free-parameters.js';

/** Figures of what keeps a log from carrying a fit. */
export interface FitLackParams {
  /** Of all `rows` so many are graded. */
  'few-grades': { graded: number; needed: number; rows: number };
  'one-setup': { fabric: string; stack: string };
  'grades-alike': { least: number; most: number };
  /** By the model the readings come out the same on any machine. */
  'no-effect': { graded: boolean };
  'not-told-apart': { names: readonly FreeName[] };
}

export type FitLack = {
  readonly [C in keyof FitLackParams]: { readonly code: C; readonly params: Readonly<FitLackParams[C]> };
}[keyof FitLackParams];

/** In place of a fit. */
export interface Refused {
  readonly lack: FitLack;
}

export const isRefused = (result: object): result is Refused => 'lack' in result;
