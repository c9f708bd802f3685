import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = new URL('..', import.meta.url).pathname;
/** So many lines that say something, one after the other in two places, are a thing written twice. */
const MOST_ALIKE = 5;

interface Line {
  readonly text: string;
  readonly number: number;
}

/** An import, or an export of what another file has, over one line or several. */
const IMPORTED = /^(?:import|export)\b[^;{]*(?:\{[^}]*\})?[^;{}]*\bfrom '[^']*';$/gm;

/** Lines that say something: no imports, comments and closing brackets. */
function linesOf(source: string): Line[] {
  return source
    .replace(IMPORTED, (text) => text.replace(/[^\n]/g, ''))
    .split('\n')
    .map((text, i) => ({ text: text.trim(), number: i + 1 }))
    .filter(({ text }) => /\w/.test(text) && !/^(?:\/\/|\/?\*)/.test(text));
}

/** Where lines begin that stand elsewhere too, in the same order, and where that is; a longer run is told once. */
function repeated(files: ReadonlyMap<string, string>): string[] {
  const seen = new Map<string, string>();
  const found: string[] = [];
  for (const [name, source] of files) {
    const lines = linesOf(source);
    let last = -2;
    for (let i = 0; i + MOST_ALIKE < lines.length; i++) {
      const run = lines.slice(i, i + MOST_ALIKE + 1);
      const key = run.map(({ text }) => text).join('\n');
      const here = `${name}:${run[0].number}`;
      const before = seen.get(key);
      if (before === undefined) {
        seen.set(key, here);
        continue;
      }
      if (i > last + 1) found.push(`${here} is ${before}`);
      last = i;
    }
  }
  return found;
}

const sources = new Map(
  ['lib', 'cli'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .sort()
      .map((name) => [join(folder, name), readFileSync(join(ROOT, folder, name), 'utf8')] as const),
  ),
);

describe('the same lines', () => {
  it('stand nowhere twice in the library and the command line', () => {
    expect(sources.size).toBeGreaterThan(500);
    expect(repeated(sources)).toEqual([]);
  });

  it('are found where they do, across files and within one, whatever is between them and however they are set in', () => {
    const walk = (n: number) => Array.from({ length: n }, (_, i) => `step(${i});`).join('\n}\n\n// then\n  ');
    const two = new Map([
      ['a.ts', `import { step } from './step.js';\n${walk(6)}`],
      ['b.ts', `import {\n  step,\n} from './step.js';\nbegin();\n${walk(8)}`],
    ]);
    expect(repeated(two)).toEqual(['b.ts:5 is a.ts:2']);
    expect(repeated(new Map([['a.ts', `${walk(6)}\nagain();\n${walk(6)}`]]))).toHaveLength(1);
    expect(repeated(new Map([['a.ts', `${walk(5)}\nagain();\n${walk(5)}`]]))).toEqual([]);
  });

  it('are no imports', () => {
    const imports = Array.from({ length: 9 }, (_, i) => `import { a${i}, type B } from './${i}.js';`).join(
      '\n',
    );
    expect(
      linesOf(`${imports}\nimport type x from 'y';\nexport * from './z.js';\nexport const a = 1;`),
    ).toEqual([{ text: 'export const a = 1;', number: 12 }]);
  });
});
