import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../lib/format/diagnostic.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { decoding } from '../../lib/vetting/findings/decoding.js';
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

  it('lacks more than the end record, which a header may count or not', () => {
    // Some writers count the end record, some do not: one record less than the header says is a whole file without its end.
    const lacking = (records: number, others: readonly Diagnostic[] = []) =>
      decoding({
        design: {
          diagnostics: [
            ...others,
            {
              code: 'file-record-count',
              params: { key: 'ST', claimed: 100 + records, counted: 100 },
              measured: 100,
              expected: 100 + records,
            },
            { code: 'file-no-end-record', params: {} },
          ],
        },
      } as never).find(({ code }) => code === 'file-no-end-record')!;
    expect([-1, 0, 1, 2, 50].map((records) => lacking(records).severity)).toEqual([
      'warn',
      'warn',
      'warn',
      'fail',
      'fail',
    ]);
    expect([lacking(1).fix, lacking(2).fix]).toEqual([
      null,
      { do: 'ask-digitizer', objects: [], to: 'send-again' },
    ]);
    // Whatever else was odd before them in the file.
    const odd: Diagnostic = {
      code: 'file-header-padding',
      params: {},
      measured: 1,
      expected: 500,
    };
    expect([lacking(1, [odd]).severity, lacking(2, [odd]).severity]).toEqual(['warn', 'fail']);
  });

  it('is told by both, the count and the missing end: either alone is no more than odd', () => {
    const only = (code: string) =>
      decoding({
        design: { diagnostics: [{ code, params: {}, measured: 1, expected: 9 }] },
      } as never)[0];
    for (const code of ['file-record-count', 'file-no-end-record']) {
      expect(only(code)).toMatchObject({ severity: 'warn', fix: null, params: { cutOff: false } });
    }
  });

  it('is not a whole file', () => {
    expect(findings(crest).some((f) => f.code === 'file-no-end-record')).toBe(false);
  });
});
