/** What must be true of lieflat whatever it is given. */

import { parse } from 'csv-parse/sync';
import { type ErrorCode, LieflatError } from '../../lib/core/errors.js';
import { decodeDesign, encodeDesign } from '../../lib/format/decode.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { fullShop } from '../../lib/pipeline.js';
import { readProfile, type ShopFigures } from '../../lib/profile.js';
import { oddityInWords } from '../../lib/report/phrases/words-of.js';
import { printable } from '../../lib/report/render/printable.js';
import { toJson, toJsonLine } from '../../lib/report/to-json.js';
import { csvHeader, toCsvRecords } from '../../lib/report/vet/csv.js';
import { toText } from '../../lib/report/vet/document.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { type Shop, shopOf, type Vetting } from '../../lib/shop.js';
import { must } from './broken.js';
import { type Input, PLAIN } from './inputs.js';

/** The one oddity that writing hands on. */
const EXTRA_FIELD = 'file-header-field-extra';

/** How an input ended. */
export type Outcome = 'design' | 'profile' | ErrorCode;

/** What is held to it; a test puts something broken in the place of each. */
export interface Subject {
  decode: typeof decodeDesign;
  vet: (shop: Shop, ...design: Parameters<Shop['vet']>) => Vetting;
  encode: typeof encodeDesign;
}

export const LIEFLAT: Subject = {
  decode: decodeDesign,
  vet: (shop, ...design) => shop.vet(...design),
  encode: encodeDesign,
};

/** Decodes, vets, reports and writes back; `onFabric` works the pucker out as well, which takes a thousand times as long. */
export async function hold({ kind, bytes }: Input, onFabric = false, subject = LIEFLAT): Promise<Outcome> {
  if (kind === 'profile') return holdProfile(bytes, onFabric, subject);
  const design = await designOrError(bytes, kind, subject);
  if (design instanceof LieflatError) return design.code;
  holdDesign(design);
  await holdVet(design, undefined, onFabric, subject);
  await holdWritten(design, subject);
  return 'design';
}

async function designOrError(
  bytes: Uint8Array,
  format: 'dst' | 'csv',
  { decode }: Subject,
): Promise<Design | LieflatError> {
  try {
    return await decode(bytes, format);
  } catch (error) {
    return knownError(error, 'undecodable', /^(byte|line) \d+$/);
  }
}

/** One line of an error that a person can mend, or the error is a bug. */
function knownError(error: unknown, code: ErrorCode, place: RegExp): LieflatError {
  if (!(error instanceof LieflatError)) throw error;
  must(error.code === code, `an error of the code ${error.code}: ${error.message}`);
  must(place.test(error.place), `an error without a place: ${error.message}`);
  must(!/[\r\n]/.test(error.message) && error.message.length < 1000, `no single line: ${error.message}`);
  must(error.what !== '' && error.todo !== '', `an error that does not say what to do: ${error.message}`);
  return error;
}

function holdDesign({ x, y, kind, thread, diagnostics }: Design): void {
  must(x.length === kind.length && y.length === kind.length, 'arrays of one length');
  must(thread === null || thread.length === kind.length, 'a thread a record');
  must(x.every(Number.isFinite) && y.every(Number.isFinite), 'positions that are numbers');
  must(
    kind.every((code, i) => code < Kind.end || (code === Kind.end && i === kind.length - 1)),
    'known kinds, an end only at the end',
  );
  for (const oddity of diagnostics) {
    must((oddity.byte ?? oddity.line ?? -1) >= 0, `an oddity with a place: ${oddity.code}`);
    const said = oddityInWords(oddity, { units: 'mm', detail: 'full' });
    must(!/undefined|NaN/.test(said), `an oddity in words: ${said}`);
  }
}

async function holdVet(
  design: Design,
  figures: ShopFigures | undefined,
  onFabric: boolean,
  { vet }: Subject,
): Promise<void> {
  const settings = {
    file: { path: 'in.dst', format: design.format, bytes: 0, sha256: '' },
    place: figures?.places.at(-1),
  };
  const shop = shopOf(figures);
  if (!onFabric) {
    holdReport(vet(shop, design, settings).report);
    return;
  }
  try {
    const { conditions, vetOn } = fullShop(shop);
    holdReport(vetOn(design, settings, conditions({ fabric: 'performance-knit' })).report);
  } catch (error) {
    if (figures === undefined || !(error instanceof LieflatError)) throw error;
    // A shop that prices or accepts nothing gets no plan.
    must(['bad-profile', 'bad-argument', 'unknown-id'].includes(error.code), error.message);
  }
}

function holdReport(report: VetReport): void {
  eachNumber(report, '', (path, value) => must(Number.isFinite(value), `${path} is ${value}`));
  must(same(JSON.parse(toJson(report)), report), 'the report survives JSON');
  must(same(JSON.parse(toJsonLine(report)), report), 'the report survives a line of JSON');
  must(toJsonLine(report).indexOf('\n') === toJsonLine(report).length - 1, 'one line');
  const rows = parse(csvHeader() + toCsvRecords(report)) as string[][];
  must(rows.length === 1 + Math.max(1, report.objects.length), 'a row an object');
  const lines = toText(report, { width: 80, units: 'mm' }, true).split('\n');
  must(
    lines.every((line) => printable(line) === line),
    'plain text',
  );
  const { stitches } = report.design;
  report.objects.forEach(({ id, stitchRange: [first, last], underlay }, i) => {
    must(id === i + 1, 'objects numbered in order');
    must(first >= 0 && first <= last && last < stitches, `object ${id} within the stitches`);
    const under = underlay.stitchRange;
    must(
      under === null || (under[0] >= 0 && under[0] <= under[1] && under[1] < stitches),
      'underlay within them',
    );
  });
  for (const { code, object, stitch } of report.findings) {
    must(object === null || (object >= 1 && object <= report.objects.length), `${code} is of an object`);
    must(stitch === null || (stitch >= 0 && stitch < stitches), `${code} is at a stitch`);
  }
}

function eachNumber(value: unknown, path: string, take: (path: string, value: number) => void): void {
  if (typeof value === 'number') take(path, value);
  else if (typeof value === 'object' && value !== null)
    for (const [key, inner] of Object.entries(value)) eachNumber(inner, `${path}.${key}`, take);
}

/** Equal as values; a member that is undefined is none. */
function same(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b);
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [inA, inB] = [a, b].map((o) => Object.entries(o).filter(([, value]) => value !== undefined));
  return (
    inA.length === inB.length && inA.every(([key, value]) => same(value, (b as Record<string, unknown>)[key]))
  );
}

/** What can be read can be written and is read back the same, or the error says why not. */
async function holdWritten(design: Design, { decode, encode }: Subject): Promise<void> {
  for (const format of ['dst', 'csv'] as const) {
    let written: Uint8Array;
    try {
      written = encode(design, format);
    } catch (error) {
      knownError(error, 'bad-argument', /./);
      continue;
    }
    const again = await decode(written, format);
    // A table holds a hundredth of a millimetre, a stitch file a tenth.
    const fineness = format === 'csv' || design.format === 'dst' ? 0 : 0.05 + 1e-9;
    const [before, after] = [needlePoints(design), needlePoints(again)];
    must(
      before.length === after.length,
      `${format}: ${before.length} needle points, ${after.length} read back`,
    );
    const moved = before.findIndex((at, i) => Math.abs(at - after[i]) > fineness);
    must(moved < 0, `${format}: needle point ${moved >> 1} moved`);
    if (format === 'csv') {
      must(same([...again.kind], [...design.kind]), 'csv: the same kinds');
      must(
        same(again.thread && [...again.thread], design.thread && [...design.thread]),
        'csv: the same threads',
      );
    } else {
      // Fields of others are kept, so a file that is written from one that had them has them too.
      const kept = new Set<string>(
        design.diagnostics.map(({ code }) => code).filter((code) => code === EXTRA_FIELD),
      );
      const odd = again.diagnostics.find(({ code }) => !kept.has(code));
      must(!odd, `dst: it is written with ${odd?.code}`);
      const count = (d: Design, code: number): number => d.kind.reduce((n, k) => n + (k === code ? 1 : 0), 0);
      for (const code of [Kind.colour, Kind.stop])
        must(count(again, code) === count(design, code), `dst: as many pauses of kind ${code}`);
    }
  }
}

/** x and y of every needle penetration. */
function needlePoints({ x, y, kind }: Design): number[] {
  const points: number[] = [];
  for (let i = 0; i < kind.length; i++) if (kind[i] === Kind.stitch) points.push(x[i], y[i]);
  return points;
}

async function holdProfile(bytes: Uint8Array, onFabric: boolean, subject: Subject): Promise<Outcome> {
  let figures: ShopFigures;
  try {
    figures = await readProfile(new TextDecoder().decode(bytes), 'shop.json');
  } catch (error) {
    return knownError(error, 'bad-profile', /^shop\.json/).code;
  }
  must(Object.getPrototypeOf({}) === Object.prototype && !('polo' in {}), 'nothing else was changed');
  await holdVet(PLAIN, figures, onFabric, subject);
  return 'profile';
}
