import { describe, expect, it } from 'vitest';
import { Sketch, type Vec } from '../measure/sketch.js';
import { said } from './said.js';
import { found } from './vetted.js';

const column = (
  width: number,
  more: { spacing?: number; broken?: boolean } = {},
  under?: Parameters<Sketch['satin']>[2],
) => new Sketch(0.1).satin([0, 0], { width, length: 16, ...more }, under);

describe('satin too wide', () => {
  it('is a warning from 7 mm and a failure from 12.1 mm', () => {
    expect(found('satin-too-wide', column(6.8))).toEqual([]);
    const [warning] = found('satin-too-wide', column(7.4));
    expect(warning).toMatchObject({ severity: 'warn', object: 1, limit: 7, unit: 'mm' });
    expect(warning.measured).toBeCloseTo(7.4, 2);
    expect(said(warning)).toContain('7.4 mm (0.29 in)');
    expect(said(warning)).toContain('snag');
    expect(said(found('satin-too-wide', column(12.6))[0])).toContain('jumps');
    expect(found('satin-too-wide', column(12.6))).toMatchObject([{ severity: 'fail', limit: 12.1 }]);
  });

  it('says where, and names the stitch that is there', () => {
    const sketch = column(7.4);
    const [{ stitch, at }] = found('satin-too-wide', sketch);
    const { x, y } = sketch.penetrations();
    expect(at).toEqual({ x: x[stitch ?? -1], y: y[stitch ?? -1] });
  });

  it('is not said of split satin', () => {
    expect(found('satin-too-wide', column(9, { broken: true }))).toEqual([]);
  });

  it('is not said for the one swing across a corner', () => {
    const rails = Array.from({ length: 81 }, (_, i): Vec => [i % 2 === 0 ? 0 : i === 41 ? 8 : 5, i * 0.2]);
    expect(found('satin-too-wide', new Sketch().column(rails))).toEqual([]);
  });
});

describe('satin too narrow', () => {
  it('is said below 1 mm', () => {
    expect(found('satin-too-narrow', column(1))).toEqual([]);
    expect(found('satin-too-narrow', column(0.8))).toMatchObject([
      { severity: 'warn', object: 1, stitch: 0, at: { x: 0, y: 0 }, limit: 1 },
    ]);
  });

  it('is not said of a column that only ends in a point', () => {
    const rails = Array.from({ length: 81 }, (_, i): Vec => {
      const w = Math.min(3, 0.1 + i * 0.1);
      return [i % 2 === 0 ? -w / 2 : w / 2, i * 0.2];
    });
    expect(found('satin-too-narrow', new Sketch().column(rails))).toEqual([]);
  });
});

describe('wide satin on heavy underlay', () => {
  const on = (width: number, ...under: ('zigzag' | 'double-zigzag' | 'edge-run' | 'fill')[]) =>
    found('wide-satin-heavy-underlay', column(width, {}, { under }));

  it('is a warning on double zigzag from 3 mm', () => {
    expect(on(2.8, 'double-zigzag')).toEqual([]);
    expect(on(4.5, 'edge-run', 'double-zigzag')).toMatchObject([
      { severity: 'warn', object: 1, stitch: 0, limit: 3 },
    ]);
    expect(said(on(4.5, 'double-zigzag')[0])).toContain('double zigzag');
  });

  it('is a note on zigzag from 3 mm and a warning from 6 mm', () => {
    expect(on(2.8, 'zigzag')).toEqual([]);
    expect(on(4.5, 'zigzag')).toMatchObject([{ severity: 'note', limit: 3 }]);
    expect(on(6.5, 'zigzag')).toMatchObject([{ severity: 'warn', limit: 6 }]);
  });

  it('is not said of edge run or light fill', () => {
    expect(on(6.5, 'edge-run')).toEqual([]);
    expect(on(6.5, 'fill')).toEqual([]);
  });
});

describe('wide satin without underlay', () => {
  it('is said from 2.5 mm, and not over any underlay', () => {
    expect(found('wide-satin-no-underlay', column(2.3))).toEqual([]);
    expect(found('wide-satin-no-underlay', column(4))).toMatchObject([
      { severity: 'warn', object: 1, stitch: 0, limit: 2.5 },
    ]);
    expect(found('wide-satin-no-underlay', column(4, {}, { under: ['center-run'] }))).toEqual([]);
  });

  it('is not said of fills and runs', () => {
    const sketch = new Sketch()
      .run([
        [0, 0],
        [2, 0],
      ])
      .rows([0, 0.4, 0.8, 1.2].map((y) => [y, 0, 12] as const));
    expect(found('wide-satin-no-underlay', sketch)).toEqual([]);
  });
});

describe('satin spacing', () => {
  it('is too dense below 0.3 mm and a failure below 0.2 mm', () => {
    expect(found('satin-too-dense', column(4, { spacing: 0.35 }))).toEqual([]);
    expect(
      found('satin-too-dense', new Sketch().satin([0, 0], { width: 4, length: 9, spacing: 0.25 })),
    ).toMatchObject([{ severity: 'warn', object: 1, limit: 0.3, unit: 'mm' }]);
    expect(
      found('satin-too-dense', new Sketch().satin([0, 0], { width: 4, length: 9, spacing: 0.15 })),
    ).toMatchObject([{ severity: 'fail', limit: 0.2 }]);
  });

  it('is too open above 0.55 mm, a warning above 0.7 mm', () => {
    expect(found('satin-too-open', column(4, { spacing: 0.5 }))).toEqual([]);
    expect(found('satin-too-open', column(4, { spacing: 0.6 }))).toMatchObject([
      { severity: 'note', limit: 0.55 },
    ]);
    expect(found('satin-too-open', column(4, { spacing: 0.9 }))).toMatchObject([
      { severity: 'warn', limit: 0.7 },
    ]);
  });

  it('is not said of fills', () => {
    const open = new Sketch().rows([0, 3, 6, 9].map((y) => [y, 0, 12] as const));
    expect(found('satin-too-open', open)).toEqual([]);
    expect(found('fill-too-open', column(4, { spacing: 1 }))).toEqual([]);
  });
});
