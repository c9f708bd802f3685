import { isLittleRoom, LITTLE_ROOM, roomInField } from '../../materials/places.js';
import type { Finder } from '../context.js';
import { NOWHERE } from '../place-of.js';

/** A design that the chosen hoop holds, but with hardly any room on a side. */
export const littleRoomInHoop: Finder = ({ stitches, measures, hoop }) => {
  if (!hoop || stitches.count === 0) return [];
  const { side, sizeMm, fieldMm, roomMm } = roomInField(hoop, measures);
  if (roomMm < 0 || !isLittleRoom(roomMm)) return [];
  return [
    {
      code: 'little-room-in-hoop',
      severity: 'note',
      ...NOWHERE,
      measured: roomMm,
      limit: LITTLE_ROOM.value,
      unit: 'mm',
      params: { hoop: hoop.name, side, sizeMm, fieldMm, roomMm },
      fix: { do: 'choose-hoop', turned: false },
      basis: LITTLE_ROOM.basis,
    },
  ];
};
