/**
 * A value with its range and where it comes from. `basis` is a published source, `common practice, no source`,
 * or `typical, from memory`.
 */
export interface Sourced {
  value: number;
  low: number;
  high: number;
  unit: string;
  basis: string;
}

export const COMMON_PRACTICE = 'common practice, no source';
export const FROM_MEMORY = 'typical, from memory';

export const isSourced = (value: object): value is Sourced =>
  'value' in value && 'unit' in value && 'basis' in value;

/** A value as a shop gives it, in the unit of the one that it replaces. */
export interface GivenValue {
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
  readonly basis?: string;
}
