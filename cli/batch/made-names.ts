/** What files that are made of many designs are called: as the designs are. */
import { basename } from 'node:path';
import { formatOf } from '../../lib/index.js';

/** A stitch file of the same format; one of another ending gets that of the usual format behind it. */
export function stitchNameOf(path: string): string {
  const name = basename(path);
  return formatOf(name) === null ? `${name}.dst` : name;
}

/** `name-drop.html`. */
export function pageNameOf(path: string): string {
  const name = basename(path);
  return `${formatOf(name) === null ? name : name.replace(/\.[^.]*$/, '')}.html`;
}
