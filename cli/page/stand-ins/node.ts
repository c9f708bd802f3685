/** In the place of Node's other modules in the page, as far as what the page can do reaches them. */

/** The page's files are in memory: a drive of its own is put in the place of the one that asks for this. */
export default { constants: {}, setTimeout: () => Promise.resolve() };

export const hostname = (): string => 'page';
export const platform = (): string => 'linux';
export const pid = 1;
export const threadId = 0;
export const versions = { v8: '' };

/** No process but the page's own runs. */
export function kill(): never {
  throw Object.assign(new Error('ESRCH, kill'), { code: 'ESRCH', syscall: 'kill' });
}

/** The worker is alone. */
export const availableParallelism = (): number => 1;
