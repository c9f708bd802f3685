/** The header of a three-byte stitch file: `KEY:value` fields, each ended by CR, then 0x1A, padded with spaces to 512 bytes. */

import { LieflatError } from '../core/errors.js';
import type { HeaderField } from './design.js';
import type { Diagnostic } from './diagnostic.js';
import { HEADER_BYTES } from './dst-record.js';

/** Every file has these, in this order. */
export const STANDARD_KEYS = [
  'LA',
  'ST',
  'CO',
  '+X',
  '-X',
  '+Y',
  '-Y',
  'AX',
  'AY',
  'MX',
  'MY',
  'PD',
] as const;

/**
 * Fields of our own, written only where the format has no place for what a design holds; a reader that does not know them
 * passes over them.
 */
export const OWN_KEYS = {
  /** Which pauses (from 1, in sewing order) are stops and no colour change: `PS:2,5`. */
  stops: 'PS',
  /** Thread number of every colour block: `TN:0,3,1`. */
  threads: 'TN',
  /** The whole label where it is longer than the 16 characters of `LA`. */
  label: 'LL',
} as const;

export const LABEL_CHARS = 16;

const END_MARK = 0x1a;
const CR = 13;
const LF = 10;
const SPACE = 32;
const TAB = 9;

const isStandard = (key: string): boolean => (STANDARD_KEYS as readonly string[]).includes(key);
const isOwn = (key: string): boolean => (Object.values(OWN_KEYS) as string[]).includes(key);

export interface DstHeader {
  readonly fields: readonly HeaderField[];
  /** First byte after the last field, from 0. */
  readonly textEnd: number;
  /** Offset of the 0x1A that ends the fields, or −1. */
  readonly endMark: number;
  readonly diagnostics: readonly Diagnostic[];
}

/** The value of a field without its padding, or undefined. Of fields that are repeated the first counts. */
export function fieldValue(fields: readonly HeaderField[], key: string): string | undefined {
  return fields.find((field) => field.key === key)?.value.trim();
}

/** A whole number out of a field such as `+   12` or `  345`, or null where it is none. */
export function wholeNumber(value: string): number | null {
  const text = value.replace(/\s+/g, '');
  return /^[+-]?\d{1,7}$/.test(text) ? Number(text) : null;
}

/** The most that a field of five figures can say; only the record count has seven. */
const MAX_FIGURE = 99_999;

/** Comma-separated whole numbers ≥ 0, or null where the text is something else. */
export function wholeNumbers(value: string): number[] | null {
  return /^\s*\d{1,9}(\s*,\s*\d{1,9})*\s*$/.test(value) ? value.split(',').map(Number) : null;
}

/** Reads the fields off the first 512 bytes. Keeps every field as it stands, in order; says what is odd. */
export function readHeader(bytes: Uint8Array): DstHeader {
  const end = textEndOf(bytes);
  const endMark = end < Math.min(HEADER_BYTES, bytes.length) && bytes[end] === END_MARK ? end : -1;
  const { fields, textEnd, noField, oddLineEnd } = readLines(bytes, end, endMark);
  const diagnostics: Diagnostic[] = [];
  if (!fields.some((field) => isStandard(field.key)))
    return { fields: [], textEnd: 0, endMark: -1, diagnostics };
  if (noField) {
    diagnostics.push({
      code: 'file-header-garbled',
      byte: noField.byte,
      params: {},
      measured: noField.count,
      expected: 0,
    });
  }
  if (oddLineEnd >= 0) {
    diagnostics.push({ code: 'file-header-line-ends', params: {}, byte: oddLineEnd });
  }
  if (endMark < 0) {
    diagnostics.push({ code: 'file-header-no-end-mark', params: {}, byte: textEnd });
  }
  diagnostics.push(...oddFields(fields), ...extraFields(fields));
  return { fields, textEnd, endMark, diagnostics };
}

/** First byte that is no text any more. Bytes from 0x80 up are letters of some code page in a label or an author's name. */
function textEndOf(bytes: Uint8Array): number {
  const limit = Math.min(HEADER_BYTES, bytes.length);
  let end = 0;
  while (end < limit && (bytes[end] >= SPACE || isLineEnd(bytes[end]) || bytes[end] === TAB)) end++;
  return end;
}

const isLineEnd = (byte: number): boolean => byte === CR || byte === LF;

/** The fields among the lines of a header, and the first line and line end that are odd. */
function readLines(bytes: Uint8Array, end: number, endMark: number) {
  const fields: HeaderField[] = [];
  let textEnd = 0;
  let noField: { byte: number; count: number } | null = null;
  let oddLineEnd = -1;
  for (let from = 0; from < end; ) {
    let to = from;
    while (to < end && !isLineEnd(bytes[to])) to++;
    const ended = to < end || endMark >= 0;
    const field = fieldOf(bytes, from, to);
    // Without an end mark the text after the last CR may be padding or stitch records already.
    if (field && (ended || isStandard(field.key))) {
      fields.push(field);
      textEnd = to;
    } else if (ended && !isBlank(bytes, from, to)) {
      noField ??= { byte: from, count: 0 };
      noField.count++;
    }
    const { next, oddAt } = lineEndAt(bytes, to, end);
    if (oddLineEnd < 0) oddLineEnd = oddAt;
    if (field && next > to) textEnd = next;
    from = next;
  }
  return { fields, textEnd, noField, oddLineEnd };
}

/** First byte of the next line, and the line feed that should not be there, or −1. A line ends with CR alone. */
function lineEndAt(bytes: Uint8Array, at: number, end: number): { next: number; oddAt: number } {
  if (at >= end) return { next: at, oddAt: -1 };
  if (bytes[at] === LF) return { next: at + 1, oddAt: at };
  const both = at + 1 < end && bytes[at + 1] === LF;
  return both ? { next: at + 2, oddAt: at + 1 } : { next: at + 1, oddAt: -1 };
}

const isKeyByte = (byte: number): boolean => byte > SPACE && byte < 0x7f;

function fieldOf(bytes: Uint8Array, from: number, to: number): HeaderField | null {
  if (to - from < 3 || bytes[from + 2] !== 0x3a || !isKeyByte(bytes[from]) || !isKeyByte(bytes[from + 1]))
    return null;
  return { key: latin1(bytes, from, from + 2), value: latin1(bytes, from + 3, to), byte: from };
}

function isBlank(bytes: Uint8Array, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (bytes[i] !== SPACE && bytes[i] !== TAB) return false;
  return true;
}

/** One character a byte, so that what is written back is the bytes that were read. */
function latin1(bytes: Uint8Array, from: number, to: number): string {
  return String.fromCharCode(...bytes.subarray(from, to));
}

function oddFields(fields: readonly HeaderField[]): Diagnostic[] {
  const diagnostics: Diagnostic[] = [];
  const missing = STANDARD_KEYS.filter((key) => !fields.some((field) => field.key === key));
  if (missing.length > 0) {
    diagnostics.push({
      code: 'file-header-field-missing',
      byte: 0,
      params: { keys: missing },
      measured: missing.join(' '),
    });
  }
  const seen = new Set<string>();
  for (const field of fields) {
    if (!isStandard(field.key)) continue;
    if (seen.has(field.key)) {
      if (!diagnostics.some((d) => d.code === 'file-header-field-repeated')) {
        diagnostics.push({
          code: 'file-header-field-repeated',
          byte: field.byte,
          params: { key: field.key },
          measured: field.key,
        });
      }
      continue;
    }
    seen.add(field.key);
    if (field.key === 'LA' || field.key === 'PD') continue;
    const number = wholeNumber(field.value);
    if (number === null || (field.key !== 'ST' && Math.abs(number) > MAX_FIGURE)) {
      diagnostics.push({
        code: 'file-header-field-garbled',
        byte: field.byte,
        params: { key: field.key },
        measured: field.value.trim().slice(0, 40),
      });
    }
  }
  return diagnostics;
}

/** One diagnostic that names every field that is neither standard nor our own, each once, in their order. */
function extraFields(fields: readonly HeaderField[]): Diagnostic[] {
  const extra = fields.filter(({ key }) => !isStandard(key) && !isOwn(key));
  if (extra.length === 0) return [];
  const keys = [...new Set(extra.map(({ key }) => key))];
  return [
    {
      code: 'file-header-field-extra',
      byte: extra[0].byte,
      params: { keys },
      measured: keys.join(' '),
    },
  ];
}

/** What a header must say truly. Lengths in units of 0.1 mm. */
export interface HeaderFacts {
  /** Records before the end record. */
  readonly records: number;
  /** Pauses that are no stop. */
  readonly colourChanges: number;
  /** Furthest positions from the origin, over every record. */
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
  /** Where the last record ends. */
  readonly endX: number;
  readonly endY: number;
  /** Pauses, from 1, that are stops. */
  readonly stops: readonly number[];
  /** Thread number of every colour block, or null. */
  readonly threads: readonly number[] | null;
}

/**
 * The 512 bytes of a header. Fields of `kept` that are neither standard nor our own are written back after the standard
 * ones, in their order.
 * @throws LieflatError `bad-argument` where a figure is too large for its field or the fields do not fit into 512 bytes
 */
export function writeHeader(facts: HeaderFacts, kept: readonly HeaderField[]): Uint8Array {
  const label = wholeLabel(kept);
  const lines = [
    `LA:${label.slice(0, LABEL_CHARS).padEnd(LABEL_CHARS)}`,
    `ST:${figure(facts.records, 7, 'records')}`,
    `CO:${figure(facts.colourChanges, 3, 'colour changes')}`,
    `+X:${extent(facts.maxX)}`,
    `-X:${extent(-facts.minX)}`,
    `+Y:${extent(facts.maxY)}`,
    `-Y:${extent(-facts.minY)}`,
    `AX:${signed(facts.endX)}`,
    `AY:${signed(facts.endY)}`,
    `MX:${signed(keptNumber(kept, 'MX'))}`,
    `MY:${signed(keptNumber(kept, 'MY'))}`,
    `PD:${(fieldValue(kept, 'PD') || '******').padEnd(6)}`,
    ...kept.filter((field) => !isStandard(field.key) && !isOwn(field.key)).map(lineOf),
  ];
  if (facts.stops.length > 0) lines.push(`${OWN_KEYS.stops}:${facts.stops.join(',')}`);
  if (facts.threads) lines.push(`${OWN_KEYS.threads}:${facts.threads.join(',')}`);
  if (label.length > LABEL_CHARS) lines.push(`${OWN_KEYS.label}:${label}`);

  const header = new Uint8Array(HEADER_BYTES).fill(SPACE);
  let n = 0;
  for (const line of lines) {
    if (n + line.length + 2 > HEADER_BYTES) {
      throw new LieflatError({
        code: 'bad-argument',
        place: `header field ${line.slice(0, 2)}`,
        what: 'the header fields take more than the 512 bytes that the file has for them',
        todo: 'drop or shorten fields that were added to the header',
      });
    }
    for (let i = 0; i < line.length; i++) {
      const char = line.charCodeAt(i);
      if (char > 0xff || (char < SPACE && char !== TAB)) {
        throw new LieflatError({
          code: 'bad-argument',
          place: `header field ${line.slice(0, 2)}`,
          what: 'it holds a character that a header cannot hold',
          todo: 'use plain letters and figures',
        });
      }
      header[n++] = char;
    }
    header[n++] = CR;
  }
  header[n] = END_MARK;
  return header;
}

function lineOf({ key, value }: HeaderField): string {
  if (!/^[!-~]{2}$/.test(key)) {
    throw new LieflatError({
      code: 'bad-argument',
      place: `header field ${key}`,
      what: 'a key of the header has two characters, neither of them a space',
      todo: 'shorten the key',
    });
  }
  return `${key}:${value}`;
}

/** The label as it was before a header cut it to 16 characters. */
function wholeLabel(kept: readonly HeaderField[]): string {
  const short = fieldValue(kept, 'LA') ?? '';
  const long = fieldValue(kept, OWN_KEYS.label);
  return long && long.slice(0, LABEL_CHARS).trimEnd() === short ? long : short;
}

/** Place of the design in a row of designs: not ours to change, 0 where it was not given. */
function keptNumber(kept: readonly HeaderField[], key: 'MX' | 'MY'): number {
  const number = wholeNumber(fieldValue(kept, key) ?? '') ?? 0;
  return Math.abs(number) <= MAX_FIGURE ? number : 0;
}

function figure(value: number, width: number, of: string): string {
  const text = String(value);
  if (text.length > width) {
    throw new LieflatError({
      code: 'bad-argument',
      place: 'design',
      what: `${text} ${of} are more than the header of a .dst can say (${width} figures)`,
      todo: 'split the design into several files',
    });
  }
  return text.padStart(width);
}

const extent = (units: number): string => figure(units, 5, 'tenths of a millimetre from the origin');
const signed = (units: number): string => `${units < 0 ? '-' : '+'}${extent(Math.abs(units))}`;
