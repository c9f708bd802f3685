/** The name of a file without the folders that it lies in, of either kind of path. */
export const fileName = (path: string): string =>
  path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
