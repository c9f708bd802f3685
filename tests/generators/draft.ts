import type { ObjectKind, UnderlayKind } from '../../lib/segment/objects.js';
import type { Vec } from './plane.js';

/** What a needle point is for, as its maker knows; `either` where people would tell it in more than one way. */
export type Role = 'top' | 'underlay' | 'lock' | 'travel' | 'either';

export interface Needle extends Vec {
  role: Role;
  /** End of a swing of a satin. */
  rail?: boolean;
}

export type Purpose = 'top' | 'placement' | 'tack-down' | 'edging' | 'net' | 'decorative';
export type Pattern = 'rows' | 'curved' | 'spiral' | 'outline' | 'radial' | 'loose';

/** What the papers leave open about an object, so that it is not judged. */
export interface Open {
  angle?: boolean;
  spacing?: boolean;
  width?: boolean;
  split?: boolean;
  lockStart?: boolean;
  lockEnd?: boolean;
  underlay?: boolean;
  /** Whether it lies on a zigzag is a matter of view. */
  zigzag?: boolean;
  /** It may as well be told as the underlay of what lies on it, or left to its neighbour: neither missed nor false. */
  object?: boolean;
}

/** One object on its way to the pen: its needle points in sewing order, and what is true of it before any transform. */
export interface Draft {
  kind: ObjectKind;
  needles: Needle[];
  widthMm: number | null;
  spacingMm: number | null;
  /** The 95th percentile of the width; the width itself where nothing is said. */
  wideMm?: number;
  /** Row direction of a fill; else null (that of a satin is taken from its swings as they come to lie on the raster). */
  angleDeg: number | null;
  underlay: UnderlayKind[];
  split: boolean;
  locks: { start: boolean; end: boolean };
  note: string;
  /** Other kinds that a person of the trade might as well call it. */
  alsoKinds?: readonly ObjectKind[];
  /** The purposes that are right, the best first; `top` where nothing is said. */
  purposes?: readonly Purpose[];
  /** The patterns that are right, the best first; rows for a fill and null for all else where nothing is said. */
  patterns?: readonly (Pattern | null)[];
  /** The numbers of passes that are right, the best first; 1 where nothing is said. */
  passes?: readonly number[];
  /** Satin over foam, meant to be very close. */
  foam?: boolean;
  open?: Open;
}

/** What is true of top stitching alone, unless more is said of it. */
export const plainDraft = (kind: ObjectKind, top: readonly Vec[]): Draft => ({
  kind,
  needles: needles(top, 'top'),
  widthMm: null,
  spacingMm: null,
  angleDeg: null,
  underlay: [],
  split: false,
  locks: { start: false, end: false },
  note: '',
});

export const needles = (points: readonly Vec[], role: Role): Needle[] =>
  points.map((p) => ({ x: p.x, y: p.y, role }));
