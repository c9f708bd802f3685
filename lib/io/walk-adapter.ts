/** The file operations of the library that matches globs, done by lieflat's own drive; it drops errors, so they are told here. */
import type { GlobOptions } from 'tinyglobby';
import { drive, type FileState } from './drive.js';

type Adapter = NonNullable<GlobOptions['fs']>;
type WalkCallback = (error: unknown, value?: unknown) => void;

const kinds = ({ kind }: Pick<FileState, 'kind'>) => ({
  isFile: () => kind === 'file',
  isDirectory: () => kind === 'folder',
  isSymbolicLink: () => kind === 'link',
});

/** @param tell called with each folder that cannot be read, and why */
export function walkAdapter(tell: (folder: string, error: unknown) => void): Adapter {
  const answer = (work: Promise<unknown>, done: WalkCallback): void => {
    work.then(
      (value) => done(null, value),
      (error) => done(error),
    );
  };
  const adapter = {
    readdir: (path: string, _options: unknown, done: WalkCallback) =>
      drive.readdir(path).then(
        (entries) =>
          done(
            null,
            entries.map((entry) => ({ name: entry.name, ...kinds(entry) })),
          ),
        (error) => {
          tell(path, error);
          done(error, []);
        },
      ),
    realpath: (path: string, done: WalkCallback) => answer(drive.realpath(path), done),
    stat: (path: string, done: WalkCallback) => answer(drive.stat(path).then(kinds), done),
  };
  // Of what Node's functions take, the walk uses this much.
  return adapter as unknown as Adapter;
}
