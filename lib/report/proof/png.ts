import type { Pixels } from './thread-raster.js';

/** CRC-32 of a chunk (PNG, third edition, annex D). */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = crc & 1 ? 0xedb88320 ^ (crc >>> 1) : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** Signature and header chunk: what comes before all others. */
const HEAD_BYTES = 8 + 25;

/** A PNG file that says how large it is meant to be (chunk pHYs, 11.3.4.3), so that it prints at true size. */
export async function pngOf({ width, height, data }: Pixels, perMm: number): Promise<Uint8Array> {
  const { encode } = await import('fast-png');
  const file = encode({ width, height, data, channels: 3, depth: 8 });
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set([0x70, 0x48, 0x59, 0x73], 4);
  const perMetre = Math.round(perMm * 1000);
  view.setUint32(8, perMetre);
  view.setUint32(12, perMetre);
  chunk[16] = 1;
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  const out = new Uint8Array(file.length + chunk.length);
  out.set(file.subarray(0, HEAD_BYTES));
  out.set(chunk, HEAD_BYTES);
  out.set(file.subarray(HEAD_BYTES), HEAD_BYTES + chunk.length);
  return out;
}
