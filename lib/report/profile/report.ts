/** Which profile is in use and what it changes: what `lieflat profile --format json` prints. */

export type ProfileFigure = number | string | boolean | null;

export interface Difference {
  /** As the profile says it: `limits.satin-too-wide.warn`. */
  readonly key: string;
  readonly value: ProfileFigure;
  /** Null where nothing is built in. */
  readonly builtIn: ProfileFigure;
  readonly unit: string;
}

export interface ProfileReport {
  readonly schema: 'lieflat/profile@1';
  /** The file in use; null where the built-in figures are. */
  readonly path: string | null;
  readonly differences: readonly Difference[];
}
