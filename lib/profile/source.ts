/** The text of a profile: JSON in which comments may stand, with the line of everything in it. */
import type { Node, ParseError } from 'jsonc-parser';
import { LieflatError } from '../core/errors.js';
import type { SettingsSource } from './refusal.js';
import { LARGEST } from './setting.js';

/** Names by which a text could reach into what every object has. */
const REFUSED = new Set(['__proto__', 'constructor', 'prototype']);
const DEEPEST = 12;

/**
 * @param path what the file is called in errors
 * @throws LieflatError `bad-profile`: no JSON, a key twice, a key or a number that cannot be meant
 */
export async function parseProfile(text: string, path: string): Promise<SettingsSource> {
  const { parseTree, findNodeAtLocation } = await import('jsonc-parser');
  const plain = text.replace(/^\ufeff/, '');
  const lineAt = (offset: number) => plain.slice(0, offset).split('\n').length;
  const refuse = (offset: number, what: string, todo: string): LieflatError =>
    new LieflatError({ code: 'bad-profile', place: `${path}: line ${lineAt(offset)}`, what, todo });
  const errors: ParseError[] = [];
  const tooDeep = (offset: number) =>
    refuse(offset, 'braces are nested deeper than any setting is', 'look for one that is not closed');
  let root: Node | undefined;
  try {
    root = parseTree(plain, errors, { allowTrailingComma: true });
  } catch (error) {
    // The parser calls itself for every brace.
    if (!(error instanceof RangeError)) throw error;
    throw tooDeep(0);
  }
  if (errors.length > 0 || !root)
    throw refuse(
      errors[0]?.offset ?? 0,
      'this is not JSON (comments are allowed)',
      'look for a missing or extra comma, quote or bracket there',
    );
  const read = (node: Node, at: string, depth: number): unknown => {
    if (depth > DEEPEST) throw tooDeep(node.offset);
    if (node.type === 'array') return (node.children ?? []).map((child) => read(child, at, depth + 1));
    if (node.type === 'object') {
      const seen = new Map<string, unknown>();
      for (const { children } of node.children ?? []) {
        const [key, value] = children!;
        const name = key.value as string;
        const where = at ? `${at}.${name}` : name;
        if (REFUSED.has(name)) throw refuse(key.offset, `the key ${where} is not allowed`, 'leave it out');
        if (seen.has(name)) throw refuse(key.offset, `the key ${where} stands twice`, 'keep one of them');
        seen.set(name, read(value, where, depth + 1));
      }
      return Object.fromEntries(seen);
    }
    if (typeof node.value === 'number' && !(Math.abs(node.value) <= LARGEST))
      throw refuse(
        node.offset,
        `${at} is ${plain.slice(node.offset, node.offset + Math.min(node.length, 24))}`,
        `give a number of at most ${LARGEST}`,
      );
    return node.value;
  };
  const value = read(root, '', 0);
  const tree = root;
  const placeOf = (at: readonly PropertyKey[]): string => {
    for (let depth = at.length; depth >= 0; depth--) {
      const node = findNodeAtLocation(
        tree,
        at.slice(0, depth).map((key) => (typeof key === 'number' ? key : String(key))),
      );
      // A property begins with its name.
      if (node)
        return `${path}: line ${lineAt((node.parent?.type === 'property' ? node.parent : node).offset)}`;
    }
    return path;
  };
  return { value, placeOf };
}
