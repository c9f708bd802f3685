import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printable, printableJson } from '../../lib/report/render/printable.js';

/** Control characters by ECMA-48, and the direction marks of Unicode Standard Annex 9 ("Trojan Source" set). */
const HARMFUL = [
  ...Array.from({ length: 0x20 }, (_, i) => i),
  ...Array.from({ length: 0x21 }, (_, i) => 0x7f + i),
  ...[0x061c, 0x200e, 0x200f, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069],
  ...[0x2028, 0x2029, 0xfeff],
].map((code) => String.fromCharCode(code));

describe('text made safe for a terminal', () => {
  it('writes out every control and direction character', () => {
    for (const char of HARMFUL) {
      const safe = printable(`a${char}b`);
      expect(safe).not.toContain(char);
      expect(safe).toMatch(/^a\\[xu][0-9a-f]{2,4}b$/);
    }
  });

  it('leaves ordinary text of any script as it is', () => {
    for (const text of ['crest-2.dst', 'Äpfel & Öl', '刺繡.dst', 'شعار', '🧵 spool', 'x̂']) {
      expect(printable(text)).toBe(text);
    }
  });

  it('writes out half of a surrogate pair and keeps a whole one', () => {
    expect(printable('\ud83e')).toBe('\\ud83e');
    expect(printable('\ud83e\uddf5')).toBe('\ud83e\uddf5');
  });

  it('lets no harmful character through, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.oneof(fc.constantFrom(...HARMFUL), fc.string({ maxLength: 2 })) }),
        (text) => {
          const safe = printable(text);
          return HARMFUL.every((char) => !safe.includes(char));
        },
      ),
    );
  });

  it('escapes JSON so that it still parses to the same value', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.oneof(fc.constantFrom(...HARMFUL), fc.string({ maxLength: 2 })) }),
        (text) => {
          const json = printableJson(JSON.stringify({ text }, null, 2));
          expect(JSON.parse(json)).toEqual({ text });
          return HARMFUL.every((char) => char === '\n' || !json.includes(char));
        },
      ),
    );
  });
});
