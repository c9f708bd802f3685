/** `lieflat/rework`: rewritten stitches and their proof. A shop with everything (`lieflat/pipeline`) relays and resews whole files. */
export { relaid as withUnderlay, type SewnDesign } from '../stitch/relaid.js';
export type { EnlargedDesign, Enlargement, LeftPart, NotGrown } from './enlargement.js';
export type { ObjectProof, ProofFault } from './proof.js';
export type { NotCompensated } from './proven-compensation.js';
export type { LeftBecause } from './relay.js';
export type { Misreading } from './relay-check.js';
export type { RelayWish } from './relay-design.js';
export type { Refusal } from './relay-edit.js';
export type { ModeOutcome, Resewing, ResewWish } from './resew.js';
export type { ResewRequest } from './resew-design.js';
export type { ExposedHole, Holes } from './resew-holes.js';
export { RESEW_MODES, type ResewMode } from './resew-mode.js';
export type { Offset } from './resew-search.js';
export type { WrittenDesign } from './resew-written.js';
