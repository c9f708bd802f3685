/** What went wrong, for programs to branch on. */
export type ErrorCode =
  | 'bad-argument'
  | 'unreadable'
  | 'undecodable'
  | 'unwritable'
  | 'exists'
  | 'too-large'
  | 'over-budget'
  | 'bad-profile'
  | 'unknown-id'
  | 'no-fit';

/** The parts of the one line that a person reads. */
export interface ErrorParts {
  code: ErrorCode;
  /** File, and byte or line offset where there is one: `crest.dst: byte 512`. */
  place: string;
  /** What is wrong, in plain words. */
  what: string;
  /** What the person can do about it. */
  todo: string;
}

/**
 * The one class for everything a user can cause: an unreadable file, a bad option, a wrong profile key.
 * Anything else that is thrown is a bug of ours.
 *
 * @example
 * ```ts
 * import { decodeDesign, LieflatError } from 'lieflat';
 * const error = await decodeDesign(new Uint8Array(9), 'dst').catch((thrown: unknown) => thrown);
 * error instanceof LieflatError; // => true
 * error instanceof LieflatError && error.code; // => 'undecodable'
 * ```
 */
export class LieflatError extends Error implements ErrorParts {
  readonly code: ErrorCode;
  readonly place: string;
  readonly what: string;
  readonly todo: string;

  constructor(parts: ErrorParts) {
    super(`${parts.place}: ${parts.what}; ${parts.todo}`);
    this.name = 'LieflatError';
    this.code = parts.code;
    this.place = parts.place;
    this.what = parts.what;
    this.todo = parts.todo;
  }
}
