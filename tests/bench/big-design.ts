/** Large designs for the bench: a sample, sewn one below the other as on a long banner as often as it takes. */
import type { Design } from '../../lib/index.js';

type Lib = typeof import('../../lib/index.js');

const TILE_MM = 300;

/** Bytes of a `.dst` file with about `stitches` needle points, cut from whole samples. */
export async function bigDesign(lib: Lib, stitches: number): Promise<Uint8Array> {
  const sample = stitches < 50_000 ? 'crest.dst' : 'jacket-back.dst';
  const { design } = await lib.readDesignFile(new URL(`../../samples/${sample}`, import.meta.url).pathname);
  const { jump, stitch, trim, end } = lib.Kind;
  const records = design.kind.length - (design.kind.at(-1) === end ? 1 : 0);
  let perTile = 0;
  for (let i = 0; i < records; i++) if (design.kind[i] === stitch) perTile++;
  const tiles = Math.max(1, Math.round(stitches / perTile));
  const n = tiles * records + 1;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const kind = new Uint8Array(n);
  for (let t = 0, k = 0; t < tiles; t++) {
    for (let i = 0; i < records; i++, k++) {
      x[k] = design.x[i];
      y[k] = design.y[i] - t * TILE_MM;
      // the way to the next tile is a trim
      kind[k] = t > 0 && i === 0 && design.kind[i] !== jump ? trim : design.kind[i];
    }
  }
  x[n - 1] = x[n - 2];
  y[n - 1] = y[n - 2];
  kind[n - 1] = end;
  const whole: Design = { x, y, kind, thread: null, header: [], diagnostics: [], format: 'dst' };
  return lib.encodeDesign(whole, 'dst');
}

/** The least that any reader must do: decode every record of three bytes and add up the moves. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: a bit a line, and what figures are measured by stays as it was
export function decodeAndSum(bytes: Uint8Array): number {
  let sumX = 0;
  let sumY = 0;
  for (let i = 512; i + 2 < bytes.length; i += 3) {
    const a = bytes[i];
    const b = bytes[i + 1];
    const c = bytes[i + 2];
    if (a & 0x01) sumX += 1;
    if (a & 0x02) sumX -= 1;
    if (a & 0x04) sumX += 9;
    if (a & 0x08) sumX -= 9;
    if (a & 0x80) sumY += 1;
    if (a & 0x40) sumY -= 1;
    if (a & 0x20) sumY += 9;
    if (a & 0x10) sumY -= 9;
    if (b & 0x01) sumX += 3;
    if (b & 0x02) sumX -= 3;
    if (b & 0x04) sumX += 27;
    if (b & 0x08) sumX -= 27;
    if (b & 0x80) sumY += 3;
    if (b & 0x40) sumY -= 3;
    if (b & 0x20) sumY += 27;
    if (b & 0x10) sumY -= 27;
    if (c & 0x04) sumX += 81;
    if (c & 0x08) sumX -= 81;
    if (c & 0x20) sumY += 81;
    if (c & 0x10) sumY -= 81;
  }
  return sumX + sumY;
}
