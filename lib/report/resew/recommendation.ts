import type { ResewMode } from '../../rework/resew-mode.js';
import type { Words } from '../phrases/words.js';

/** What a way of making a design larger comes to. */
export interface Outcome {
  mode: ResewMode;
  scale: number;
  exposed: number;
  roomMm: number | null;
  smallestScaleThatHides: number | null;
}

/** What hides all where the best way does not; empty where nothing has to be said. */
export function hideAllWords(best: Outcome, modes: readonly Outcome[], { resew }: Words<'resew'>): string {
  if (best.exposed === 0) return '';
  const others = modes.flatMap(({ mode, scale, smallestScaleThatHides: at }) =>
    at !== null && at !== scale ? [{ mode, scale: at }] : [],
  );
  return others.length === 0 ? '' : resew.hideAll({ others });
}
