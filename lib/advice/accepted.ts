/** What the shop accepts: the lowest grades that may leave it. */
export interface Accepted {
  /** As sewn. */
  readonly grade: number;
  /** After `washes` launderings. */
  readonly washedGrade: number;
  readonly washes: number;
}

/**
 * A shop that has said nothing: nothing plainly to be seen, when it is handed over and after two months of weekly washing. Our own assumption;
 * 3.5 is the grade below which pressed goods are often refused (from memory).
 */
export const USUALLY_ACCEPTED: Accepted = { grade: 3.5, washedGrade: 3.5, washes: 8 };
