/** Room that is left beside a design in the field of its hoop. */
import type { Voice } from '../voice.js';

/** `roomMm` on each side: a clause. */
export const littleRoom = ({ roomMm }: { roomMm: number }, say: Voice): string =>
  `${Number(say.bare(roomMm)) === 0 ? 'nothing' : `only ${say.length(roomMm)}`} of its field is left on each side`;

/** The same with what to do: follows the name of the hoop. */
export const traceInHoop = (room: { roomMm: number }, say: Voice): string =>
  `${littleRoom(room, say)}: center it well and trace it first`;
