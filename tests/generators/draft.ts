import type { ObjectKind, UnderlayKind } from '../../lib/segment/objects.js';
import type { Vec } from './plane.js';

/** What a needle point is for, as its maker knows. */
export type Role = 'top' | 'underlay' | 'lock' | 'travel';

export interface Needle extends Vec {
  role: Role;
  /** End of a swing of a satin. */
  rail?: boolean;
}

/** One object on its way to the pen: its needle points in sewing order, and what is true of it before any transform. */
export interface Draft {
  kind: ObjectKind;
  needles: Needle[];
  widthMm: number | null;
  spacingMm: number | null;
  /** Row direction of a fill; else null (that of a satin is taken from its swings as they come to lie on the raster). */
  angleDeg: number | null;
  underlay: UnderlayKind[];
  split: boolean;
  locks: { start: boolean; end: boolean };
  note: string;
}

export const needles = (points: readonly Vec[], role: Role): Needle[] =>
  points.map((p) => ({ x: p.x, y: p.y, role }));
