/** In the place of the library that matches globs, in the page: a name there is a file's own. */
export const isDynamicPattern = (): boolean => false;
export const glob = async (): Promise<string[]> => [];
