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
export function decodeAndSum(bytes: Uint8Array): number {
  let sum = 0;
  for (let i = 512; i + 2 < bytes.length; i += 3)
    sum += alongX(bytes[i], bytes[i + 1], bytes[i + 2]) + alongY(bytes[i], bytes[i + 1], bytes[i + 2]);
  return sum;
}

function alongX(a: number, b: number, c: number): number {
  let x = 0;
  if (a & 0x01) x += 1;
  if (a & 0x02) x -= 1;
  if (a & 0x04) x += 9;
  if (a & 0x08) x -= 9;
  if (b & 0x01) x += 3;
  if (b & 0x02) x -= 3;
  if (b & 0x04) x += 27;
  if (b & 0x08) x -= 27;
  if (c & 0x04) x += 81;
  if (c & 0x08) x -= 81;
  return x;
}

function alongY(a: number, b: number, c: number): number {
  let y = 0;
  if (a & 0x80) y += 1;
  if (a & 0x40) y -= 1;
  if (a & 0x20) y += 9;
  if (a & 0x10) y -= 9;
  if (b & 0x80) y += 3;
  if (b & 0x40) y -= 3;
  if (b & 0x20) y += 27;
  if (b & 0x10) y -= 27;
  if (c & 0x20) y += 81;
  if (c & 0x10) y -= 81;
  return y;
}
