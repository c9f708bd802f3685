/** What must be true of every piece of output, by its form. */
import { DOMParser } from '@xmldom/xmldom';
import { parse as parseCsv } from 'csv-parse/sync';
import { decode as decodePng } from 'fast-png';
import { type DefaultTreeAdapterTypes, parse as parseHtml } from 'parse5';
import { decodeDesign } from '../../../lib/format/decode.js';
import { type Design, Kind } from '../../../lib/format/design.js';
import { printable } from '../../../lib/report/render/printable.js';
import { WENT_WRONG } from '../../report/any-report.js';
import { Broken, must } from '../broken.js';
import { FORMS } from './forms.js';
import { HARM } from './names.js';

export type Form = 'html' | 'svg' | 'png' | 'json' | 'jsonl' | 'csv' | 'dst' | 'table' | 'profile' | 'text';

function holdFigures(text: string, where: string): void {
  const wrong = WENT_WRONG.exec(text);
  must(wrong === null, `${where} says ${wrong?.[0]}: ${around(text, wrong?.index ?? 0)}`);
}

/** No figure that is none, and nothing that steers a terminal or turns letters round. */
export function holdText(text: string, where: string, allowWords = false): void {
  if (!allowWords) holdFigures(text, where);
  for (const line of text.replaceAll('\r\n', '\n').split('\n'))
    must(
      printable(line) === line,
      `${where} has a raw control character: ${JSON.stringify(line.slice(0, 200))}`,
    );
}

const around = (text: string, at: number): string =>
  JSON.stringify(text.slice(Math.max(0, at - 60), at + 60));

/** Every document of a text in JSON or JSON lines. */
export function holdJson(text: string, where: string): unknown[] {
  let documents: unknown[];
  try {
    const whole: unknown = JSON.parse(text);
    documents = Array.isArray(whole) ? whole : [whole];
  } catch {
    documents = text
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => {
        try {
          return JSON.parse(line) as unknown;
        } catch (error) {
          throw new Broken(`${where} is no JSON: ${(error as Error).message}: ${line.slice(0, 200)}`);
        }
      });
  }
  for (const document of documents) holdDocument(document as Record<string, unknown>, where);
  return documents;
}

function holdDocument(document: Record<string, unknown>, where: string): void {
  if ('stopped' in document || '$schema' in document) return;
  const form = FORMS[String(document.schema)];
  must(form !== undefined, `${where}: the form ${document.schema} is held to nothing; add it to FORMS`);
  const parsed = form.safeParse(document);
  must(
    parsed.success,
    `${where}: ${parsed.error?.issues
      .map((i) => `${i.path.join('.')}: ${i.message}`)
      .slice(0, 4)
      .join('; ')}`,
  );
  holdOrder(document, where);
}

/** Pairs of ends that stand in order, and a value between them, wherever they are. */
function holdOrder(value: unknown, where: string): void {
  if (typeof value !== 'object' || value === null) return;
  const v = value as Record<string, unknown>;
  const rising = (keys: readonly string[]): void => {
    const given = keys.filter((key) => typeof v[key] === 'number');
    const figures = given.map((key) => v[key] as number);
    must(
      figures.every((figure, i) => i === 0 || figures[i - 1] <= figure),
      `${where}: ${given.join(' <= ')} is not so: ${figures.join(', ')}`,
    );
  };
  rising(['low', 'value', 'high']);
  rising(['min', 'median', 'p95', 'max']);
  rising(['minX', 'maxX']);
  rising(['minY', 'maxY']);
  for (const [key, ends] of Object.entries((v.range ?? {}) as Record<string, unknown>)) {
    if (!Array.isArray(ends) || typeof ends[0] !== 'number') continue;
    const inside = [ends[0], ...(typeof v[key] === 'number' ? [v[key]] : []), ends.at(-1)] as number[];
    must(isRising(inside), `${where}: the range of ${key} does not hold it in order: ${inside.join(', ')}`);
  }
  for (const [key, inner] of Object.entries(v)) {
    if (key.endsWith('BandMm') && Array.isArray(inner))
      must(isRising(inner as number[]), `${where}: ${key} does not rise: ${inner.join(', ')}`);
    holdOrder(inner, `${where}.${key}`);
  }
}

const isRising = (figures: readonly number[]): boolean =>
  figures.every((figure, i) => i === 0 || figures[i - 1] <= figure);

/** A table whose records are of one length, without a formula. */
export function holdCsv(text: string, where: string): void {
  let rows: string[][];
  try {
    rows = parseCsv(text) as string[][];
  } catch (error) {
    throw new Broken(`${where} is no table: ${(error as Error).message}`);
  }
  for (const cell of rows.flat())
    must(
      !/^\s*[=+\-@\t\r]/.test(cell) || /^-?\d+(\.\d+)?(e-?\d+)?$/.test(cell),
      `${where}: a cell that is a formula: ${JSON.stringify(cell)}`,
    );
}

/** Elements of HTML that have no closing tag. */
const VOID = new Set(['area', 'base', 'br', 'col', 'hr', 'img', 'input', 'link', 'meta', 'source', 'wbr']);

const closingTags = (text: string): number => text.match(/<\/[a-z]/gi)?.length ?? 0;

/**
 * A page that a browser reads without putting anything right, that holds no markup of a name's and shows no figure that is none; a script
 * may well speak of such.
 */
export function holdHtml(text: string, where: string, wordsGiven: boolean): void {
  const page = parseHtml(text, {
    sourceCodeLocationInfo: true,
    scriptingEnabled: false,
    onParseError: ({ code, startLine, startCol }) => {
      throw new Broken(
        `${where}: ${code} at ${startLine}:${startCol}: ${text.split('\n')[startLine - 1]?.slice(Math.max(0, startCol - 60), startCol + 60)}`,
      );
    },
  });
  let closing = closingTags(text);
  const walk = (node: DefaultTreeAdapterTypes.Node): void => {
    if ('tagName' in node) {
      if (node.sourceCodeLocation?.endTag) closing--;
      holdTags(node, text, where);
      if (!wordsGiven) for (const { value } of node.attrs) holdFigures(value, `${where}, ${node.tagName}`);
    }
    if (node.nodeName === '#text') {
      const { value, parentNode } = node as DefaultTreeAdapterTypes.TextNode;
      if (parentNode?.nodeName === 'script') closing -= closingTags(value);
      else if (!wordsGiven) holdFigures(value, where);
    }
    if ('childNodes' in node) node.childNodes.forEach(walk);
  };
  walk(page);
  must(closing === 0, `${where}: ${closing} closing tags close nothing`);
}

function holdTags(node: DefaultTreeAdapterTypes.Element, text: string, where: string): void {
  const { startTag, endTag } = node.sourceCodeLocation ?? {};
  // What stands in no tag of its own is put in by the browser, as the body of a table.
  const opened = startTag ? text.slice(startTag.startOffset, startTag.endOffset) : '/>';
  must(
    endTag !== undefined || opened.endsWith('/>') || VOID.has(node.tagName),
    `${where}: ${opened.slice(0, 80)} is not closed`,
  );
  holdElement(node.tagName, node.attrs, where);
  if (node.tagName !== 'script' && node.tagName !== 'style') return;
  for (const inner of node.childNodes)
    must(!('value' in inner) || !inner.value.includes(HARM), `${where}: a name stands in a ${node.tagName}`);
}

export function holdSvg(text: string, where: string): void {
  const { documentElement } = new DOMParser({
    onError: (level, message) => {
      // A name may hold the character that stands for one that could not be read.
      if (level === 'warning' && message.includes('replacement character')) return;
      throw new Broken(`${where}: ${level}: ${message}`);
    },
  }).parseFromString(text, 'image/svg+xml');
  must(documentElement?.tagName === 'svg', `${where} is no picture`);
  // The list is live, but nothing is changed.
  const all = documentElement!.getElementsByTagName('*');
  for (let i = 0; i < all.length; i++) {
    const element = all[i];
    holdElement(element.tagName, [...element.attributes], where);
  }
}

function holdElement(
  tag: string,
  attributes: readonly { name: string; value: string }[],
  where: string,
): void {
  must(!tag.includes('harm'), `${where}: a name has become the element ${tag}`);
  for (const { name, value } of attributes) {
    must(
      !name.includes('harm') && !name.startsWith('on'),
      `${where}: a name has become the attribute ${name}`,
    );
    must(!/^\s*javascript:/i.test(value), `${where}: ${name} is a script`);
  }
}

export function holdPng(bytes: Uint8Array, where: string, pixels: number | null): void {
  try {
    const { width, height } = decodePng(bytes, { checkCrc: true });
    must(width > 0 && height > 0, `${where} is an empty picture`);
    must(pixels === null || width === pixels, `${where} is ${width} pixels wide, not ${pixels}`);
  } catch (error) {
    throw error instanceof Broken ? error : new Broken(`${where} is no picture: ${error}`);
  }
}

/** Fields of a header that the format does not define are handed on. */
const HANDED_ON = 'file-header-field-extra';

/** What is written is read back without an oddity that none of `sources` has. */
export async function holdStitchFile(
  bytes: Uint8Array,
  format: 'dst' | 'csv',
  where: string,
  sources: readonly Uint8Array[] = [],
): Promise<Design> {
  let design: Design;
  try {
    design = await decodeDesign(bytes, format);
  } catch (error) {
    throw new Broken(`${where} cannot be read back: ${(error as Error).message}`);
  }
  for (const { code } of design.diagnostics)
    must(code === HANDED_ON && (await hasExtraField(sources)), `${where} is written with ${code}`);
  return design;
}

async function hasExtraField(sources: readonly Uint8Array[]): Promise<boolean> {
  for (const bytes of sources) {
    const source = await decodeDesign(bytes, 'dst').catch(() => null);
    if (source?.diagnostics.some(({ code }) => code === HANDED_ON)) return true;
  }
  return false;
}

/** x and y of every needle penetration. */
export function needlePoints({ x, y, kind }: Design): number[] {
  const points: number[] = [];
  for (let i = 0; i < kind.length; i++) if (kind[i] === Kind.stitch) points.push(x[i], y[i]);
  return points;
}

/** What kind of output a text or file is, by how it begins. */
export function formOf(bytes: Buffer, name = ''): Form {
  if (bytes.subarray(1, 4).toString('latin1') === 'PNG') return 'png';
  const start = bytes.subarray(0, 400).toString('utf8').trimStart().toLowerCase();
  if (start.startsWith('<!doctype html')) return 'html';
  if (start.startsWith('<svg') || start.startsWith('<?xml')) return 'svg';
  if (start.startsWith('x_mm,')) return 'table';
  if (start.startsWith('la:')) return 'dst';
  if (start.startsWith('file,')) return 'csv';
  if (/^[{[]/.test(start)) return name !== '' && !start.includes('"schema"') ? 'profile' : 'json';
  return 'text';
}
