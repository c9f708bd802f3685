import { encodeDst } from '../lib/format/dst-encode.js';
import { encodeStitchTable } from '../lib/format/stitch-table.js';
import { capFront } from './designs/cap-front.js';
import { crest } from './designs/crest.js';
import { type Fault, incoming } from './designs/incoming.js';
import { jacketBack } from './designs/jacket-back.js';
import { nameDrop } from './designs/name-drop.js';
import { towelMonogram } from './designs/towel-monogram.js';
import { sewOutLog } from './sew-outs.js';
import type { Sewing } from './stitching/sewing.js';
import type { TrueObject } from './stitching/truth.js';

/** What is known of one sample without reading its file. */
export interface Outcome {
  readonly place: string;
  readonly stitches: number;
  readonly trims: number;
  readonly colourChanges: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** What every penetration was sewn for, as runs: a count and `l`ock, `t`ravel, `u`nderlay or `s`titching that shows. */
  readonly parts: string;
  readonly objects: readonly TrueObject[];
  readonly faults: readonly Fault[];
  /** What is wrong with the file itself. */
  readonly fileFaults: readonly string[];
}

export interface Sample {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly outcome: Outcome;
}

interface Made {
  readonly name: string;
  readonly place: string;
  readonly sewing: Sewing;
  readonly faults?: readonly Fault[];
}

const runsOf = (parts: string): string => parts.replace(/(.)\1*/g, (run) => `${run.length}${run[0]}`);

function outcomeOf({ place, sewing, faults = [] }: Made, fileFaults: readonly string[]): Outcome {
  return {
    place,
    ...sewing.figures(),
    parts: runsOf(sewing.parts()),
    objects: sewing.objects(),
    faults,
    fileFaults,
  };
}

const labelOf = (name: string): string => name.replace('-', ' ').toUpperCase();

/** The header of the file from outside counts this many records too few. */
const MISCOUNT = 417;
/** What some other program left behind the end record. */
const LEFTOVER = 'RAFT RACE, 3RD TRY';

/** Makes the header count lie and leaves bytes behind the end record. */
function spoiled(bytes: Uint8Array): Uint8Array {
  const out = new Uint8Array(bytes.length + LEFTOVER.length);
  out.set(bytes);
  for (let i = 0; i < LEFTOVER.length; i++) out[bytes.length + i] = LEFTOVER.charCodeAt(i);
  const header = String.fromCharCode(...bytes.subarray(0, 512));
  const field = /ST:( *\d+)/.exec(header);
  if (!field) throw new Error('The header has no count to spoil.');
  const lie = String(Number(field[1]) - MISCOUNT).padStart(field[1].length);
  for (let i = 0; i < lie.length; i++) out[field.index + 3 + i] = lie.charCodeAt(i);
  return out;
}

/** All samples of the scenario, made afresh: the same bytes every time. */
export function makeSamples(): { samples: Sample[]; tables: { file: string; bytes: Uint8Array }[] } {
  const drop = nameDrop();
  const good: Made[] = [
    { name: 'crest', place: 'left-chest', sewing: crest() },
    { name: 'name-drop', place: 'left-chest', sewing: drop },
    { name: 'cap-front', place: 'cap-front', sewing: capFront() },
    { name: 'towel-monogram', place: 'towel', sewing: towelMonogram() },
    { name: 'jacket-back', place: 'jacket-back', sewing: jacketBack() },
  ];
  const samples = good.map((made) => ({
    file: `${made.name}.dst`,
    bytes: encodeDst(made.sewing.design(labelOf(made.name))),
    outcome: outcomeOf(made, []),
  }));
  const outside: Made = { name: 'incoming', place: 'left-chest', ...incoming() };
  samples.push({
    file: 'incoming.dst',
    bytes: spoiled(encodeDst(outside.sewing.design('BANNER'))),
    outcome: outcomeOf(outside, [
      `the header counts ${MISCOUNT} records too few`,
      `${LEFTOVER.length} bytes follow the end record`,
    ]),
  });
  return {
    samples,
    tables: [
      { file: 'name-drop.csv', bytes: encodeStitchTable(drop.design('')) },
      { file: 'sew-outs.csv', bytes: new TextEncoder().encode(sewOutLog()) },
    ],
  };
}

/** JSON as the formatter of this project leaves it: objects spread out, lists of plain values on one line. */
function spread(value: unknown, indent: string): string {
  const inner = `${indent}  `;
  const block = (open: string, parts: string[], close: string): string =>
    parts.length === 0 ? open + close : `${open}\n${inner}${parts.join(`,\n${inner}`)}\n${indent}${close}`;
  if (Array.isArray(value)) {
    if (value.every((item) => typeof item !== 'object'))
      return `[${value.map((item) => JSON.stringify(item)).join(', ')}]`;
    return block(
      '[',
      value.map((item) => spread(item, inner)),
      ']',
    );
  }
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).map(
    ([key, field]) => `${JSON.stringify(key)}: ${spread(field, inner)}`,
  );
  return block('{', fields, '}');
}

/** The outcomes as they stand in `expected.json`. */
export function outcomesText(samples: readonly Sample[]): string {
  return `${spread(Object.fromEntries(samples.map(({ file, outcome }) => [file, outcome])), '')}\n`;
}
