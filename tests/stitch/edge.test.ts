import { describe, expect, it } from 'vitest';
import { type Edge, edgeAt, mapEdge, nearestCorner } from '../../lib/stitch/edge.js';

const LINE: Edge = { t: [0, 2, 6], x: [0, 4, 4], y: [1, 1, 9] };

describe('an edge', () => {
  it('is straight from corner to corner, and straight on beyond its ends', () => {
    expect(edgeAt(LINE, 0)).toEqual([0, 1]);
    expect(edgeAt(LINE, 1)).toEqual([2, 1]);
    expect(edgeAt(LINE, 2)).toEqual([4, 1]);
    expect(edgeAt(LINE, 3)).toEqual([4, 3]);
    expect(edgeAt(LINE, 6)).toEqual([4, 9]);
    expect(edgeAt(LINE, 8)).toEqual([4, 13]);
    expect(edgeAt(LINE, -1)).toEqual([-2, 1]);
  });

  it('of one corner is there at every count', () => {
    const point: Edge = { t: [3], x: [5], y: [6] };
    expect(edgeAt(point, 0)).toEqual([5, 6]);
    expect(nearestCorner(point, 9)).toBe(0);
  });

  it('knows the corner nearest to a count, the earlier of two as near', () => {
    expect([-3, 0.9, 1, 1.1, 3.9, 4, 4.1, 70].map((t) => nearestCorner(LINE, t))).toEqual([
      0, 0, 0, 1, 1, 1, 2, 2,
    ]);
  });

  it('keeps its counts where its corners move', () => {
    expect(mapEdge(LINE, (x, y, t) => [x + t, -y])).toEqual({ t: [0, 2, 6], x: [0, 6, 10], y: [-1, -1, -9] });
  });
});
