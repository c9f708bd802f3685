/** The finder as it would be with one figure moved or one rule switched off: loaded anew each time from one bundle, in which alone figures can be moved. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin } from 'esbuild';
import ts from 'typescript';
import { bundled, loader } from '../bundled.js';
import type { Case } from '../generators/pen.js';
import { RULES, type Rule } from './rules.js';

export type Judge = (c: Case) => number;

/** One decision made otherwise. */
export type Change = { readonly figure: string; readonly value: number } | { readonly off: Rule };

const SEGMENT = fileURLToPath(new URL('../../lib/segment/', import.meta.url));

const keyOf = ({ file, name }: Rule): string => `${file}.${name}`;

/** Code of a step of the finder in which its rules ask first whether they are off. */
export function withSwitches(file: string, source: string): string {
  const tree = ts.createSourceFile(`${file}.ts`, source, ts.ScriptTarget.Latest, true);
  const wanted = new Map(RULES.filter((rule) => rule.file === file).map((rule) => [rule.name, rule]));
  const at: { place: number; text: string }[] = [];
  const visit = (node: ts.Node): void => {
    if ((ts.isFunctionDeclaration(node) || ts.isMethodDeclaration(node)) && node.body && node.name) {
      const rule = wanted.get(node.name.getText(tree));
      if (rule)
        at.push({
          place: node.body.getStart(tree) + 1,
          text: `if (lieflatOff === ${JSON.stringify(keyOf(rule))}) return ${rule.off} as never;`,
        });
    }
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return at
    .sort((a, b) => b.place - a.place)
    .reduce((code, { place, text }) => code.slice(0, place) + text + code.slice(place), source);
}

/** Puts in the switches, and moves figures when the table is loaded. */
const seam: Plugin = {
  name: 'one decision otherwise',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]lib[\\/]segment[\\/][a-z-]+\.ts$/ }, ({ path }) => {
      const file = basename(path, '.ts');
      const source = readFileSync(path, 'utf8');
      const moved =
        '\nfor (const key in lieflatMoved) FINDER[key] = { ...FINDER[key], value: lieflatMoved[key] };\n';
      return { loader: 'ts', contents: file === 'parameters' ? source + moved : withSwitches(file, source) };
    });
  },
};

export class Variants {
  private constructor(
    private readonly loaded: (moved: object, off: string) => { readonly faultsOf: Judge },
  ) {}

  static async load(): Promise<Variants> {
    const { outputFiles } = await build(bundled(new URL('./judge.ts', import.meta.url), seam));
    return new Variants(loader(outputFiles[0].text, ['lieflatMoved', 'lieflatOff']));
  }

  /** The judge of a finder as it is, or with one decision otherwise. */
  judge(change?: Change): Judge {
    const moved = change && 'figure' in change ? { [change.figure]: change.value } : {};
    const off = change && 'off' in change ? keyOf(change.off) : '';
    return this.loaded(moved, off).faultsOf;
  }
}

/** The file of each step of the finder, by its name. */
export const stepSource = (file: string): string => readFileSync(`${SEGMENT}${file}.ts`, 'utf8');
