/** The JSON Schemas that the package ships, held to what the commands print of the samples. */
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv, type ValidateFunction } from 'ajv';
import { afterAll, describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { encodeStitchTable } from '../../lib/format/stitch-table.js';
import { lieflat } from '../cli/at-a-terminal.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { installed, ROOT } from './installed.js';

onACoarseMesh();

const { at } = installed();
const SHOP = mkdtempSync(join(tmpdir(), 'schemas-'));
afterAll(() => rmSync(SHOP, { recursive: true, force: true }));
const inShop = (name: string): string => join(SHOP, name);

/** Two bold strokes over zigzag: all that the mechanics have to say of a design, worked out at once. */
const strokes = (apart: number) =>
  new Needle()
    .column(0, 0, { width: 5, height: 12, underlay: 'zigzag' })
    .column(apart, 0, { width: 5, height: 12, underlay: 'zigzag' })
    .end();
cpSync(join(ROOT, 'samples'), SHOP, { recursive: true, filter: (path) => !path.endsWith('.ts') });
writeFileSync(inShop('part.txt'), '{"stopped":{"done":0,"of":3}}\n');
writeFileSync(inShop('bold.dst'), encodeDst(strokes(9)));
writeFileSync(inShop('bolder.csv'), encodeStitchTable(strokes(8)));
const require = createRequire(at('index.js'));

const REPORTS = [
  'vet',
  'part',
  'summary',
  'columns',
  'pucker',
  'pucker-comparison',
  'advise',
  'relay',
  'resew',
  'reply',
  'compare',
  'order',
  'calibrate',
  'catalog',
  'profile-report',
];

function schemaOf(name: string): ValidateFunction {
  const text = readFileSync(require.resolve(`lieflat/${name}.schema.json`), 'utf8');
  return new Ajv({ allErrors: true, strict: true, allowUnionTypes: true }).compile(
    JSON.parse(text) as object,
  );
}

const schemas = new Map(REPORTS.map((name) => [name, schemaOf(name)]));

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** What is wrong with a report, by its schema. */
function faults(name: string, report: unknown): string[] {
  const validate = schemas.get(name)!;
  return validate(report)
    ? []
    : validate.errors!.map(
        ({ instancePath, message, params }) => `${instancePath} ${message} ${JSON.stringify(params)}`,
      );
}

async function printed(line: string): Promise<Json[]> {
  const { out, err, code } = await lieflat(line.split(' '), { cwd: SHOP });
  expect(code, err).not.toBe(2);
  const texts = line.includes('jsonl') ? out.trimEnd().split('\n') : [out];
  return texts.flatMap((text) => JSON.parse(text) as Json | Json[]);
}

const FABRIC = '--fabric performance-knit';
const LINES: readonly (readonly [schema: string, line: string])[] = [
  ['vet', 'vet crest.dst cap-front.dst --format json --place left-chest --hoop 60x60 --fail-on never'],
  ['vet', `vet bold.dst --format json ${FABRIC} --after-wash 8 --fail-on never`],
  ['summary', 'summary part.txt --format json'],
  ['columns', 'columns . --format json'],
  ['columns', `columns bold.dst --format json ${FABRIC} --over 2`],
  ['pucker', `pucker bold.dst --format json ${FABRIC} --place left-chest`],
  ['pucker-comparison', `pucker bold.dst --format json ${FABRIC} --stack none --stack woven-polyester@45`],
  ['advise', `advise bold.dst --format json ${FABRIC} --hoop round-120`],
  ['relay', 'relay incoming.dst --dry-run --format json'],
  ['relay', `relay bold.dst --dry-run --format json ${FABRIC} --compensate`],
  ['resew', 'resew name-drop.dst --dry-run --format json --mode widen --scale 5%'],
  [
    'resew',
    `resew bold.dst --dry-run --format json --mode regenerate --x 4 --y 6 --offset 0.3,-0.2 ${FABRIC}`,
  ],
  ['resew', 'resew name-drop.dst --dry-run --format json --find'],
  ['reply', 'reply incoming.dst --format json --threads navy'],
  ['reply', `reply name-drop.dst --format json ${FABRIC}`],
  ['compare', 'compare name-drop.dst incoming.dst --format json'],
  ['compare', `compare bold.dst bolder.csv --format json ${FABRIC}`],
  ['order', `order bold.dst --fabric tote --format json --out-dir ${inShop('done')}`],
  ['catalog', 'catalog --format json'],
  ['catalog', 'catalog fabrics pique-knit --format json'],
  ['catalog', 'catalog hoops round-90 --format json'],
  ['profile-report', 'profile --format json'],
];

/** Work the pucker out, as others of the same report do. */
const TAKE_LONG = [
  'relay bold',
  'reply name-drop',
  'resew bold',
  'pucker bold.dst --format json --fabric performance-knit --stack',
];

describe('the schema of', () => {
  it.each(LINES.filter(([, line]) => IN_FULL || !TAKE_LONG.some((part) => line.startsWith(part))))(
    '%s fits: %s',
    { timeout: 120_000 },
    async (name, line) => {
      for (const report of await printed(line)) expect(faults(name, report)).toEqual([]);
    },
  );

  it('vet, summary, calibrate and profile-report fits what is written beside other files', {
    timeout: 120_000,
  }, async () => {
    const lines = await printed('vet . --shard 1/1 --format jsonl --fail-on never --summary all.json');
    expect(faults('part', lines.pop())).toEqual([]);
    for (const report of lines) expect(faults('vet', report)).toEqual([]);
    expect(faults('summary', JSON.parse(readFileSync(inShop('all.json'), 'utf8')))).toEqual([]);
    // Grades, a width, a row that is wrong and one that is not graded yet.
    const graded = ['performance-knit-thin,none', 'poplin,none'].flatMap((setup, i) =>
      [2, 2.5, 2, 3, 2.5].map((grade) => `bold.dst,${setup},as-is,0,${grade + i},,`),
    );
    const log = [
      'file,fabric,stack,underlay,washes,grade,object,width_mm',
      ...graded,
      'bold.dst,poplin,none,as-is,0,,1,4.9',
      'bold.dst,poplin,none,fill:7,0,3,,',
      'bold.dst,poplin,none,as-is,1,,,',
    ];
    writeFileSync(inShop('log.csv'), log.join('\n'));
    const fitted = await lieflat(['calibrate', 'log.csv', '--format', 'json', '-o', 'fitted.json'], {
      cwd: SHOP,
    });
    const report = JSON.parse(fitted.out) as { log: { faults: Json[]; ungraded: Json[] }; rows: Json[] };
    expect(faults('calibrate', report)).toEqual([]);
    expect([report.log.faults.length, report.log.ungraded.length, report.rows.length]).toEqual([1, 1, 11]);
    const { out } = await lieflat(['profile', '--profile', 'fitted.json', '--format', 'json'], {
      cwd: SHOP,
    });
    expect(faults('profile-report', JSON.parse(out))).toEqual([]);
  });

  it('every report is in the package, beside that of the profile', () => {
    for (const name of [...REPORTS, 'profile'])
      expect(existsSync(require.resolve(`lieflat/${name}.schema.json`)), name).toBe(true);
    expect([...new Set(LINES.map(([name]) => name))].sort()).toEqual(
      REPORTS.filter((name) => name !== 'part' && name !== 'calibrate').sort(),
    );
  });
});

/** The same with one field of an object changed, for each field of each object in it, one at a time. */
function* changed(
  value: Json,
  change: (object: { [key: string]: Json }, key: string) => void,
  at = '',
): Generator<readonly [at: string, put: (root: Json) => void]> {
  const step = (key: string | number, inner: Json): Generator<readonly [string, (root: Json) => void]> =>
    deeper(changed(inner, change, `${at}/${key}`), key);
  if (Array.isArray(value)) {
    // One of a list stands for the rest.
    if (value.length > 0) yield* step(0, value[0]);
  } else if (value !== null && typeof value === 'object') {
    for (const [key, inner] of Object.entries(value)) {
      yield [`${at}/${key}`, (root) => change(root as { [key: string]: Json }, key)];
      yield* step(key, inner);
    }
  }
}

function* deeper(
  inner: Iterable<readonly [string, (root: Json) => void]>,
  key: string | number,
): Generator<readonly [string, (root: Json) => void]> {
  for (const [at, put] of inner) yield [at, (root) => put((root as Record<string | number, Json>)[key])];
}

describe('a report with a field', () => {
  const unseen = async (change: Parameters<typeof changed>[1]): Promise<string[]> => {
    const [report] = await printed('vet crest.dst --format json --fail-on never');
    const out: string[] = [];
    for (const [at, put] of changed(report, change)) {
      const other = structuredClone(report);
      put(other);
      if (faults('vet', other).length === 0) out.push(at);
    }
    return out;
  };

  it('missing is refused, whichever it is; only doubt is left out where there is none', async () => {
    const optional = await unseen((object, key) => {
      delete object[key];
    });
    expect(optional.filter((at) => !at.endsWith('/unsure'))).toEqual([]);
  });

  it('beside those that are known is refused, wherever it is', async () => {
    expect(
      await unseen((object, key) => {
        object[`${key}Too`] = 1;
      }),
    ).toEqual([]);
  });

  it('of another kind is refused', async () => {
    expect(
      await unseen((object, key) => {
        object[key] = [[[]]];
      }),
    ).toEqual([]);
  });
});
