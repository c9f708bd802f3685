/** Designs for tests: built by hand, and drawn at random. */
import fc from 'fast-check';
import { type Design, KIND_NAMES, type KindName } from '../../lib/format/design.js';

export type Row = readonly [x: number, y: number, kind: KindName, thread?: number];

/** A design out of rows of x, y (mm) and kind. */
export function designOf(rows: readonly Row[], header: Design['header'] = []): Design {
  const hasThread = rows.some((row) => row[3] !== undefined);
  return {
    x: Float64Array.from(rows, (row) => row[0]),
    y: Float64Array.from(rows, (row) => row[1]),
    kind: Uint8Array.from(rows, (row) => KIND_NAMES.indexOf(row[2])),
    thread: hasThread ? Int32Array.from(rows, (row) => row[3] ?? 0) : null,
    header,
    diagnostics: [],
    format: 'csv',
  };
}

/** The rows of a design: what tests compare. */
export function rowsOf(design: Design): Row[] {
  return Array.from(design.kind, (code, i) => [design.x[i], design.y[i], KIND_NAMES[code]] as const);
}

/** Any design: positions in mm at any fineness, kinds in any order, moves of any length up to 50 mm. */
export const anyDesign: fc.Arbitrary<Design> = fc
  .array(
    fc.record({
      dx: fc.oneof(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
      ),
      dy: fc.oneof(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
      ),
      kind: fc.constantFrom<KindName>('stitch', 'stitch', 'stitch', 'jump', 'trim', 'colour', 'stop'),
    }),
    { maxLength: 60 },
  )
  .map((moves) => {
    let x = 0;
    let y = 0;
    return designOf(
      moves.map(({ dx, dy, kind }) => {
        x += dx;
        y += dy;
        return [x, y, kind] as const;
      }),
    );
  });

/**
 * Designs that a three-byte file can say word for word: whole tenths of a millimetre, no move past 12.1 mm but a trim's,
 * at most two jumps in a row and none beside a trim, an end where the last record stands.
 */
export const plainDesign: fc.Arbitrary<Design> = fc
  .array(
    fc.oneof(
      fc.record({ kind: fc.constant<KindName>('stitch'), dx: reach(121), dy: reach(121) }),
      fc.record({ kind: fc.constantFrom<KindName>('colour', 'stop'), dx: reach(121), dy: reach(121) }),
      fc.record({ kind: fc.constant<KindName>('jump'), dx: reach(121), dy: reach(121) }),
      fc.record({ kind: fc.constant<KindName>('trim'), dx: reach(3000), dy: reach(3000) }),
    ),
    { maxLength: 200 },
  )
  .map((moves) => {
    const rows: Row[] = [];
    let x = 0;
    let y = 0;
    for (const { dx, dy, kind } of moves) {
      const before = rows.at(-1)?.[2];
      const afterMove = before === 'trim' || before === 'jump';
      const twoJumps = before === 'jump' && rows.at(-2)?.[2] === 'jump';
      if (kind === 'trim' && afterMove) continue;
      if (kind === 'jump' && (before === 'trim' || twoJumps)) continue;
      x += dx;
      y += dy;
      rows.push([x / 10, y / 10, kind]);
    }
    rows.push([x / 10, y / 10, 'end']);
    return designOf(rows);
  });

function reach(units: number): fc.Arbitrary<number> {
  return fc.integer({ min: -units, max: units });
}
