import { createHash } from 'node:crypto';
import { posix } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createHash as createOwn } from '../../../cli/page/stand-ins/crypto.js';
import * as own from '../../../cli/page/stand-ins/path.js';

const part = fc.constantFrom('', '.', '..', 'a', 'b c', '.dst', 'é', '/', '//', '/a', 'a/', 'a/b', '../x');
const path = fc.array(part, { maxLength: 5 }).map((parts) => parts.join('/'));

describe('paths in the page', () => {
  it('are those of POSIX, as Node has them', () => {
    fc.assert(
      fc.property(fc.array(path, { minLength: 1, maxLength: 4 }), (paths) => {
        const [first, second = 'x'] = paths;
        expect(own.join(...paths)).toBe(posix.join(...paths));
        expect(own.basename(first)).toBe(posix.basename(first));
        // Two slashes in a row Node leaves as they are.
        const plain = first.replace(/\/+/g, '/');
        expect(own.dirname(plain)).toBe(posix.dirname(plain));
        expect(own.isAbsolute(first)).toBe(posix.isAbsolute(first));
        expect(own.parse(first).root).toBe(posix.parse(first).root);
        // The page stands at the root.
        expect(own.resolve(...paths)).toBe(posix.resolve('/', ...paths));
        expect(own.relative(first, second)).toBe(
          posix.relative(posix.resolve('/', first), posix.resolve('/', second)),
        );
      }),
      { numRuns: 2000 },
    );
  });
});

describe('SHA-256 in the page', () => {
  const hash = (content: Uint8Array | string): string => createOwn('sha256').update(content).digest('hex');

  it('is that of the examples of FIPS 180-4', () => {
    // https://csrc.nist.gov/projects/cryptographic-standards-and-guidelines/example-values
    expect(hash('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(hash('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq')).toBe(
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    );
  });

  it('is that of Node, whatever the bytes', () => {
    const node = (content: Uint8Array | string): string => createHash('sha256').update(content).digest('hex');
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 300 }), fc.string({ unit: 'binary' })), (content) => {
        expect(hash(content)).toBe(node(content));
      }),
    );
    const large = new Uint8Array(1e6).fill(97);
    expect(hash(large)).toBe(node(large));
  });
});
