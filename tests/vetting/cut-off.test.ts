import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { SHOP } from '../built-in-shop.js';
import { said } from './said.js';

const crest = new Uint8Array(readFileSync(new URL('../../samples/crest.dst', import.meta.url)));
const findings = (bytes: Uint8Array) =>
  SHOP.vet(decodeDst(bytes), { file: { path: 'a.dst', format: 'dst', bytes: bytes.length, sha256: '' } })
    .findings;

describe('a file that is cut off', () => {
  it('is a failure that says to get it again', () => {
    const end = findings(crest.slice(0, 5000)).find((f) => f.code === 'file-no-end-record');
    expect(end?.severity).toBe('fail');
    expect(said(end)).toMatch(/cut off.*Get the file again/);
  });

  it('is not a file that only lacks its end record', () => {
    const end = findings(crest.slice(0, crest.length - 3)).find((f) => f.code === 'file-no-end-record');
    expect(end?.severity).toBe('warn');
  });

  it('is not a whole file', () => {
    expect(findings(crest).some((f) => f.code === 'file-no-end-record')).toBe(false);
  });
});
