/** How long a whole order of twelve names takes, against the advice on the longest of them. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { sewLetter, straightLetters } from '../../samples/stitching/lettering.js';
import { SATIN } from '../../samples/stitching/sew-column.js';
import { Sewing } from '../../samples/stitching/sewing.js';
import { runCommand } from './command.js';
import type { Figure } from './figure.js';

/** Of letters that the samples are sewn in. */
const NAMES = [
  'TILLO',
  'BEA',
  'ROSCOE',
  'FENNO',
  'KARIN',
  'SAUL',
  'BASIL',
  'ARNICA',
  'OSKAR',
  'BRUNO',
  'LUC',
  'FABIENNE',
];
const LONGEST = NAMES.reduce((longest, name) => (name.length > longest.length ? name : longest));
const ON = ['--fabric', 'performance polo'];

export function orderFigures(root: URL): Figure[] {
  return [
    {
      name: 'order of twelve names / lieflat advise of the longest',
      target: 3,
      unit: '×',
      measure: () => twelveNames(root),
    },
  ];
}

/** The short one before and after the long one, so that whatever else the computer does slows both alike. */
function twelveNames(root: URL): { value: number; on: string } {
  const folder = mkdtempSync(join(tmpdir(), 'lieflat-bench-'));
  try {
    mkdirSync(join(folder, 'names'));
    for (const name of NAMES) writeFileSync(join(folder, 'names', `${name}.dst`), sewn(name));
    const advise = () => runCommand(root, ['advise', join(folder, 'names', `${LONGEST}.dst`), ...ON]).ms;
    const before = advise();
    const out = ['--quantity', '2', '--out-dir', join(folder, 'done')];
    const whole = runCommand(root, ['order', join(folder, 'names'), ...ON, ...out]).ms;
    const alone = Math.min(before, advise());
    return { value: whole / alone, on: `advise ${(alone / 1000).toFixed(1)} s` };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** As a shop sews them on a chest: satin over double zigzag, 12 mm high. */
function sewn(name: string): Uint8Array {
  const sewing = new Sewing();
  const style = { ...SATIN, pullMm: 0, underlay: ['double-zigzag'] as const, insetMm: 0.5, zigzagMm: 3 };
  for (const letter of straightLetters(name, { height: 12, stem: 3, bar: 2.6 }, 1.6, 4, { x: 0, y: -6 }))
    sewLetter(sewing, letter, style);
  return encodeDst(sewing.design(name));
}
