/** In the place of Node's module in the page: SHA-256 as FIPS 180-4 has it, of all content at once. */

/** The first 32 bits of the fractional parts of roots of the first primes (FIPS 180-4, 4.2.2 and 5.3.3). */
const fraction = (root: number): number => (root % 1) * 2 ** 32;
const PRIMES = Array.from({ length: 310 }, (_, n) => n + 2).filter(
  (n, _, all) => !all.some((d) => d < n && n % d === 0),
);
const ROUNDS = Int32Array.from(PRIMES, (prime) => fraction(Math.cbrt(prime)));
const START = Int32Array.from(PRIMES.slice(0, 8), (prime) => fraction(Math.sqrt(prime)));

const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

function takeBlock(state: Int32Array, words: Int32Array): void {
  for (let t = 16; t < 64; t++) {
    const [early, late] = [words[t - 15], words[t - 2]];
    const small = turned(early, 7) ^ turned(early, 18) ^ (early >>> 3);
    const large = turned(late, 17) ^ turned(late, 19) ^ (late >>> 10);
    words[t] = words[t - 16] + small + words[t - 7] + large;
  }
  let [a, b, c, d, e, f, g, h] = state;
  for (let t = 0; t < 64; t++) {
    const mixed = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
    const one = (h + mixed + ((e & f) ^ (~e & g)) + ROUNDS[t] + words[t]) | 0;
    const two = (turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
    [h, g, f, e] = [g, f, e, (d + one) | 0];
    [d, c, b, a] = [c, b, a, (one + two) | 0];
  }
  for (const [i, word] of [a, b, c, d, e, f, g, h].entries()) state[i] += word;
}

function sha256(bytes: Uint8Array): string {
  const padded = new Uint8Array(64 * Math.ceil((bytes.length + 9) / 64));
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, bytes.length * 8);
  const state = START.slice();
  const words = new Int32Array(64);
  for (let at = 0; at < padded.length; at += 64) {
    for (let t = 0; t < 16; t++) words[t] = view.getInt32(at + 4 * t);
    takeBlock(state, words);
  }
  return Array.from(state, (word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

/** As far as it is asked for: `createHash('sha256').update(content).digest('hex')`. */
export function createHash(name: 'sha256') {
  if (name !== 'sha256') throw new Error(`the page knows no ${name}`);
  return {
    update: (content: Uint8Array | string) => ({
      digest: (_form: 'hex'): string =>
        sha256(typeof content === 'string' ? new TextEncoder().encode(content) : content),
    }),
  };
}
