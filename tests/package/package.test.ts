import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { build, type Metafile } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { decodeDesign } from '../../lib/format/decode.js';
import { drawDesign } from '../../lib/report/draw.js';
import { toJson } from '../../lib/report/to-json.js';
import { shopOf } from '../../lib/shop.js';
import { inChromium } from '../browser/chromium.js';
import { itInFull } from '../in-full.js';
import { codeIn, deadLinks, PAPERS, paperAt, picturesIn } from '../papers.js';
import { installed, ROOT } from './installed.js';
import { unexportedTypes } from './unexported-types.js';

const { packed, at, node, program } = installed();
const open = inChromium();
const CREST = readFileSync(join(ROOT, 'samples/name-drop.dst'));
writeFileSync(at('crest.dst'), CREST);

/** Papers, and the pictures that they show. */
const SHIPPED = PAPERS.flatMap((paper) => [paper.path, ...picturesIn(paper)]);

/** What the compiler, at its strictest, says of files in the project and all that they import. */
function compiled(...files: string[]): string {
  const compilerOptions = {
    strict: true,
    noEmit: true,
    target: 'ES2022',
    lib: ['ES2022', 'DOM'],
    module: 'NodeNext',
    types: [],
    skipLibCheck: false,
  };
  writeFileSync(at('tsconfig.json'), JSON.stringify({ compilerOptions, files }));
  return node(createRequire(import.meta.url).resolve('typescript/bin/tsc'), '-p', '.');
}

describe('the tarball', () => {
  it('holds the library, the program and what they need, and nothing else', () => {
    const others = packed.files.filter(
      (path) => !/^\.build\/lib\/([\w/-]+\.(js|d\.ts)|[\w-]+\.schema\.json)$/.test(path),
    );
    expect(others.sort()).toEqual(
      [
        '.build/cli/main.js',
        '.build/cli/package.json',
        '.build/cli/page.html',
        '.build/cli/program.js',
        '.build/cli/rest.js',
        '.build/cli/worker.js',
        'package.json',
        ...SHIPPED,
      ].sort(),
    );
    expect(packed.files.some((path) => /test|\.dst$/.test(path))).toBe(false);
    // Every module of the library, with its types.
    expect(packed.files.filter((path) => path.endsWith('.d.ts')).length).toBeGreaterThan(150);
  });

  it('leads from its papers to nothing that it does not hold', () => {
    for (const paper of PAPERS) expect(deadLinks(paper, (path) => packed.files.includes(path))).toEqual([]);
  });

  it('holds nothing that was compiled on one machine for another', () => {
    const home = at('node_modules/lieflat');
    const noText = packed.files.filter((path) => readFileSync(join(home, path)).includes(0));
    expect(noText).toEqual([]);
  });

  it('is small', () => {
    expect(packed.size).toBeLessThan(2.2e6);
    // With the order, the reply and the proof, a JSON Schema of each report, and the page, which holds the program once more.
    expect(packed.unpackedSize).toBeLessThan(8e6);
  });
});

describe('the page', () => {
  it('can be mailed', () => {
    expect(statSync(join(at('node_modules/lieflat'), '.build/cli/page.html')).size).toBeLessThan(3e6);
  });
});

describe('in an empty project', () => {
  it('runs as a command', () => {
    expect(node(program, 'vet', 'crest.dst', '--fail-on', 'never')).toContain('Objects to look at first');
    expect(node(program, 'draw', 'crest.dst', '-o', 'crest.png')).toBe('');
    expect(node(program, 'page', '-o', 'lieflat.html')).toBe('');
  });

  it('is used by JavaScript, as a module and by require', () => {
    writeFileSync(
      at('use.mjs'),
      `import { factsOf, readDesignFile, shopOf } from 'lieflat';
const file = await readDesignFile('crest.dst');
const { report } = shopOf().vet(file.design, { file: factsOf(file) });
console.log(report.schema, report.objects.length);`,
    );
    expect(node('use.mjs')).toMatch(/^lieflat\/vet@1 \d+\n$/);
    writeFileSync(at('use.cjs'), "import('lieflat').then(({ LIMITS }) => console.log(typeof LIMITS));");
    expect(node('use.cjs')).toBe('object\n');
  });

  itInFull(
    'is used by TypeScript, with nothing left untyped; the code of the papers compiles and runs',
    () => {
      writeFileSync(
        at('use.ts'),
        `import { type Design, factsOf, LieflatError, readDesignFile, shopOf, type VetReport } from 'lieflat';
import { fullShop } from 'lieflat/pipeline';
const file = await readDesignFile('crest.dst');
const design: Design = file.design;
const shop = fullShop(shopOf());
const vetting = shop.vet(design, { file: factsOf(file) });
const report: VetReport = vetting.report;
const width: number | undefined = report.objects[0].widthMm?.p95;
const [risk] = shop.risks(vetting, [shop.conditions({ fabric: 'denim' })]);
const score: number = risk.score;
// @ts-expect-error a score is no text
const text: string = risk.score;
export { LieflatError, score, text, width };
`,
      );
      const [first, browser] = ['README.md', 'lib/README.md'].map((path) => codeIn(paperAt(path), 'ts'));
      expect([first.length, browser.length]).toEqual([1, 1]);
      expect(PAPERS.flatMap((paper) => codeIn(paper, 'ts')).length).toBe(2);
      writeFileSync(at('first.ts'), first[0]);
      writeFileSync(at('browser.ts'), browser[0]);
      mkdirSync(at('samples'), { recursive: true });
      writeFileSync(at('samples/name-drop.dst'), CREST);
      writeFileSync(
        at('all.ts'),
        `import './first.js';
import { pictureOf } from './browser.js';
console.log(await pictureOf('x.dst', new Uint8Array(9)));`,
      );
      expect(compiled('use.ts', 'all.ts')).toBe('');
      const said = node('--import', import.meta.resolve('tsx'), 'all.ts');
      expect(said).toMatch(/^(note|warn|fail) [a-z-]+ .+$/m);
      expect(said).toMatch(/^grade [\d.]+, wrinkles about [\d.]+ mm high$/m);
      expect(said).toMatch(/^byte 0: .*; .*$/m);
    },
  );
});

describe('what the library exports', () => {
  it('speaks of no type that it does not export as well', () => {
    const home = at('node_modules/lieflat');
    const { exports } = JSON.parse(readFileSync(join(home, 'package.json'), 'utf8')) as {
      exports: Record<string, string | { types: string }>;
    };
    const entries = Object.values(exports).flatMap((entry) =>
      typeof entry === 'string' ? [] : [join(home, entry.types)],
    );
    expect(entries.length).toBeGreaterThan(5);
    expect(unexportedTypes(...entries)).toEqual([]);
  });

  it('is found wanting where it does', () => {
    writeFileSync(
      at('inner.d.ts'),
      'export interface Hidden { x: number }\nexport interface Seen { y: number }',
    );
    writeFileSync(
      at('outer.d.ts'),
      `import type { Hidden, Seen } from './inner.js';
export type { Seen } from './inner.js';
export declare function a<T>(seen: Seen, other: Promise<T>): Map<string, Hidden>;
export interface B extends Hidden { fine: Seen }`,
    );
    expect(unexportedTypes(at('outer.d.ts'))).toEqual(['a: Hidden', 'B: Hidden']);
  });
});

describe('in a browser', () => {
  const bundled = async (source: string): Promise<{ script: string; metafile: Metafile }> => {
    const { outputFiles, metafile } = await build({
      stdin: { contents: source, resolveDir: at('.'), loader: 'js' },
      bundle: true,
      write: false,
      platform: 'browser',
      format: 'iife',
      metafile: true,
      logLevel: 'silent',
    });
    return { script: outputFiles[0].text, metafile };
  };

  itInFull('decodes, vets, foresees, draws and writes as in Node, without any module of Node', async () => {
    const { script, metafile } = await bundled(`
import { decodeDesign, encodeDesign, readDesignFile, shopOf, toJson } from 'lieflat';
import { fullShop } from 'lieflat/pipeline';
import { drawDesign, puckerReport, wrinkleMap } from 'lieflat/report';
globalThis.lieflatResult = (async () => {
  const bytes = Uint8Array.from(atob('${CREST.toString('base64')}'), (c) => c.charCodeAt(0));
  const design = await decodeDesign(bytes, 'dst');
  const file = { path: 'crest.dst', format: 'dst', bytes: bytes.length, sha256: '' };
  const { vet, conditions: conditionsOf, risks, catalogue, parameters } = fullShop(shopOf());
  const vetting = vet(design, { file });
  const svg = await drawDesign(vetting, { by: 'density', title: 'crest', units: 'mm' });
  const conditions = conditionsOf({ fabric: 'denim' });
  const [risk] = risks(vetting, [conditions]);
  const report = puckerReport({ file, measures: vetting.measures, risk, conditions, catalogue, parameters });
  const { stitches, designMeasures } = vetting;
  const map = await wrinkleMap({ stitches, bounds: designMeasures.bounds, maps: risk.maps, report }, { title: 'crest', units: 'mm' });
  const table = encodeDesign(design, 'csv');
  const quoted = await decodeDesign(new TextEncoder().encode('x_mm,y_mm,kind\\n"1","2","stitch"\\n'), 'csv');
  const refused = await readDesignFile('crest.dst').catch((error) => error.code + ': ' + error.what);
  return { json: toJson(vetting.report), svg, score: risk.score, map: map.slice(0, 4), table: table.length, quoted: [...quoted.x], refused };
})();`);
    const fromNode = Object.keys(metafile.inputs).filter((path) => /node:|resvg|tinyglobby/.test(path));
    expect(fromNode).toEqual([]);
    expect(script).not.toMatch(/require\("(node:)?(fs|path|crypto|buffer|stream)/);
    const { page, errors, requests } = await open(
      `<!doctype html><meta charset="utf-8"><title>bundle</title><script>${script.replaceAll('</script', '<\\/script')}</script>`,
    );
    const result = await page.evaluate(
      () => (globalThis as unknown as { lieflatResult: Promise<Record<string, unknown>> }).lieflatResult,
    );
    const design = await decodeDesign(CREST, 'dst');
    const vetting = shopOf().vet(design, {
      file: { path: 'crest.dst', format: 'dst', bytes: CREST.length, sha256: '' },
    });
    expect(result.json).toBe(toJson(vetting.report));
    expect(result.svg).toBe(await drawDesign(vetting, { by: 'density', title: 'crest', units: 'mm' }));
    expect(result).toMatchObject({ score: expect.any(Number), map: '<svg', quoted: [1] });
    expect(result.table).toBeGreaterThan(10_000);
    expect(result.refused).toBe('unreadable: a browser has no files');
    expect([errors, requests]).toEqual([[], []]);
  });

  it('takes in only what is asked for', async () => {
    const { metafile } = await bundled(
      "import { decodeDesign } from 'lieflat'; globalThis.decode = decodeDesign;",
    );
    const used = Object.values(metafile.outputs).flatMap(({ inputs }) =>
      Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 ? [path] : [])),
    );
    expect(used.filter((path) => /mechanics|advice|materials|zod|html/.test(path))).toEqual([]);
    expect(used.length).toBeLessThan(30);
  });
});
