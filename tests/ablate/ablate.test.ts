import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { beforeAll, describe, expect, it } from 'vitest';
import { FINDER } from '../../lib/segment/parameters.js';
import type { Case } from '../generators/pen.js';
import { PRODUCTION } from '../generators/production/index.js';
import { faultsOf } from './judge.js';
import { NO_RULES, RULES } from './rules.js';
import { type Change, stepSource, Variants, withSwitches } from './variants.js';

const STEPS = readdirSync(fileURLToPath(new URL('../../lib/segment/', import.meta.url)))
  .filter((name) => name.endsWith('.ts'))
  .map((name) => name.slice(0, -'.ts'.length));

/** Functions of a step that answer yes or no. */
function judgments(file: string): string[] {
  const tree = ts.createSourceFile(`${file}.ts`, stepSource(file), ts.ScriptTarget.Latest, true);
  const names: string[] = [];
  const visit = (node: ts.Node): void => {
    if (
      (ts.isFunctionDeclaration(node) || ts.isMethodDeclaration(node)) &&
      node.type?.kind === ts.SyntaxKind.BooleanKeyword
    )
      names.push(`${file}.${node.name?.getText(tree)}`);
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return names;
}

describe('the rules', () => {
  it.each(RULES)('$file.$name stands in its step, and can be switched off there', ({ file, name }) => {
    const code = withSwitches(file, stepSource(file));
    expect(code.split(`lieflatOff === "${file}.${name}"`)).toHaveLength(2);
  });

  it('are all that answers yes or no in the finder, but for what is told to be none', () => {
    const known = new Set([...RULES.map(({ file, name }) => `${file}.${name}`), ...NO_RULES]);
    const all = STEPS.flatMap(judgments);
    expect(all.filter((name) => !known.has(name))).toEqual([]);
    expect(NO_RULES.filter((name) => !all.includes(name))).toEqual([]);
  });

  it('leave the rest of a step as it is', () => {
    for (const file of STEPS) {
      const switched = withSwitches(file, stepSource(file));
      expect(switched.replace(/if \(lieflatOff === "[^"]*"\) return .*? as never;/g, '')).toBe(
        stepSource(file),
      );
    }
  });
});

describe('a finder with one decision otherwise', () => {
  let variants: Variants;
  const judge = (c: Case, change?: Change) => variants.judge(change)(c);
  const ruleOf = (name: string) => RULES.find((rule) => `${rule.file}.${rule.name}` === name)!;
  beforeAll(async () => {
    variants = await Variants.load();
  });

  it('is the finder as it is where nothing is', () => {
    for (const name of ['edge-blanket', 'satin-teardrop', 'letters-tiny', 'fill-sections-cut'])
      expect(judge(PRODUCTION[name](0))).toBe(faultsOf(PRODUCTION[name](0)));
  });

  it.each([
    ['purposes.isBlanket', 'edge-blanket'],
    ['legs.getsOn', 'word-over-foam'],
    ['passes.isSamePass', 'satin-two-half-passes'],
  ])('has faults without a rule that wins a family: %s, %s', (rule, family) => {
    const c = PRODUCTION[family](0);
    expect(judge(c, { off: ruleOf(rule) })).toBeGreaterThan(judge(c));
  });

  it.each([
    ['prongs', 0.5, 'edge-blanket'],
    ['passGap', 0, 'satin-two-half-passes'],
  ])('has faults where a figure stands elsewhere: %s = %s, %s', (figure, value, family) => {
    const c = PRODUCTION[family](0);
    expect(judge(c, { figure, value })).toBeGreaterThan(judge(c));
    // the table itself stays as it is
    expect(FINDER[figure as keyof typeof FINDER].value).not.toBe(value);
  });
});
