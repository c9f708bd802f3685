/** What a person sees in the stitches: one piece of top stitching each, with what lies under it. */
import { FINDER } from './parameters.js';

export type ObjectKind = 'satin' | 'fill' | 'run';

export const UNDERLAY_KINDS = ['center-run', 'edge-run', 'zigzag', 'double-zigzag', 'fill'] as const;
export type UnderlayKind = (typeof UNDERLAY_KINDS)[number];

/** A closed range of stitch indexes: both ends belong to it. */
export type StitchRange = readonly [first: number, last: number];

/** What an object is sewn for. */
export const PURPOSES = ['top', 'placement', 'tack-down', 'edging', 'net', 'decorative'] as const;
export type Purpose = (typeof PURPOSES)[number];

/** How a filled area is sewn: along straight or bent rows, round and round, or as loosely as fabric shows through. */
export const PATTERNS = ['rows', 'curved', 'spiral', 'outline', 'radial', 'loose'] as const;
export type Pattern = (typeof PATTERNS)[number];

/** Below this confidence what is said of an object is said as a guess, and no rewrite touches it unasked. */
export const UNSURE = FINDER.unsure.value;

/** The second-best reading of an object: a kind, a purpose, or underlay. */
export interface Doubt {
  readonly could: ObjectKind | Purpose | 'underlay';
  /** How far behind it was: 0 as likely, 1 out of the question. */
  readonly margin: number;
}

export interface Underlay {
  /** From 1, in sewing order: objects that share an underlay name the same one. Null where there is none. */
  readonly id: number | null;
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
  /** What else it lies on, where that is not sewn for it alone: a net under a whole word, beside underlay of its own. */
  readonly also: readonly UnderlayPiece[];
}

/** A piece of underlay, whoever it is for. */
export interface UnderlayPiece {
  readonly id: number;
  readonly kinds: readonly UnderlayKind[];
  readonly range: StitchRange;
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
  readonly purpose: Purpose;
  /** It covers the edge of an applied piece: a placement line or a tack-down lies beneath it. */
  readonly overPiece: boolean;
  /** A very dense column with capped ends, as sewn over foam. */
  readonly foam: boolean;
  /** Null for satin and runs. */
  readonly pattern: Pattern | null;
  /** How often the same column, area or line is sewn over: 1, or 2 and more. */
  readonly passes: number;
  /** How many times as dense it is as the pass in `from` and `to`, which is the last. */
  readonly timesDense: number;
  /** 0 to 1: how clear the decisions were that made it. */
  readonly confidence: number;
  /** Null where nothing else comes near. */
  readonly doubt: Doubt | null;
  /** A person of the shop has said what it is. */
  readonly setByShop: boolean;
}

/** One piece of underlay with all objects that lie over it, by their ids. */
export interface SharedUnderlay extends UnderlayPiece {
  readonly serves: readonly number[];
}

/**
 * The underlays of a design, each once.
 *
 * @example
 * ```ts
 * import { findObjects, penetrations, readDesignFile, underlaysOf } from 'lieflat';
 * const objects = findObjects(penetrations((await readDesignFile('samples/name-drop.dst')).design));
 * underlaysOf(objects)[0].serves; // => [1]
 * ```
 */
export function underlaysOf(objects: readonly StitchObject[]): SharedUnderlay[] {
  const byId = new Map<number, UnderlayPiece & { serves: number[] }>();
  for (const { id: object, underlay } of objects) {
    for (const { id, kinds, range } of piecesOf(underlay)) {
      const known = byId.get(id);
      if (known) known.serves.push(object);
      else byId.set(id, { id, kinds, range, serves: [object] });
    }
  }
  return [...byId.values()].sort((a, b) => a.id - b.id);
}

function piecesOf({ id, kinds, range, also }: Underlay): readonly UnderlayPiece[] {
  return range === null ? also : [{ id: id!, kinds, range }, ...also];
}

/** What is true of a plain piece of top stitching that nothing else could be. */
export const PLAINLY_TOP = {
  purpose: 'top',
  overPiece: false,
  foam: false,
  pattern: null,
  passes: 1,
  timesDense: 1,
  confidence: 1,
  doubt: null,
  setByShop: false,
} as const satisfies Partial<StitchObject>;

export const NO_UNDERLAY: Underlay = {
  id: null,
  kinds: [],
  range: null,
  stitches: 0,
  spacingMm: null,
  also: [],
};
