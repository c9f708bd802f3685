import { describe, expect, it } from 'vitest';
import { fieldHolds, HOOP_FIELDS, type HoopField, PLACES, type Place } from '../../lib/materials/places.js';
import { Sketch, type Vec } from '../measure/sketch.js';
import { said } from './said.js';
import { contextOf, found } from './vetted.js';

const box = (width: number, height: number) =>
  new Sketch().run([
    [5, 5],
    [5 + width, 5],
    [5 + width, 5 + height],
    [5, 5 + height],
  ]);
const place = (id: string): Place => PLACES.find((p) => p.id === id) as Place;
const hoop = (id: string): HoopField => HOOP_FIELDS.find((h) => h.id === id) as HoopField;

describe('a place that was chosen', () => {
  const at = (id: string, width: number, height: number) =>
    found('does-not-fit-place', box(width, height), { place: place(id) });

  it('takes what is no larger', () => {
    expect(at('left-chest', 100, 100)).toEqual([]);
    expect(at('cap-front', 110, 57)).toEqual([]);
    expect(found('does-not-fit-place', box(900, 900))).toEqual([]);
  });

  it('notes what usual sizes range over, warns of what is larger, and fails what is much larger', () => {
    const [little] = at('jacket-back', 280.2, 280.2);
    expect(little).toMatchObject({ severity: 'note', measured: 280.2, limit: 280, fix: null });
    expect(said(little)).toContain('usually takes 280 mm');
    expect(said(little)).not.toContain('Make the design smaller');
    expect(at('left-chest', 115, 90)).toMatchObject([{ severity: 'note', limit: 100 }]);
    const [wide] = at('left-chest', 120, 90);
    expect(wide).toMatchObject({ severity: 'warn', object: null, measured: 120, limit: 115, unit: 'mm' });
    expect(said(wide)).toContain('at most about 115 mm');
    const [tall] = at('left-chest', 104, 140);
    expect(tall).toMatchObject({ severity: 'fail', measured: 140, limit: 115 });
    expect(said(tall)).toContain('high');
  });

  it('takes the size that a shop gave for the largest', () => {
    const own = { value: 90, low: 90, high: 90, unit: 'mm', basis: 'ours' };
    const ours = { ...place('left-chest'), widthMm: own, heightMm: own };
    expect(found('does-not-fit-place', box(90.2, 60), { place: ours })).toMatchObject([
      { severity: 'warn', limit: 90 },
    ]);
  });

  it('fails anything larger where a frame sets the limit, and warns of the needle', () => {
    const [cap] = at('cap-front', 100, 58);
    expect(cap).toMatchObject({ severity: 'fail', measured: 58, limit: 57 });
    expect(said(cap)).toContain('needle');
  });

  it('does not mind a design without stitches', () => {
    expect(found('does-not-fit-place', new Sketch(), { place: place('cuff') })).toEqual([]);
  });
});

/** A ring of needle points, away from the origin. */
const disc = (acrossMm: number): Vec[] =>
  Array.from({ length: 90 }, (_, i): Vec => {
    const a = (i * 2 * Math.PI) / 90;
    return [60 + (acrossMm / 2) * Math.cos(a), 30 + (acrossMm / 2) * Math.sin(a)];
  });

describe('a hoop that was chosen', () => {
  const tabs = (id: string, sketch: Sketch) => found('does-not-fit-hoop', sketch, { hoop: hoop(id) });

  it('fails what is larger than its field, with a caution', () => {
    expect(tabs('flat-130x180', box(130, 180))).toEqual([]);
    const [wide] = tabs('flat-130x180', box(131, 60));
    expect(wide).toMatchObject({ severity: 'fail', object: null, measured: 131, limit: 130, unit: 'mm' });
    expect(said(wide)).toContain('breaks');
    expect(said(wide)).toContain('Turn it a quarter and it fits');
    const [high] = tabs('flat-130x180', box(100, 190));
    expect(high).toMatchObject({ measured: 190, limit: 180 });
    expect(said(high)).not.toContain('Turn it');
  });

  it('measures a round field across, from the middle of the design', () => {
    // 90 × 90 fits 100 mm as a box; its corners reach 127 mm across
    expect(tabs('round-120', box(70, 70))).toEqual([]);
    const [corner] = tabs('round-120', box(90, 90));
    expect(corner).toMatchObject({ severity: 'fail', limit: 100 });
    expect(corner.measured).toBeCloseTo(90 * Math.SQRT2, 9);
    expect(tabs('round-120', new Sketch().run(disc(98)))).toEqual([]);
    expect(
      tabs(
        'round-120',
        new Sketch().run([
          [0, 0],
          [100, 0],
        ]),
      ),
    ).toEqual([]);
  });
});

describe('room in a hoop that was chosen', () => {
  const room = (id: string, sketch: Sketch) => found('little-room-in-hoop', sketch, { hoop: hoop(id) });

  it('is noted below 3 mm on a side, with a caution', () => {
    const [cap] = room('cap-frame', box(108, 56.3));
    expect(cap).toMatchObject({ severity: 'note', unit: 'mm', limit: 3, params: { side: 'height' } });
    expect(cap.measured).toBeCloseTo(0.35, 9);
    expect(said(cap)).toMatch(/only 0\.35 mm .*left on each side.*trace the design before sewing/);
    expect(said(room('flat-100x100', box(100, 100))[0])).toContain('nothing of its field is left');
    expect(room('round-120', new Sketch().run(disc(95)))).toMatchObject([{ params: { side: 'across' } }]);
  });

  it('is no matter where there is enough, or where the hoop does not hold the design at all', () => {
    expect(room('cap-frame', box(124, 51))).toEqual([]);
    expect(room('flat-100x100', box(101, 99))).toEqual([]);
    expect(found('little-room-in-hoop', box(100, 100))).toEqual([]);
    expect(found('little-room-in-hoop', new Sketch(), { hoop: hoop('cap-frame') })).toEqual([]);
  });
});

describe('whether a field holds a design', () => {
  it('is said alike by the finding and by whoever looks for a hoop', () => {
    const shapes = [
      box(49, 49),
      box(50, 50),
      box(40, 60),
      box(100, 20),
      box(4, 69),
      new Sketch().run(disc(69)),
    ];
    for (const sketch of shapes) {
      const { measures } = contextOf(sketch, {});
      for (const field of HOOP_FIELDS)
        expect(fieldHolds(field, measures), field.id).toBe(
          found('does-not-fit-hoop', sketch, { hoop: field }).length === 0,
        );
    }
  });

  it('goes by the circle in a round one: a disc of its own size fits, a square of that size does not', () => {
    const holds = (sketch: Sketch) => fieldHolds(hoop('round-90'), contextOf(sketch, {}).measures);
    expect(hoop('round-90').widthMm.value).toBe(70);
    expect([holds(new Sketch().run(disc(69))), holds(box(69, 69)), holds(box(49, 49))]).toEqual([
      true,
      false,
      true,
    ]);
  });
});

describe('places and hoops', () => {
  it('have the usual sizes of left chest and cap front (common practice, no source)', () => {
    expect(place('left-chest')).toMatchObject({ widthMm: { value: 100 }, heightMm: { value: 100 } });
    expect(place('cap-front').heightMm.value).toBe(57);
  });

  it('have ids of their own, and figures with range, unit and basis', () => {
    for (const list of [PLACES, HOOP_FIELDS]) {
      expect(new Set(list.map(({ id }) => id)).size).toBe(list.length);
      for (const { id, name, widthMm, heightMm } of list) {
        expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
        expect(name).not.toBe('');
        for (const { value, low, high, unit, basis } of [widthMm, heightMm]) {
          expect(low).toBeLessThanOrEqual(value);
          expect(high).toBeGreaterThanOrEqual(value);
          expect(low).toBeGreaterThan(0);
          expect(unit).toBe('mm');
          expect(basis).not.toBe('');
        }
      }
    }
  });
});

describe('the file', () => {
  it('without a stitch fails', () => {
    expect(found('no-stitches', new Sketch().jump([3, 3]))).toMatchObject([
      { severity: 'fail', measured: 0 },
    ]);
    expect(found('no-stitches', new Sketch().sew([0, 0]))).toEqual([]);
  });

  it('has each of its oddities passed on, with offset and figures', () => {
    const sketch = new Sketch().sew([0, 0]);
    sketch.diagnostics.push(
      {
        code: 'file-record-count',
        params: { key: 'ST', claimed: 12, counted: 10 },
        byte: 20,
        measured: 10,
        expected: 12,
      },
      { code: 'file-header-line-ends', params: {}, byte: 7 },
      { code: 'file-header-field-extra', params: { keys: ['AU'] }, byte: 124, measured: 'AU' },
      { code: 'table-blank-lines', params: {}, line: 3 },
      { code: 'file-unknown-record', params: {} },
    );
    const place = { byte: 20, line: null, more: 0, cutOff: false };
    expect(found('file-record-count', sketch)).toMatchObject([
      {
        severity: 'warn',
        object: null,
        stitch: null,
        at: null,
        measured: 10,
        limit: 12,
        params: { key: 'ST', claimed: 12, counted: 10, ...place },
      },
    ]);
    expect(found('file-header-line-ends', sketch)).toMatchObject([
      { severity: 'note', measured: null, limit: null, params: { byte: 7 } },
    ]);
    expect(found('file-header-field-extra', sketch)).toMatchObject([
      { severity: 'note', measured: 'AU', params: { keys: ['AU'] } },
    ]);
    const [row] = found('table-blank-lines', sketch);
    expect(row.severity).toBe('warn');
    expect(said(row)).toBe('Blank lines were passed over (line 3).');
    expect(said(found('file-unknown-record', sketch)[0])).toBe(
      "Codes that are not known were read as jumps. Look the design over on the machine's screen before you sew it, or get the file again.",
    );
  });

  it('does not have the same oddity told a thousand times', () => {
    const sketch = new Sketch().sew([0, 0]);
    for (let i = 0; i < 1000; i++)
      sketch.diagnostics.push({ code: 'file-header-padding', params: {}, byte: i });
    const findings = found('file-header-padding', sketch);
    expect(findings).toHaveLength(4);
    expect(said(findings[3])).toContain('996 more');
    expect(said(findings[2])).not.toContain('more');
  });
});
