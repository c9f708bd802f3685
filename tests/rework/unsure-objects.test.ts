import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { penetrations } from '../../lib/format/stitches.js';
import { resew } from '../../lib/rework/resew.js';
import { unsureObjects } from '../../lib/rework/unsure-objects.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { UNSURE } from '../../lib/segment/objects.js';
import { FAMILIES } from '../generators/families/index.js';

const { design } = FAMILIES['plain-columns'](3);
const stitches = penetrations(design);
const found = findObjects(stitches);
/** The same objects, the second one hardly surer than a guess. */
const objects = found.map((object, k) => ({ ...object, confidence: k === 1 ? UNSURE - 0.01 : UNSURE }));
const [sure, doubtful] = objects;
const BY = { x: 0.08, y: 0.08, dx: 0, dy: 0 };

describe('objects of which it is not sure what they are', () => {
  it('are those below the limit, unless a person names them', () => {
    expect([...unsureObjects(objects)]).toEqual([doubtful.id]);
    expect([...unsureObjects(objects, [doubtful.id])]).toEqual([]);
    expect([...unsureObjects(objects, [sure.id])]).toEqual([doubtful.id]);
  });

  it('cannot be named where there is none of that number', () => {
    const named = () => unsureObjects(objects, [objects.length + 1]);
    expect(named).toThrow(LieflatError);
    expect(named).toThrow(`there is no object ${objects.length + 1}, the design has ${objects.length}`);
  });

  it('grow stitch by stitch where others are sewn anew', () => {
    const wish = { mode: 'regenerate', by: BY, offsetGiven: true, threadMm: 0.4, slackMm: 0 } as const;
    const { chosen } = resew({ design, stitches, objects }, { ...wish, unsure: unsureObjects(objects) });
    const counts = (of: typeof objects | typeof chosen.written.objects) =>
      of.map(({ range: [first, last] }) => last - first);
    const [was, is] = [counts(objects), counts(chosen.written.objects)];
    expect(is[1]).toBe(was[1]);
    expect(is[0]).toBeGreaterThan(was[0]);
    const at = chosen.written.objects[1].range[0] - doubtful.range[0];
    const all = Array.from({ length: stitches.count }, (_, i) => i);
    const middle = (values: Float64Array) =>
      (Math.min(...all.map((i) => values[i])) + Math.max(...all.map((i) => values[i]))) / 2;
    const [cx, cy] = [middle(stitches.x), middle(stitches.y)];
    for (let i = doubtful.range[0]; i <= doubtful.range[1]; i++) {
      expect(Math.abs(chosen.written.stitches.x[i + at] - cx - 1.08 * (stitches.x[i] - cx))).toBeLessThan(
        0.051,
      );
      expect(Math.abs(chosen.written.stitches.y[i + at] - cy - 1.08 * (stitches.y[i] - cy))).toBeLessThan(
        0.051,
      );
    }
  });
});
