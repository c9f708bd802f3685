/** Why objects were left as they are. */
import type { Words } from '../phrases/words.js';

export type RelayWords = Words<'common' | 'findings' | 'relay' | 'risk' | 'setup'>;

/** The objects that were left for each reason. */
export const reasonsOf = (left: readonly { object: number; reason: string }[]): [string, number[]][] => [
  ...left.reduce(
    (of, { object, reason }) => of.set(reason, [...(of.get(reason) ?? []), object]),
    new Map<string, number[]>(),
  ),
];
