import type { Sourced } from '../core/sourced.js';
import type { Design } from '../format/design.js';
import { Kind } from '../format/design.js';
import { Break, type Stitches } from '../format/stitches.js';

/** What a machine needs for its work. */
export interface MachineProfile {
  readonly id: string;
  readonly name: string;
  /** Stitches a minute at full speed. */
  readonly speedSpm: Sourced;
  /** Longest stitch sewn at full speed, mm. */
  readonly fullSpeedMm: Sourced;
  /** The longest move of one record, mm, and the speed at it. */
  readonly longestMm: Sourced;
  readonly slowestSpm: Sourced;
  /** Seconds for a trim, for a colour change with its trim, and for a stop until the operator goes on. */
  readonly trimSeconds: Sourced;
  readonly colourSeconds: Sourced;
  readonly stopSeconds: Sourced;
}

/** The machine set to another full speed. */
export const atSpeed = (machine: MachineProfile, speedSpm: number): MachineProfile => ({
  ...machine,
  speedSpm: { ...machine.speedSpm, value: speedSpm },
});

/**
 * Seconds for one stitch or move of the length: at full speed up to `fullSpeedMm`, then the speed falls in a
 * straight line to `slowestSpm` at `longestMm`; what is longer takes more than one turn of the machine.
 */
export function secondsPerStitch(lengthMm: number, machine: MachineProfile): number {
  const fast = machine.speedSpm.value;
  const slow = Math.min(fast, machine.slowestSpm.value);
  const full = machine.fullSpeedMm.value;
  const longest = machine.longestMm.value;
  if (lengthMm <= full) return 60 / fast;
  if (lengthMm >= longest) return (60 / slow) * Math.ceil(lengthMm / longest - 1e-9);
  return 60 / (fast - ((fast - slow) * (lengthMm - full)) / (longest - full));
}

/**
 * Machine time to sew the design once, s: every stitch and jump at the speed its length allows, and the trims,
 * colour changes and stops. A trim that belongs to a colour change or stop is part of it and is not counted again.
 *
 * @throws nothing; an empty design takes 0 s
 */
export function sewSeconds(design: Design, machine: MachineProfile): number {
  const { x, y, kind } = design;
  const fullTurn = 60 / machine.speedSpm.value;
  const full2 = machine.fullSpeedMm.value ** 2;
  const pauseFor = pauses(machine);
  let seconds = 0;
  let pending = 0;
  let px = 0;
  let py = 0;
  for (let i = 0; i < kind.length; i++) {
    const k = kind[i];
    const fromX = px;
    const fromY = py;
    px = x[i];
    py = y[i];
    if (k === Kind.stitch || k === Kind.jump) {
      const dx = px - fromX;
      const dy = py - fromY;
      const d2 = dx * dx + dy * dy;
      seconds += d2 <= full2 ? fullTurn : secondsPerStitch(Math.sqrt(d2), machine);
      if (k === Kind.stitch) {
        seconds += pending;
        pending = 0;
      }
    } else if (pauseFor[k] > pending) {
      pending = pauseFor[k];
    }
  }
  return seconds + pending;
}

/**
 * Seconds that the machine takes for the stitches alone, moves over a trim or a colour change left out: to find what other stitches would
 * add or save.
 */
export function secondsOfStitches({ x, y, breakBefore, count }: Stitches, machine: MachineProfile): number {
  let seconds = 0;
  for (let i = 1; i < count; i++) {
    if (breakBefore[i] >= Break.trim) continue;
    seconds += secondsPerStitch(Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]), machine);
  }
  return seconds;
}

/** Seconds by record kind. */
function pauses(machine: MachineProfile): Float64Array {
  const seconds = new Float64Array(Kind.end + 1);
  seconds[Kind.trim] = machine.trimSeconds.value;
  seconds[Kind.colour] = machine.colourSeconds.value;
  seconds[Kind.stop] = machine.stopSeconds.value;
  return seconds;
}
