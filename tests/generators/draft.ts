import type { ObjectKind, UnderlayKind } from '../../lib/segment/objects.js';
import type { Vec } from './plane.js';

/** What a needle point is for, as its maker knows. */
export type Role = 'top' | 'underlay' | 'lock' | 'travel';

export interface Needle extends Vec {
  role: Role;
}

/** One object on its way to the pen: its needle points in sewing order, and what is true of it before any transform. */
export interface Draft {
  kind: ObjectKind;
  needles: Needle[];
  widthMm: number | null;
  spacingMm: number | null;
  angleDeg: number | null;
  /** True where the swings turn too much for one mean direction, yet not so much that there is none: not judged. */
  angleOpen: boolean;
  underlay: UnderlayKind[];
  split: boolean;
  locks: { start: boolean; end: boolean };
  note: string;
}

export const needles = (points: readonly Vec[], role: Role): Needle[] =>
  points.map((p) => ({ x: p.x, y: p.y, role }));
