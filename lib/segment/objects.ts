/** What a person sees in the stitches: one piece of top stitching each, with what lies under it. */

export type ObjectKind = 'satin' | 'fill' | 'run';

export const UNDERLAY_KINDS = ['center-run', 'edge-run', 'zigzag', 'double-zigzag', 'fill'] as const;
export type UnderlayKind = (typeof UNDERLAY_KINDS)[number];

/** A closed range of stitch indexes: both ends belong to it. */
export type StitchRange = readonly [first: number, last: number];

export interface Underlay {
  /** In the order in which they are sewn; empty where there is none. */
  readonly kinds: readonly UnderlayKind[];
  /** One range from the first to the last underlay stitch, or null where there is none. */
  readonly range: StitchRange | null;
  /** Needle penetrations in it. */
  readonly stitches: number;
  /**
   * Distance between neighbouring rows of a light fill, or between neighbouring points on one rail of a zigzag,
   * in mm; null for runs alone.
   */
  readonly spacingMm: number | null;
}

export interface StitchObject {
  /** From 1, in sewing order. */
  readonly id: number;
  /** Colour block, from 1. */
  readonly block: number;
  /** From 1: objects that touch and are sewn one after another without a trim share a group. */
  readonly group: number;
  readonly kind: ObjectKind;
  /** Top stitching only. */
  readonly range: StitchRange;
  /**
   * Satin: one entry a swing; fill: one entry a row; run: empty. `from[i]` and `to[i]` are the stitch indexes of
   * the swing's or row's two ends in sewing order (for a split swing, or a row of several stitches, the points
   * between them lie inside it).
   */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Fill: index into `from`/`to` at which each section starts (first is 0); else empty. */
  readonly sections: Int32Array;
  /** Satin whose swings are broken by needle points inside the column. */
  readonly split: boolean;
  readonly underlay: Underlay;
  readonly locks: { readonly start: boolean; readonly end: boolean };
}

export const NO_UNDERLAY: Underlay = { kinds: [], range: null, stitches: 0, spacingMm: null };
