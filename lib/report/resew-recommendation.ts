import type { ResewMode } from '../rework/resew-mode.js';
import { count, fixed, length, type Units } from './quantities.js';

/** What a way of making a design larger comes to. */
export interface Outcome {
  mode: ResewMode;
  scale: number;
  exposed: number;
  roomMm: number | null;
  smallestScaleThatHides: number | null;
}

/** What each way of making a design larger is called in print. */
export const MODE_WORDS: Readonly<Record<ResewMode, string>> = {
  machine: 'scaled as the machine does',
  regenerate: 'laid anew at the spacing it had',
  widen: 'columns widened where they stand',
};

/** Growth as it is printed: `5 %`, `8.4 %`. */
export const percentText = (scale: number): string => `${Number(fixed((scale - 1) * 100, 1))} %`;

/**
 * The way that leaves fewest holes in sight; of ways that leave as many the one with most room for hooping off, and of those the first, for it changes least.
 */
export function recommendation(
  modes: readonly Outcome[],
  holes: number,
  units: Units = 'mm',
): { mode: ResewMode; text: string } {
  const room = (mm: number | null): string => length(mm ?? 0, units);
  const best = modes.reduce((a, b) =>
    b.exposed < a.exposed || (b.exposed === a.exposed && (b.roomMm ?? 0) > (a.roomMm ?? 0)) ? b : a,
  );
  const others = modes
    .filter(({ mode }) => mode !== best.mode)
    .map(({ mode, scale, exposed, roomMm }) => {
      const by = scale === best.scale ? '' : ` at ${percentText(scale)}`;
      return exposed > 0
        ? `${mode}${by} leaves ${count(exposed)}`
        : `${mode}${by} hides all with ${room(roomMm)} of room`;
    });
  const result =
    best.exposed === 0
      ? `it hides all ${count(holes)} holes, hooped off by as much as ${room(best.roomMm)}`
      : `it leaves fewest of the ${count(holes)} holes in sight, ${count(best.exposed)}`;
  const least = modes
    .filter(({ smallestScaleThatHides: at, scale }) => best.exposed > 0 && at !== null && at !== scale)
    .map(({ mode, smallestScaleThatHides: at }) => `${mode} at ${percentText(at!)}`);
  const smaller =
    least.length > 0
      ? ` What hides all, if it is hooped exactly: ${least.join(', ')} (--find takes that).`
      : '';
  return {
    mode: best.mode,
    text: `Take ${best.mode} (${MODE_WORDS[best.mode]}) at ${percentText(best.scale)}: ${result}${others.length > 0 ? `; ${others.join(', ')}` : ''}.${smaller}`,
  };
}
