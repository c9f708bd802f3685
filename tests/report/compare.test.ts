import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Design } from '../../lib/format/design.js';
import { compareToText } from '../../lib/report/compare/document.js';
import { type CompareReport, compareReports } from '../../lib/report/compare/report.js';
import type { FindingReport, ObjectReport, VetReport } from '../../lib/report/vet/report.js';
import { SHOP } from '../built-in-shop.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { anyReport } from './any-report.js';
import { littleCrest, Needle } from './little-design.js';
import { FILE, THIN } from './on-fabric.js';

onACoarseMesh();

const reportOf = (design: Design, path = 'crest.dst'): VetReport =>
  SHOP.vet(design, { file: { path, format: 'dst', bytes: 1, sha256: '00'.repeat(32) } }).report;

const OPTIONS = { width: 80, units: 'mm' } as const;
const changesOf = (result: CompareReport, before: number): string[] =>
  result.objects.changed.find((o) => o.before === before)?.changes.map((c) => c.what) ?? [];

/** Columns like the strokes of a name, sewn in the order of the list. */
function name(order: readonly number[], change: (n: number) => object = () => ({})): Design {
  const needle = new Needle();
  for (const n of order) needle.column(n * 6, 0, { width: 2 + 0.3 * n, height: 12, ...change(n) });
  return needle.end();
}

/** The same report with its objects sewn in another order. */
function reordered(report: VetReport, order: readonly number[]): VetReport {
  const newId = new Map(order.map((i, k) => [report.objects[i].id, k + 1]));
  return {
    ...report,
    objects: order.map((i, k) => ({ ...report.objects[i], id: k + 1 })),
    findings: report.findings
      .map((f) => ({ ...f, object: f.object === null ? null : newId.get(f.object)! }))
      .reverse(),
  };
}

describe('comparing two versions of a design', () => {
  it('finds no difference between a design and itself', () => {
    const report = reportOf(littleCrest());
    const result = compareReports(report, report);
    expect(result.design).toEqual([]);
    expect(result.objects).toEqual({
      before: 3,
      after: 3,
      unchanged: 3,
      alike: 3,
      changed: [],
      removed: [],
      added: [],
    });
    expect([...result.findings.lost, ...result.findings.gained]).toEqual([]);
    expect(compareToText(result, OPTIONS)).toBe('No difference: crest.dst -> crest.dst\n');
  });

  it('says which column was widened, and what that brought', () => {
    const before = reportOf(name([0, 1, 2, 3, 4, 5]));
    const after = reportOf(name([0, 1, 2, 3, 4, 5], (n) => (n === 5 ? { width: 8 } : {})));
    const result = compareReports(before, after);
    expect(result.objects.changed.map((o) => o.before)).toEqual([6]);
    const width = result.objects.changed[0].changes.find((c) => c.what === 'widthMm.median')!;
    expect(width.before).toBeCloseTo(3.5, 1);
    expect(width.after).toBeCloseTo(8, 1);
    expect(result.findings.gained.map((f) => f.code)).toContain('satin-too-wide');
    expect(result.findings.gained.every((f) => f.object === 6)).toBe(true);
    expect(result.findings.lost.filter((f) => f.severity !== 'note')).toEqual([]);
    expect(compareToText(result, OPTIONS)).toMatch(/^Worse: /);
    expect(compareToText(compareReports(after, before), OPTIONS)).toMatch(/^Better: /);
  });

  it('says which spacing and which underlay changed', () => {
    const before = reportOf(name([0, 1, 2, 3]));
    const after = reportOf(
      name([0, 1, 2, 3], (n) => (n === 1 ? { spacing: 0.5 } : n === 2 ? { underlay: 'center-run' } : {})),
    );
    const result = compareReports(before, after);
    expect(changesOf(result, 2)).toContain('spacingMm.median');
    expect(changesOf(result, 3)).toContain('underlay.kinds');
    expect(changesOf(result, 3)).not.toContain('widthMm.median');
    expect(result.objects.unchanged).toBe(2);
  });

  it('says what was taken out and what was added', () => {
    const result = compareReports(reportOf(name([0, 1, 2, 3, 4])), reportOf(name([0, 1, 3, 4, 9])));
    expect(result.objects.removed).toEqual([3]);
    expect(result.objects.added).toEqual([5]);
    expect(result.objects.unchanged).toBe(4);
  });

  it('does not count sewing order', () => {
    const result = compareReports(reportOf(name([0, 1, 2, 3, 4, 5])), reportOf(name([4, 2, 0, 5, 1, 3])));
    expect(result.objects).toMatchObject({ unchanged: 6, changed: [], removed: [], added: [] });
    expect([...result.findings.lost, ...result.findings.gained]).toEqual([]);
  });

  it('pairs the objects of a design that was moved as a whole', () => {
    const before = reportOf(name([0, 1, 2, 3, 4, 5]));
    const design = name([0, 1, 2, 3, 4, 5]);
    const result = compareReports(
      before,
      reportOf({ ...design, x: design.x.map((x) => x + 6), y: design.y.map((y) => y - 40) }),
    );
    expect(result.objects.removed).toEqual([]);
    expect(result.objects.changed.map((o) => [o.before, o.after])).toEqual(
      [1, 2, 3, 4, 5, 6].map((n) => [n, n]),
    );
    for (const { changes } of result.objects.changed) {
      expect(changes.map((c) => c.what)).toEqual(['centreX', 'centreY']);
    }
  });

  it('pairs the objects of a design that was enlarged', () => {
    const order = Array.from({ length: 24 }, (_, i) => i);
    const design = name(order);
    const result = compareReports(
      reportOf(design),
      reportOf({ ...design, x: design.x.map((x) => x * 1.1), y: design.y.map((y) => y * 1.1) }),
    );
    expect(result.objects.removed).toEqual([]);
    expect(result.objects.changed.map((o) => [o.before, o.after])).toEqual(order.map((i) => [i + 1, i + 1]));
    const wider = result.objects.changed.filter((o) => o.changes.some((c) => c.what === 'widthMm.median'));
    expect(wider).toHaveLength(24);
  });

  it('tells findings of the same code on different objects apart', () => {
    const report = reportOf(name([0, 1, 2]));
    const finding = (object: number | null): FindingReport => ({
      code: 'satin-too-wide',
      params: { widthMm: 8, past: 'snag', over: null },
      fix: null,
      severity: 'warn',
      object,
      stitch: null,
      at: null,
      measured: null,
      limit: null,
      unit: null,
      message: 'wide',
      basis: 'invented',
    });
    const result = compareReports(
      { ...report, findings: [finding(1), finding(2), finding(null)] },
      { ...report, findings: [finding(2), finding(3), finding(null), finding(null)] },
    );
    expect(result.findings.lost.map((f) => f.object)).toEqual([1]);
    expect(result.findings.gained.map((f) => f.object)).toEqual([3, null]);
  });

  it('comes out the same however the objects are numbered', () => {
    const unique = (objects: readonly ObjectReport[]): boolean =>
      new Set(objects.map((o) => JSON.stringify([o.bounds, o.kind]))).size === objects.length;
    fc.assert(
      fc.property(anyReport, anyReport, fc.infiniteStream(fc.nat()), (before, after, random) => {
        fc.pre(unique(before.objects) && unique(after.objects));
        const shuffled = (n: number): number[] => {
          const keys = Array.from({ length: n }, () => random.next().value as number);
          return keys.map((_, i) => i).sort((a, b) => keys[a] - keys[b] || a - b);
        };
        const [p, q] = [shuffled(before.objects.length), shuffled(after.objects.length)];
        const plain = compareReports(before, after);
        const mixed = compareReports(reordered(before, p), reordered(after, q));
        const back = (order: readonly number[]) => (id: number) => order[id - 1] + 1;
        const sorted = (ids: number[]): number[] => ids.sort((a, b) => a - b);
        expect(sorted(mixed.objects.removed.map(back(p)))).toEqual(plain.objects.removed);
        expect(sorted(mixed.objects.added.map(back(q)))).toEqual(plain.objects.added);
        const pairs = mixed.objects.changed.map((o) => [back(p)(o.before), back(q)(o.after)]);
        expect(pairs.sort((a, b) => a[0] - b[0])).toEqual(
          plain.objects.changed.map((o) => [o.before, o.after]),
        );
        expect(mixed.findings.lost.length).toBe(plain.findings.lost.length);
        expect(mixed.findings.gained.length).toBe(plain.findings.gained.length);
      }),
      { numRuns: 60 },
    );
  });

  it('takes two designs with nothing in common for what they are, and does not list everything', () => {
    const crest = reportOf(littleCrest());
    const order = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
    const result = compareReports(reportOf(name(order)), crest);
    expect(result.related).toBe(false);
    const text = compareToText(result, OPTIONS);
    expect(text).toMatch(/^Two different designs: /);
    expect(text).toContain('The first has 12 objects, the second 3');
    expect(text).not.toMatch(/No longer found|removed:|what changed/);
    // A design with a column fewer or wider is still the same design.
    const fewer = compareReports(reportOf(name([0, 1, 2, 3, 4, 5])), reportOf(name([0, 2, 3, 4, 5])));
    expect(fewer.related).toBe(true);
  });

  it('leaves what it compares as it was', () => {
    const [before, after] = [reportOf(name([0, 1, 2])), reportOf(littleCrest())];
    const copies = structuredClone([before, after]);
    compareReports(before, after);
    expect([before, after]).toEqual(copies);
  });
});

describe('comparing the risk of two versions', () => {
  const column = (width: number, underlay?: 'center-run' | 'zigzag') =>
    SHOP.vet(new Needle().column(0, 0, { width, height: 9, underlay }).end(), { file: FILE });
  const compared = async (before: ReturnType<typeof column>, after: ReturnType<typeof column>) => {
    const foreseen = SHOP.change(before, after, SHOP.conditions({ fabric: THIN, stack: 'none' }));
    return compareReports(before.report, after.report, foreseen);
  };

  it('says which lies flatter, of the whole and of each object, and the other way about', async () => {
    const [wide, narrow] = [column(8, 'zigzag'), column(2, 'zigzag')];
    const there = await compared(wide, narrow);
    const back = await compared(narrow, wide);
    const risk = there.risk!;
    expect(risk.flatter).toBe('after');
    expect(risk.after.wrinkleMm).toBeLessThan(risk.before.wrinkleMm);
    expect(back.risk).toMatchObject({ flatter: 'before', before: risk.after, after: risk.before });
    expect(back.risk!.tooCloseToCall).toBe(risk.tooCloseToCall);
    expect(risk.objects.map(({ before, after }) => [before, after])).toEqual([[1, 1]]);
    expect(there.objects.changed[0].risk).toEqual(risk.objects[0].risk);
    const text = compareToText(there, OPTIONS);
    expect(text).toContain('over no backing');
    expect(text).toMatch(/The second lies\s+flatter|the second comes\s+out\s+flatter/);
    expect(text.replace(/\s+/g, ' ')).toContain(
      `wrinkles ${risk.before.wrinkleMm.toFixed(2)} -> ${risk.after.wrinkleMm.toFixed(2)} mm`,
    );
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('foresees no difference between a design and itself, and no risk without fabric', async () => {
    const same = await compared(column(4), column(4));
    expect(same.risk).toMatchObject({ flatter: null, tooCloseToCall: false });
    expect(compareToText(same, OPTIONS)).toContain('No difference is predicted');
    const plain = compareReports(column(4).report, column(2).report);
    expect(plain.risk).toBeNull();
    expect(plain.objects.changed[0].risk).toBeNull();
  });
});
