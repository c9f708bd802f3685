/** The JSON Schemas that the package ships, held to what the commands print of the samples. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Ajv, type ValidateFunction } from 'ajv';
import { describe, expect, it } from 'vitest';
import { lieflat, shopFolder } from '../cli/at-a-terminal.js';
import { installed, ROOT } from './installed.js';

const { at } = installed();
const SAMPLES = join(ROOT, 'samples');
const require = createRequire(at('index.js'));

const REPORTS = [
  'vet',
  'summary',
  'columns',
  'pucker',
  'pucker-comparison',
  'advise',
  'relay',
  'resew',
  'compare',
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
  const { out, err, code } = await lieflat(line.split(' '), { cwd: SAMPLES });
  expect(code, err).not.toBe(2);
  const texts = line.includes('jsonl') ? out.trimEnd().split('\n') : [out];
  return texts.flatMap((text) => JSON.parse(text) as Json | Json[]);
}

const FABRIC = '--fabric performance-knit';
const LINES: readonly (readonly [schema: string, line: string])[] = [
  ['vet', 'vet . --format jsonl --fail-on never'],
  ['vet', 'vet crest.dst cap-front.dst --format json --place left-chest --hoop 60x60 --fail-on never'],
  ['vet', `vet name-drop.dst --format json ${FABRIC} --after-wash 8 --fail-on never`],
  ['columns', 'columns . --format json'],
  ['columns', `columns name-drop.dst --format json ${FABRIC} --over 2`],
  ['pucker', `pucker name-drop.dst --format json ${FABRIC} --place left-chest`],
  [
    'pucker-comparison',
    `pucker name-drop.dst --format json ${FABRIC} --stack none --stack woven-polyester@45`,
  ],
  ['advise', `advise name-drop.dst --format json ${FABRIC} --hoop round-120`],
  ['relay', 'relay incoming.dst --dry-run --format json'],
  ['relay', `relay name-drop.dst --dry-run --format json ${FABRIC} --compensate`],
  ['resew', 'resew name-drop.dst --dry-run --format json --mode widen --scale 5%'],
  [
    'resew',
    `resew name-drop.dst --dry-run --format json --mode regenerate --x 4 --y 6 --offset 0.3,-0.2 ${FABRIC}`,
  ],
  ['resew', 'resew name-drop.dst --dry-run --format json --find'],
  ['compare', 'compare name-drop.dst incoming.dst --format json'],
  ['compare', `compare name-drop.dst name-drop.csv --format json ${FABRIC}`],
  ['catalog', 'catalog --format json'],
  ['catalog', 'catalog fabrics pique-knit --format json'],
  ['catalog', 'catalog hoops round-90 --format json'],
  ['profile-report', 'profile --format json'],
];

describe('the schema of', () => {
  it.each(LINES)('%s fits: %s', { timeout: 120_000 }, async (name, line) => {
    for (const report of await printed(line)) expect(faults(name, report)).toEqual([]);
  });

  it('summary, calibrate and profile-report fits what is written beside other files', {
    timeout: 120_000,
  }, async () => {
    const shop = shopFolder().at;
    await lieflat(['vet', '.', '--format', 'jsonl', '--summary', shop('all.json'), '-o', shop('all.jsonl')], {
      cwd: SAMPLES,
    });
    expect(faults('summary', JSON.parse(readFileSync(shop('all.json'), 'utf8')))).toEqual([]);
    // The first settings of the sample log are enough for a fit, and it takes its time with each.
    const [head, ...rows] = readFileSync(join(SAMPLES, 'sew-outs.csv'), 'utf8').split('\n').slice(0, 14);
    writeFileSync(shop('log.csv'), [head, ...rows.map((row) => join(SAMPLES, row))].join('\n'));
    const fitted = await lieflat([
      'calibrate',
      shop('log.csv'),
      '--format',
      'json',
      '-o',
      shop('fitted.json'),
    ]);
    expect(faults('calibrate', JSON.parse(fitted.out))).toEqual([]);
    const { out } = await lieflat(['profile', '--profile', shop('fitted.json'), '--format', 'json']);
    expect(faults('profile-report', JSON.parse(out))).toEqual([]);
  });

  it('every report is in the package, beside that of the profile', () => {
    for (const name of [...REPORTS, 'profile'])
      expect(existsSync(require.resolve(`lieflat/${name}.schema.json`)), name).toBe(true);
    expect([...new Set(LINES.map(([name]) => name))].sort()).toEqual(
      REPORTS.filter((name) => name !== 'summary' && name !== 'calibrate').sort(),
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
