import { COMMON_PRACTICE, FROM_MEMORY, type Sourced } from '../core/sourced.js';
import { mmToInch } from '../core/units.js';
import type { DesignMeasures } from '../measure/measures.js';

/** A place on a garment and the size that designs there usually keep to. */
export interface Place {
  readonly id: string;
  readonly name: string;
  readonly widthMm: Sourced;
  readonly heightMm: Sourced;
  /** The size is set by a frame that the needle must not hit, and not by looks alone. */
  readonly frame: boolean;
}

/** The field of a hoop or frame that the needle may reach, foot clearance already taken off. */
export interface HoopField {
  readonly id: string;
  readonly name: string;
  readonly shape: 'round' | 'rectangle';
  /** Of the field; both are its diameter where it is round. */
  readonly widthMm: Sourced;
  readonly heightMm: Sourced;
}

const size = (value: number, low: number, high: number, basis: string): Sourced => ({
  value,
  low,
  high,
  unit: 'mm',
  basis,
});
const about = (value: number): Sourced => size(value, 0.85 * value, 1.15 * value, FROM_MEMORY);

const garment = (id: string, name: string, width: number, height: number): Place => ({
  id,
  name,
  widthMm: about(width),
  heightMm: about(height),
  frame: false,
});

/** Places by what the trade calls them. A shop's profile may put its own sizes. */
export const PLACES: readonly Place[] = [
  {
    id: 'left-chest',
    name: 'left chest',
    widthMm: size(100, 90, 115, COMMON_PRACTICE),
    heightMm: size(100, 90, 115, COMMON_PRACTICE),
    frame: false,
  },
  {
    id: 'cap-front',
    name: 'cap front',
    widthMm: size(130, 110, 140, FROM_MEMORY),
    heightMm: size(57, 50, 65, COMMON_PRACTICE),
    frame: true,
  },
  { ...garment('cap-side', 'cap side', 75, 50), frame: true },
  { ...garment('cap-back', 'cap back, over the opening', 100, 45), frame: true },
  garment('beanie', 'beanie', 110, 55),
  garment('pocket', 'chest pocket', 90, 75),
  garment('full-front', 'full front', 280, 250),
  garment('jacket-back', 'jacket back', 280, 300),
  garment('yoke', 'back yoke', 250, 65),
  garment('sleeve', 'sleeve', 85, 90),
  garment('cuff', 'cuff', 75, 30),
  garment('collar', 'collar point', 50, 30),
  garment('towel-border', 'border of a towel', 250, 50),
  garment('towel-corner', 'corner of a towel', 120, 120),
  garment('tote-front', 'front of a tote bag', 220, 200),
  garment('apron-bib', 'bib of an apron', 220, 150),
];

/** What is stamped on hoops is millimeters; the same in inches. */
const inInches = (mm: number): string => mmToInch(mm).toFixed(1);

const round = (id: string, outer: number, field: number): HoopField => ({
  id,
  name: `round hoop, ${outer} mm (${inInches(outer)} in)`,
  shape: 'round',
  widthMm: size(field, field - 5, field + 5, FROM_MEMORY),
  heightMm: size(field, field - 5, field + 5, FROM_MEMORY),
});

/** @param named the size that the hoop is called by, mm; null where it has none in its name */
const rectangle = (
  id: string,
  kind: string,
  named: readonly [widthMm: number, heightMm: number] | null,
  width: number,
  height: number,
): HoopField => ({
  id,
  name: named ? `${kind} ${named.join(' × ')} mm (${named.map(inInches).join(' × ')} in)` : kind,
  shape: 'rectangle',
  widthMm: size(width, width - 10, width + 10, FROM_MEMORY),
  heightMm: size(height, height - 10, height + 10, FROM_MEMORY),
});

type DesignSize = Pick<DesignMeasures, 'widthMm' | 'heightMm' | 'acrossMm'>;

/** Where a design comes nearest to the edge of the field it is sewn in, mm; negative where it stands out of it. */
export interface FieldRoom {
  readonly side: 'width' | 'height' | 'across';
  readonly sizeMm: number;
  readonly fieldMm: number;
  /** On each side. */
  readonly roomMm: number;
}

/** How much of a field is left beside a design that is hooped with its middle in the middle, where it is least. */
export function roomInField({ shape, ...field }: HoopField, design: DesignSize): FieldRoom {
  const room = (side: FieldRoom['side'], sizeMm: number, fieldMm: number): FieldRoom => ({
    side,
    sizeMm,
    fieldMm,
    roomMm: (fieldMm - sizeMm) / 2,
  });
  if (shape === 'round') return room('across', design.acrossMm, field.widthMm.value);
  const across = room('width', design.widthMm, field.widthMm.value);
  const upright = room('height', design.heightMm, field.heightMm.value);
  return upright.roomMm < across.roomMm ? upright : across;
}

/** Less room than this on a side is told of: a design that is hooped off its middle by as much meets the hoop. */
export const LITTLE_ROOM: Sourced = size(3, 2, 5, FROM_MEMORY);
/** A stitch file tells sizes to 0.1 mm. */
const RESOLUTION_MM = 0.1;
export const isLittleRoom = (roomMm: number): boolean => roomMm < LITTLE_ROOM.value - RESOLUTION_MM / 2;

/** Whether the field holds a design that is hooped with its middle in the middle. */
export const fieldHolds = (hoop: HoopField, design: DesignSize): boolean =>
  roomInField(hoop, design).roomMm >= 0;

/** The usual hoop with the smallest field that holds a design: on caps a cap frame, else a round hoop or a square frame. Null where none does. */
export function smallestHoop(design: DesignSize, onCap: boolean): HoopField | null {
  const area = ({ widthMm: w, heightMm: h }: HoopField): number => w.value * h.value;
  const fitting = HOOP_FIELDS.filter(
    (hoop) => hoop.id.startsWith('cap-') === onCap && fieldHolds(hoop, design),
  );
  return fitting.toSorted((a, b) => area(a) - area(b))[0] ?? null;
}

/**
 * Usual fields. They differ from maker to maker and with the foot and the arms, so the figure in the machine's own
 * manual goes before these.
 */
export const HOOP_FIELDS: readonly HoopField[] = [
  round('round-90', 90, 70),
  round('round-120', 120, 100),
  round('round-150', 150, 130),
  round('round-180', 180, 160),
  rectangle('square-240', 'square frame,', [240, 240], 215, 215),
  rectangle('frame-300x290', 'frame,', [300, 290], 275, 265),
  rectangle('frame-430x290', 'frame,', [430, 290], 405, 265),
  rectangle('square-380', 'square frame,', [380, 380], 355, 355),
  rectangle('flat-100x100', 'flat hoop, field', [100, 100], 100, 100),
  rectangle('flat-130x180', 'flat hoop, field', [130, 180], 130, 180),
  rectangle('flat-200x300', 'flat hoop, field', [200, 300], 200, 300),
  rectangle('cap-frame', 'cap frame', null, 130, 57),
  rectangle('cap-frame-wide', 'wide cap frame', null, 340, 65),
];
