/**
 * File names as text and as the bytes that they are. Where names are bytes, an old disk holds some that are no UTF-8; every byte of those
 * that fits no letter stands in the text as a half surrogate, U+DC80 for 0x80 to U+DCFF for 0xFF, which UTF-8 never yields. So any name can
 * be text, and the file is found again by its own bytes.
 */
import { system } from './system.js';

/** Bytes are handed to Node as they are; text it turns into UTF-8 or what else the system has. */
export type NativePath = string | Uint8Array;

const LONE_BYTE = /[\udc80-\udcff]/u;
const HALF = 0xdc00;

/** Bytes of a name → text. */
export function textOfName(bytes: Uint8Array): string {
  const name = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  const text = name.toString('utf8');
  if (!text.includes('\ufffd') || Buffer.from(text).equals(name)) return text;
  let whole = '';
  for (let i = 0; i < name.length; ) {
    const letter = name.subarray(i, i + letterLength(name[i]));
    const read = letter.toString('utf8');
    if (Buffer.from(read).equals(letter)) {
      whole += read;
      i += letter.length;
    } else whole += String.fromCharCode(HALF + name[i++]);
  }
  return whole;
}

/** Bytes of a letter in UTF-8, by its first one (RFC 3629). */
function letterLength(first: number): number {
  if (first < 0xc0) return 1;
  return first < 0xe0 ? 2 : first < 0xf0 ? 3 : 4;
}

/** Text of a path → what the system is asked for. */
export function nativePath(path: string): NativePath {
  if (!system().namesAreBytes || !LONE_BYTE.test(path)) return path;
  return Buffer.concat(
    Array.from(path, (letter) => {
      const code = letter.codePointAt(0)!;
      return code >= HALF && code <= HALF + 0xff ? Buffer.of(code - HALF) : Buffer.from(letter);
    }),
  );
}

/** A text that somebody else wrote: UTF-16 or UTF-8 by its mark, else UTF-8 as names are read, else what the system's own tools write. */
export function textOfList(bytes: Uint8Array): string {
  const marked = new Map([
    ['\xff\xfe', 'utf-16le'],
    ['\xfe\xff', 'utf-16be'],
  ]).get(String.fromCharCode(...bytes.subarray(0, 2)));
  if (marked) return new TextDecoder(marked).decode(bytes);
  const { listEncoding } = system();
  if (listEncoding !== null) {
    try {
      return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    } catch {
      return new TextDecoder(listEncoding).decode(bytes);
    }
  }
  return textOfName(bytes).replace(/^\ufeff/, '');
}
