import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { AREAS } from '../../lib/segment/parameters/areas.js';
import { COVER } from '../../lib/segment/parameters/cover.js';
import { LEGS } from '../../lib/segment/parameters/legs.js';
import { MEANING } from '../../lib/segment/parameters/meaning.js';
import { PATCHES } from '../../lib/segment/parameters/patches.js';
import { THREADS } from '../../lib/segment/parameters/threads.js';
import { TOPS } from '../../lib/segment/parameters/tops.js';
import { UNDERLAY } from '../../lib/segment/parameters/underlay.js';
import { FINDER } from '../../lib/segment/parameters.js';

const HOME = fileURLToPath(new URL('../../lib/segment/', import.meta.url));
const sources = readdirSync(HOME)
  .filter((name) => name.endsWith('.ts'))
  .map((name) => [name, readFileSync(HOME + name, 'utf8')] as const);

/** Arithmetic rather than decisions, by the expression in which the number stands. */
const ARITHMETIC: Readonly<Record<string, readonly RegExp[]>> = {
  // places in a list, counted from another
  'legs.ts': [/^n (>=|-) [34]$/, /^3 \* step$/],
  'cuts.ts': [/^k [-+] 3$/, /^(k - start|n - 1 - k) >= 3$/, /\/ 4$/],
  'purposes.ts': [/^i \+ 3$/],
  // a free cell on both sides, and one begun
  'region.ts': [/ \+ 3$/],
};

/** Numbers that somebody chose, where they stand in a step of the finder instead of the table. */
function bareFigures(name: string, source: string): string[] {
  const file = ts.createSourceFile(name, source, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node)) return;
    if (ts.isNumericLiteral(node)) {
      const value = Number(node.text);
      // halves and doubles; a guard against division by nothing; keys of cells
      const plain =
        [0, 0.5, 1, 2].includes(value) || value < 1e-3 || node.getText(file).toLowerCase().startsWith('0x');
      const around = node.parent.getText(file);
      if (!plain && !(ARITHMETIC[name] ?? []).some((is) => is.test(around))) {
        const { line } = file.getLineAndCharacterOfPosition(node.getStart(file));
        found.push(`${name}:${line + 1} ${around}`);
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

describe('the table of figures', () => {
  it('is the one place where figures stand', () => {
    expect(sources.flatMap(([name, source]) => bareFigures(name, source))).toEqual([]);
  });

  it.each([
    ['patches.ts', 'if (pitch > 0.31) return;'],
    ['cuts.ts', 'const MOST = 3;'],
    ['tips.ts', 'f(k + 3)'],
    ['region.ts', 'const near = 0.7 * x;'],
  ])('shows a figure that is put into %s: %s', (name, source) => {
    expect(bareFigures(name, source)).toHaveLength(1);
  });

  it('is used in all its figures', () => {
    const code = sources.map(([, source]) => source).join('\n');
    const unused = Object.keys(FINDER).filter((key) => !new RegExp(`\\b${key}\\b`).test(code));
    expect(unused).toEqual([]);
  });

  it('names no figure twice', () => {
    const parts = [THREADS, LEGS, PATCHES, TOPS, AREAS, COVER, UNDERLAY, MEANING];
    expect(parts.reduce((n, part) => n + Object.keys(part).length, 0)).toBe(Object.keys(FINDER).length);
  });

  it.each(Object.entries(FINDER))('%s lies within its range, and says what it rests on', (_, figure) => {
    const { value, low, high, unit, basis } = figure;
    expect(low).toBeLessThanOrEqual(value);
    expect(value).toBeLessThanOrEqual(high);
    expect([unit, basis].every((text) => text.trim() === text && text.length > 0)).toBe(true);
    // only what the format sets has no range
    if (low === high) expect(basis).toContain('format');
  });
});
