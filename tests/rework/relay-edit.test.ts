import { describe, expect, it } from 'vitest';
import { Kind } from '../../lib/format/design.js';
import { penetrations } from '../../lib/format/stitches.js';
import { relayEdit } from '../../lib/rework/relay-edit.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { LaidUnderlay } from '../../lib/stitch/laid-underlay.js';
import type { LayWay } from '../../lib/stitch/thread-under.js';
import { LAY_SETTINGS } from '../../lib/stitch/underlay-settings.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, walk, zigzag } from '../segment/board.js';

const way = (to: LaidUnderlay): LayWay => ({
  to,
  settings: LAY_SETTINGS,
  keptMm: 0.5,
  locks: false,
  travelAt: 0,
  endsEarly: false,
});

const up = (points: readonly Vec[]) => points.map(({ x, y }) => vec(x, y + 12));
/** Two columns, each over a run, with a cut between them. */
function columns(): Board {
  const run = walk(2, vec(0.5, 0), vec(19.5, 0));
  const top = zigzag(vec(20, 0), vec(0, 0), 5, 0.4);
  const board = new Board().sew(run, top);
  board.move('trim');
  return board.sew(up(run), up(top));
}

const edited = (board: Board, ways: ReadonlyMap<number, LayWay>) => {
  const { design, stitches } = board;
  const objects = findObjects(stitches);
  const edit = relayEdit(design, stitches, objects, ways);
  return { objects, stitches, edit, after: penetrations(edit.design) };
};

describe('new underlay as a change to the records of a design', () => {
  it.each(['fill', 'zigzag', 'edge-run'] as const)(
    'lays %s and leaves every top stitch where it was, in order',
    (to) => {
      const { objects, stitches, edit, after } = edited(columns(), new Map([[1, way(to)]]));
      expect([...edit.refused]).toEqual([]);
      let before = -1;
      for (const { range } of objects) {
        for (let i = range[0]; i <= range[1]; i++) {
          const at = edit.movedTo[i];
          expect(at).toBeGreaterThan(before);
          before = at;
          expect(after.x[at]).toBeCloseTo(stitches.x[i], 9);
          expect(after.y[at]).toBeCloseTo(stitches.y[i], 9);
        }
      }
      const [first, last] = edit.laid.get(1)!;
      expect(last - first).toBeGreaterThan(8);
      expect(last).toBeLessThan(edit.movedTo[objects[0].range[0]]);
      for (let i = first; i <= last; i++) expect(Math.abs(after.y[i])).toBeLessThanOrEqual(2);
    },
  );

  it('takes the old underlay out, and no other', () => {
    const { objects, edit } = edited(columns(), new Map([[1, way('fill')]]));
    const [one, two] = objects.map(({ underlay }) => underlay.range!);
    for (let i = one[0]; i < one[1]; i++) expect(edit.movedTo[i]).toBe(-1);
    for (let i = two[0]; i <= two[1]; i++) expect(edit.movedTo[i]).toBeGreaterThanOrEqual(0);
  });

  it('keeps what the machine does besides sewing', () => {
    const { design } = columns();
    const { edit } = edited(
      columns(),
      new Map([
        [1, way('fill')],
        [2, way('zigzag')],
      ]),
    );
    const controls = (kinds: Uint8Array) =>
      [...kinds].filter((kind) => kind !== Kind.stitch && kind !== Kind.jump);
    expect(controls(edit.design.kind)).toEqual(controls(design.kind));
    expect(edit.laid.size).toBe(2);
  });

  it('changes nothing where nothing is asked for', () => {
    const { stitches, edit, after } = edited(columns(), new Map());
    expect([...after.x]).toEqual([...stitches.x]);
    expect(edit.laid.size).toBe(0);
  });

  it('refuses a column that has no room, and says so', () => {
    const board = new Board().sew(
      walk(2, vec(0.5, 0), vec(19.5, 0)),
      zigzag(vec(20, 0), vec(0, 0), 1.8, 0.4),
    );
    expect(edited(board, new Map([[1, way('fill')]])).edit.refused.get(1)).toBe('no-room');
  });
});
