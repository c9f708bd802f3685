/** The examples in the docstrings of the library: each is compiled and run as its users would, and says what comes out. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LieflatError } from '../../lib/index.js';
import { itInFull } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';

onACoarseMesh(2);

const ROOT = new URL('../..', import.meta.url).pathname;
/** As many functions as a newcomer can take in. */
const MOST_FUNCTIONS = 60;

const { exports } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  exports: Record<string, string | { default: string }>;
};
/** Where the source of an entry of the package is, as `lieflat/io`. */
const entryOf = (name: string): string => {
  const entry = exports[name.replace('lieflat', '.')];
  if (typeof entry !== 'object') throw new Error(`the package has no entry ${name}`);
  return join(ROOT, entry.default.replace('./.build/', '').replace(/\.js$/, '.ts'));
};

interface Example {
  file: string;
  /** What it stands above. */
  of: string;
  code: string;
}

/** The fenced code under every `@example` of a file. */
function examplesIn(path: string, text = readFileSync(path, 'utf8')): Example[] {
  return [...text.matchAll(/\/\*\*(?:(?!\*\/)[\s\S])*?\*\//g)].flatMap(({ 0: doc, index }) => {
    const plain = doc.replace(/^ *(?:\/\*\*| \*\/| \* ?)/gm, '');
    const of = /(?:function\*?|const|class|interface)\s+(\w+)|(\w+)\(/.exec(text.slice(index + doc.length));
    return [...plain.matchAll(/@example\s*```ts\n([\s\S]*?)```/g)].map(([, code]) => {
      return { file: relative(ROOT, path), of: of?.[1] ?? of?.[2] ?? '', code };
    });
  });
}

const sources = readdirSync(join(ROOT, 'lib'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => join(ROOT, 'lib', name));
const examples = sources.flatMap((path) => examplesIn(path));

const CLAIM = /^(.*?);? \/\/ (=>|≈|throws) (.*)$/;

/** The example as a module that checks what it claims: `x; // => y`, `x; // ≈ y`, `x; // throws 'code'`. */
function asModule(code: string): { text: string; claims: number } {
  let claims = 0;
  const lines = code.split('\n').map((line) => {
    const [, told, kind, claim] = CLAIM.exec(line) ?? [];
    if (told === undefined) return line.replace(/'(lieflat[/\w]*)'/g, (_, name) => `'${entryOf(name)}'`);
    claims++;
    return `await __holds('${kind}', async () => (${told}), ${claim});`;
  });
  return { text: `import { holds as __holds } from './holds.ts';\n${lines.join('\n')}`, claims };
}

/** What an example's claims are held to. */
async function holds(kind: string, work: () => Promise<unknown>, claim: unknown): Promise<void> {
  if (kind === 'throws') {
    const thrown: unknown = await work().then(
      () => null,
      (error) => error,
    );
    expect((thrown as Partial<LieflatError> | null)?.code).toBe(claim);
    return;
  }
  const value = await work();
  if (kind === '≈') expect(value).toBeCloseTo(claim as number, 6);
  else expect(isDeepStrictEqual(value, claim) ? claim : value).toEqual(claim);
}

describe('the examples of the library', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'examples-'));
    (globalThis as Record<string, unknown>).lieflatExampleHolds = holds;
    writeFileSync(
      join(folder, 'holds.ts'),
      `type Holds = (kind: string, work: () => Promise<unknown>, claim: unknown) => Promise<void>;
export const holds: Holds = (globalThis as unknown as { lieflatExampleHolds: Holds }).lieflatExampleHolds;
`,
    );
    writeFileSync(join(folder, 'package.json'), '{"type":"module"}');
  });
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
    delete (globalThis as Record<string, unknown>).lieflatExampleHolds;
  });
  const written = (example: Example, name: string): string => {
    const path = join(folder, `${name}.ts`);
    writeFileSync(path, asModule(example.code).text);
    return path;
  };
  const run = async (code: string, name: string): Promise<void> => {
    await import(pathToFileURL(written({ file: '', of: '', code }, name)).href);
  };

  it.each(examples.map((example, i) => ({ ...example, i })))('$file: $of', async ({ code, i }) => {
    expect(asModule(code).claims).toBeGreaterThan(0);
    await run(code, `example-${i}`);
  });

  itInFull('compile as they stand', () => {
    const files = examples.map((example, i) => written(example, `compiled-${i}`));
    const program = ts.createProgram(files, {
      strict: true,
      noEmit: true,
      target: ts.ScriptTarget.ES2022,
      lib: ['lib.es2023.d.ts'],
      module: ts.ModuleKind.NodeNext,
      allowImportingTsExtensions: true,
      types: ['node'],
      typeRoots: [join(ROOT, 'node_modules/@types')],
      skipLibCheck: true,
    });
    const faults = files.flatMap((file) =>
      ts
        .getPreEmitDiagnostics(program, program.getSourceFile(file))
        .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n')),
    );
    expect(faults).toEqual([]);
  });

  it('are found wanting where what they claim does not hold', async () => {
    const head = "import { inchToMm, readProfile } from 'lieflat';\n";
    await run(`${head}inchToMm(1); // => 25.4`, 'right');
    for (const wrong of [
      'inchToMm(1); // => 25',
      'inchToMm(1); // ≈ 25.5',
      "inchToMm(1); // throws 'bad-argument'",
      "await readProfile('{', 'x'); // throws 'unknown-id'",
    ])
      await expect(run(head + wrong, `wrong-${wrong.length}`), wrong).rejects.toThrow();
    expect(asModule('inchToMm(1);').claims).toBe(0);
  });
});

describe('the main entry', () => {
  it('has few enough functions, and an example of each', () => {
    const program = ts.createProgram([entryOf('lieflat')], {
      module: ts.ModuleKind.NodeNext,
      noLib: true,
      types: [],
    });
    const checker = program.getTypeChecker();
    const module = checker.getSymbolAtLocation(program.getSourceFile(entryOf('lieflat'))!)!;
    const functions = checker
      .getExportsOfModule(module)
      .map((symbol) => (symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol))
      .filter(({ flags, valueDeclaration }) => {
        if (flags & (ts.SymbolFlags.Function | ts.SymbolFlags.Class)) return true;
        const made = valueDeclaration && 'initializer' in valueDeclaration && valueDeclaration.initializer;
        return Boolean(made) && ts.isArrowFunction(made as ts.Node);
      })
      .map(({ name }) => name);
    expect(functions).toContain('shopOf');
    expect(functions.length).toBeLessThanOrEqual(MOST_FUNCTIONS);
    const shown = new Set(examples.map(({ of }) => of));
    expect(functions.filter((name) => !shown.has(name))).toEqual([]);
  });
});
