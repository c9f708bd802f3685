/** In the place of Node's module in the page: paths as POSIX has them, seen from the root. */

function normal(path: string): string {
  const parts: string[] = [];
  for (const part of path.split('/')) {
    if (part === '' || part === '.') continue;
    if (part === '..' && parts.length > 0 && parts.at(-1) !== '..') parts.pop();
    else if (part !== '..' || !isAbsolute(path)) parts.push(part);
  }
  const named = parts.join('/');
  if (named === '' && isAbsolute(path)) return '/';
  return (isAbsolute(path) ? `/${named}` : named || '.') + (path.endsWith('/') ? '/' : '');
}

const without = (path: string): string => path.replace(/\/+$/, '');

export const sep = '/';
export const isAbsolute = (path: string): boolean => path.startsWith('/');
export const join = (...parts: string[]): string => normal(parts.filter((part) => part !== '').join('/'));

export function resolve(...parts: string[]): string {
  let whole = '';
  for (const part of parts) whole = isAbsolute(part) ? part : `${whole}/${part}`;
  return without(normal(`/${whole}`)) || '/';
}

export function relative(from: string, to: string): string {
  const split = (path: string): string[] => resolve(path).split('/').filter(Boolean);
  const [there, here] = [split(from), split(to)];
  let same = 0;
  while (same < there.length && there[same] === here[same]) same++;
  return [...there.slice(same).map(() => '..'), ...here.slice(same)].join('/');
}

export function dirname(path: string): string {
  const inner = without(path);
  const end = inner.lastIndexOf('/');
  if (end < 0) return inner === '' && path !== '' ? '/' : '.';
  return without(inner.slice(0, end)) || '/';
}

export function basename(path: string): string {
  const inner = without(path);
  return inner.slice(inner.lastIndexOf('/') + 1);
}

export const parse = (path: string): { root: string } => ({ root: isAbsolute(path) ? '/' : '' });

export const posix = { sep, isAbsolute, join, resolve, relative, dirname, basename, parse };
/** No page is on a disk of Windows. */
export const win32 = null;
