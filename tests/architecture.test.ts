import { execFile } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { memoize } from '../lib/core/memoize.js';
import { itInFull } from './in-full.js';

const ROOT = new URL('..', import.meta.url).pathname;

/** The modules that the package lets its users import, as `lib/index.js`. */
const PUBLIC = Object.values(
  (JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { exports: Record<string, unknown> })
    .exports,
).flatMap((entry) =>
  typeof entry === 'object' && entry !== null && 'default' in entry
    ? [String(entry.default).replace('./.build/', '')]
    : [],
);

interface Violation {
  rule: string;
  from: string;
  to: string;
}

/** What dependency-cruiser finds against the project's own rules in the `lib` and `cli` of a folder. */
function brokenRules(folder: string): Promise<Violation[]> {
  const args = [
    join(ROOT, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs'),
    ...['--config', '.config/dependency-cruiser.cjs', '--output-type', 'json', 'lib', 'cli'],
  ];
  return new Promise((resolve, reject) => {
    execFile(process.execPath, args, { cwd: folder, maxBuffer: 1 << 28 }, (error, stdout, stderr) => {
      try {
        const { summary } = JSON.parse(stdout) as {
          summary: {
            violations: { rule: { name: string }; from: string; to: string }[];
            totalCruised: number;
          };
        };
        if (summary.totalCruised === 0) throw new Error('nothing was looked at');
        resolve(summary.violations.map(({ rule, from, to }) => ({ rule: rule.name, from, to })));
      } catch (unreadable) {
        reject(new Error(`${unreadable}: ${stderr}`, { cause: error }));
      }
    });
  });
}

function sourcesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name));
}

/** Each source is read by several rules, and parsed once. */
const parsed = memoize((source: string): ts.SourceFile => {
  const [path, text] = JSON.parse(source) as [string, string];
  return ts.createSourceFile(path, text, ts.ScriptTarget.ES2022, true);
});
const treeOf = (path: string, text: string): ts.SourceFile => parsed(JSON.stringify([path, text]));

/**
 * Uses of the terminal, the process, the clock and unseeded randomness, found in the syntax tree, so that a word in
 * a comment or a text is none.
 */
function worldlyUses(path: string, text: string): string[] {
  const uses: string[] = [];
  const file = treeOf(path, text);
  const GLOBALS = new Set([
    'console',
    'process',
    'performance',
    'setTimeout',
    'setInterval',
    'crypto',
    'require',
  ]);
  const MEMBERS = new Set(['Date.now', 'Math.random', 'globalThis.process', 'globalThis.console']);
  const visit = (node: ts.Node): void => {
    if (
      ts.isPropertyAccessExpression(node) &&
      MEMBERS.has(`${node.expression.getText()}.${node.name.text}`)
    ) {
      uses.push(node.getText());
    }
    if (ts.isNewExpression(node) && node.expression.getText() === 'Date' && !node.arguments?.length) {
      uses.push('new Date()');
    }
    if (ts.isIdentifier(node) && GLOBALS.has(node.text) && isFreeName(node)) uses.push(node.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return uses;
}

/** Names of systems, of their signals, and of what tells them apart, in the syntax tree: comments are none. */
function systemWords(path: string, text: string, words: readonly string[]): string[] {
  const file = treeOf(path, text);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if ((ts.isIdentifier(node) || ts.isStringLiteral(node)) && words.includes(node.text))
      found.push(node.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** Not the name of a member, a key, a parameter or a declaration. */
function isFreeName(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isQualifiedName(parent)) return false;
  return !('name' in parent && parent.name === node) || ts.isShorthandPropertyAssignment(parent);
}

/** Modules that a file imports, statically or not, by the names it gives them. */
function importsOf(path: string): string[] {
  return ts.preProcessFile(readFileSync(path, 'utf8'), true, true).importedFiles.map((f) => f.fileName);
}

describe('the way that data flows', () => {
  // `npm run structure` is a step of its own in .ci/run.
  itInFull('is one way, without circles, with files only at the edge', async () => {
    expect(await brokenRules(ROOT)).toEqual([]);
  });

  it('keeps the terminal, the process, the clock and chance out of the library', () => {
    const found = sourcesIn(join(ROOT, 'lib')).flatMap((path) =>
      worldlyUses(path, readFileSync(path, 'utf8')).map((use) => `${relative(ROOT, path)}: ${use}`),
    );
    expect(found).toEqual([]);
  });

  it('lets nothing but lib/io touch what Node brings', () => {
    const found = sourcesIn(join(ROOT, 'lib'))
      .filter((path) => !relative(ROOT, path).startsWith(join('lib', 'io')))
      .flatMap((path) =>
        importsOf(path)
          .filter((name) => name.startsWith('node:'))
          .map((name) => `${relative(ROOT, path)}: ${name}`),
      );
    expect(found).toEqual([]);
  });

  it('touches files and asks for the system in one place each', () => {
    const SEAMS: Readonly<Record<string, readonly string[]>> = {
      'lib/io/drive.ts': ['node:fs'],
      'lib/io/system.ts': ['node:os', 'node:process', 'node:path'],
    };
    const SEALED = /^(node:)?(fs|fs\/promises|process)$/;
    const WORDS = ['platform', 'SIGINT', 'SIGTERM', 'SIGBREAK', 'win32', 'darwin'];
    const found = ['lib', 'cli'].flatMap((top) =>
      sourcesIn(join(ROOT, top)).flatMap((path) => {
        const name = relative(ROOT, path);
        const text = readFileSync(path, 'utf8');
        const imports = importsOf(path).filter((module) => !SEAMS[name]?.includes(module));
        return [
          ...imports.filter((module) => SEALED.test(module)),
          // In the library even paths and the computer are asked for at the seam alone.
          ...imports.filter((module) => top === 'lib' && /^(node:)?(path|os)$/.test(module)),
          // What stands in for Node in the page has the names of what it stands for.
          ...(name === 'lib/io/system.ts' || name.startsWith('cli/page/stand-ins/')
            ? []
            : systemWords(path, text, WORDS)),
        ].map((use) => `${name}: ${use}`);
      }),
    );
    expect(found).toEqual([]);
  });

  it('lets the command line in by the front door alone', () => {
    const found = sourcesIn(join(ROOT, 'cli')).flatMap((path) =>
      importsOf(path)
        .filter((name) => name.startsWith('.'))
        .map((name) => relative(ROOT, join(dirname(path), name)))
        .filter((target) => target.startsWith('lib'))
        .filter((target) => !PUBLIC.includes(target.replaceAll('\\', '/'))),
    );
    expect(PUBLIC).toContain('lib/index.js');
    expect(found).toEqual([]);
  });

  it('does nothing when it is imported as a library', async () => {
    const before = Object.keys(globalThis);
    const library: Record<string, unknown> = await import('../lib/index.js');
    expect(Object.keys(globalThis)).toEqual(before);
    for (const name of ['readDesignFile', 'shopOf', 'toText', 'encodeDesign']) {
      expect(typeof library[name]).toBe('function');
    }
  });

  it('loads the costly libraries only where they are used', async () => {
    const costly = [
      'zod',
      'csv-parse',
      'jsonc-parser',
      'ml-matrix',
      '@resvg/resvg-js',
      'd3-contour',
      'tinyglobby',
      'picocolors',
    ];
    const found = [...sourcesIn(join(ROOT, 'lib')), ...sourcesIn(join(ROOT, 'cli'))].flatMap((path) => {
      const file = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.ES2022, true);
      return file.statements
        .filter(ts.isImportDeclaration)
        .filter((statement) => !statement.importClause?.isTypeOnly)
        .map((statement) => (statement.moduleSpecifier as ts.StringLiteral).text)
        .filter((name) => costly.some((lib) => name === lib || name.startsWith(`${lib}/`)))
        .map((name) => `${relative(ROOT, path)}: ${name}`);
    });
    expect(found).toEqual([]);
  });
});

/** Types, interfaces and classes that files declare, exported or not, by their names. */
function declaredTypes(files: Readonly<Record<string, string>>): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const [path, text] of Object.entries(files)) {
    const visit = (node: ts.Node): void => {
      if (
        (ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node) || ts.isClassDeclaration(node)) &&
        node.name
      )
        found.set(node.name.text, [...(found.get(node.name.text) ?? []), path]);
      ts.forEachChild(node, visit);
    };
    visit(treeOf(path, text));
  }
  return found;
}

/** Names that mean several things. */
const ambiguous = (files: Readonly<Record<string, string>>): string[] =>
  [...declaredTypes(files)]
    .filter(([, places]) => places.length > 1)
    .map(([name, places]) => `${name}: ${places.join(', ')}`);

describe('the name of a type', () => {
  it('means one thing in the library and the command line', () => {
    const files = ['lib', 'cli']
      .flatMap((top) => sourcesIn(join(ROOT, top)))
      .map((path) => [relative(ROOT, path), readFileSync(path, 'utf8')] as const);
    expect(files.length).toBeGreaterThan(200);
    expect(ambiguous(Object.fromEntries(files))).toEqual([]);
  });

  it('is found where it means several', () => {
    const files = {
      'a.ts': 'export interface Place { x: number }\nconst f = () => { type Here = Place; };',
      'b.ts': 'class Here {}',
      'c.ts': "import type { Place } from './a.js'; export type There = Place;",
    };
    expect(ambiguous(files)).toEqual(['Here: a.ts, b.ts']);
  });
});

describe('what is sewn on', () => {
  it('is a setup, its conditions, a plan or a fabric, and has no fourth name', () => {
    const named = ['lib', 'cli']
      .flatMap((top) => sourcesIn(join(ROOT, top)))
      .filter((path) => /goods/i.test(relative(ROOT, path) + readFileSync(path, 'utf8')));
    expect(named.map((path) => relative(ROOT, path))).toEqual([]);
  });
});

describe('the paper of each station', () => {
  const stations = readdirSync(join(ROOT, 'lib'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name);

  it.each(stations)('%s says what comes in and goes out, and names files that there are', (station) => {
    const folder = join(ROOT, 'lib', station);
    const text = readFileSync(join(folder, 'README.md'), 'utf8');
    expect(text.split('\n').length).toBeGreaterThan(20);
    const there = sourcesIn(folder);
    const named = [...text.matchAll(/`((?:[\w-]+\/)*[\w-]+\.ts)`/g)].map(([, name]) => name);
    expect(named.length).toBeGreaterThan(4);
    const isThere = (name: string) =>
      there.some((path) => path.endsWith(`/${name}`)) || existsSync(join(ROOT, name));
    expect(named.filter((name) => !isThere(name))).toEqual([]);
  });
});

describe('the check itself', () => {
  let folder = '';

  /** A small house built to the same plan, in which every rule can be broken. */
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'house-'));
    for (const part of ['.config/dependency-cruiser.cjs', 'tsconfig.json', 'package.json']) {
      cpSync(join(ROOT, part), join(folder, part));
    }
    symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const house = async (files: Record<string, string>): Promise<Violation[]> => {
    for (const part of ['lib', 'cli']) rmSync(join(folder, part), { recursive: true, force: true });
    const sound = {
      'lib/core/units.ts': 'export const one = 1;',
      'lib/format/design.ts': "import { one } from '../core/units.js'; export const two = one + 1;",
      'lib/index.ts': "export { two } from './format/design.js';",
      'cli/run.ts': "import { two } from '../lib/index.js'; export const three = two + 1;",
    };
    for (const [path, text] of Object.entries({ ...sound, ...files })) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    return brokenRules(folder);
  };

  itInFull('passes a sound house', async () => {
    expect(await house({})).toEqual([]);
  });

  itInFull('finds every rule broken, where it is broken', async () => {
    const found = await house({
      'lib/core/bad.ts': "export { two } from '../format/design.js';",
      'lib/segment/find.ts': 'export const four = 4;',
      'lib/format/bad.ts': "import type { four } from '../segment/find.js'; export type Four = typeof four;",
      'lib/format/a.ts': "import { b } from './b.js'; export const a = (): number => b();",
      'lib/format/b.ts': "import { a } from './a.js'; export const b = (): number => a();",
      'lib/format/map.ts': "import type { four } from '../pipeline.js'; export type Map = typeof four;",
      'lib/pipeline.ts': "export { four } from './segment/find.js';",
      'lib/profile/shop.ts': 'export const eight = 8;',
      'lib/calibrate/bad.ts': "export { eight } from '../profile/shop.js';",
      'lib/report/files.ts': "import { readFileSync } from 'node:fs'; export { readFileSync };",
      'lib/report/printing.ts': "export { three } from '../../cli/run.js';",
      'cli/bad.ts': "export { two } from '../lib/format/design.js';",
    });
    expect(new Set(found.map(({ rule, from }) => `${from}: ${rule}`))).toEqual(
      new Set([
        'lib/core/bad.ts: core-knows-no-later-station',
        'lib/format/bad.ts: format-knows-no-later-station',
        'lib/format/a.ts: no-circles',
        'lib/format/map.ts: stations-know-no-map',
        'lib/calibrate/bad.ts: calibrate-knows-no-later-station',
        'lib/report/files.ts: files-only-at-the-edge',
        'lib/report/printing.ts: lib-knows-no-command-line',
        'cli/bad.ts: cli-enters-by-the-front-door',
      ]),
    );
  });

  it.each([
    ['console.log(1);', ['console']],
    ['const { env } = process;', ['process']],
    ['const seed = Math.random();', ['Math.random']],
    ['const now = Date.now() + new Date().getTime();', ['Date.now', 'new Date()']],
    ['const later = { process };', ['process']],
    ['globalThis.process.exit();', ['globalThis.process']],
  ])('finds the world in %s', (text, uses) => {
    expect(worldlyUses('bad.ts', text)).toEqual(uses);
  });

  it.each([
    '// console.log, Math.random and Date.now are not used\nexport const x = "process";',
    'export const step = { process: 1, console: 2 }; step.process;',
    'export const day = new Date(0);',
  ])('finds none in %s', (text) => {
    expect(worldlyUses('good.ts', text)).toEqual([]);
  });
});
