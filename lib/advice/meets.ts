/** Whether the standard is met: in nine draws of ten and more, in one of ten and fewer, or in between. */
export type Meets = 'yes' | 'may' | 'no';

/** The standard is met where it is in this part of the draws, and missed where it is missed in as many. */
export const SURE = 0.9;

/** @param chance part of the draws in which it is met */
export const meetsAt = (chance: number): Meets =>
  chance >= SURE ? 'yes' : chance <= 1 - SURE + 1e-9 ? 'no' : 'may';
