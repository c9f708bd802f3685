/** The version of the program, which the build puts in. */
declare const VERSION: string;

/** In the place of what looks the package up, in the page. */
export const packageVersion = (): string => VERSION;

/** The page keeps nothing. */
export const packageBuild = (): undefined => undefined;
