/** The version of the program, which the build puts in. */
declare const VERSION: string;

/** In the place of what looks the package up, in the page. */
export const packageVersion = (): string => VERSION;
