import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { columnsToText } from '../../lib/report/columns/document.js';
import { columnsCsvHeader, columnsReport, columnsToCsvRecords } from '../../lib/report/columns/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import { csvHeader, toCsvRecords } from '../../lib/report/vet/csv.js';
import { toText } from '../../lib/report/vet/document.js';
import { callsForUnderlay } from '../../lib/vetting/columns-called.js';
import { SHOP } from '../built-in-shop.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { VET_CONTRACT } from './contract.js';
import { littleCrest } from './little-design.js';
import { crestOn, FILE, THIN } from './on-fabric.js';

const OPTIONS = { width: 80, units: 'mm' } as const;

describe('the vet report on fabric', async () => {
  const { report, risk } = await crestOn({ fabric: THIN, stack: 'cutaway-2.5oz' });
  const plain = SHOP.vet(littleCrest(), { file: FILE }).report;

  it('fills in the risk and the advice, of the design and of every object, and changes nothing else but what is done about underlay', () => {
    expect(VET_CONTRACT.safeParse(JSON.parse(JSON.stringify(report))).error).toBeUndefined();
    expect(report.risk?.wrinkleMm).toBeCloseTo(risk.wrinkleMm, 3);
    report.objects.forEach((object, k) => {
      expect(object.risk?.wrinkleMm).toBeCloseTo(risk.objects[k].wrinkleMm, 3);
      expect(object.risk?.drivers.length).toBeGreaterThan(0);
    });
    expect(report.advice?.text.length).toBeGreaterThan(0);
    const objects = report.objects.map((o) => ({ ...o, risk: null, advice: null }));
    const without = { ...report, risk: null, advice: null, objects, findings: [] };
    // The time is that at the speed which suits the fabric.
    const { sewSeconds, sewSpeedSpm } = report.design;
    expect(sewSpeedSpm).toBeLessThan(plain.design.sewSpeedSpm);
    const design = { ...plain.design, sewSeconds, sewSpeedSpm };
    expect(without).toEqual({ ...plain, design, findings: [] });
    const others = (of: typeof plain) => of.findings.filter((finding) => !callsForUnderlay(finding));
    expect(others(report)).toEqual(others(plain));
    expect(others(plain).length).toBeLessThan(plain.findings.length);
  });

  it('says it in the text in a few lines', () => {
    const text = toText(report, OPTIONS);
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    expect(text).toMatch(/ risk +[A-Z ]+ \(grade [\d.]+\): wrinkles about [\d.]+ mm high/);
    expect(text.replace(/\s+/g, ' ')).toMatch(
      /mostly the \w+; worst at object \d\. On performance knit, .*\. Sew a test on the same fabric\./,
    );
    expect(toText(plain, OPTIONS)).not.toContain('wrinkles about');
  });

  it('has columns of its own in the table, empty where no fabric was asked for', () => {
    const rows = (r: typeof report) =>
      parse(csvHeader() + toCsvRecords(r), { columns: true }) as Record<string, string>[];
    const [row] = rows(report);
    expect(row).toMatchObject({
      fabric: THIN,
      backing: 'cutaway-2.5oz',
      grade: String(report.objects[0].risk!.grade),
    });
    expect(Number(row.design_wrinkle_mm)).toBe(report.risk!.wrinkleMm);
    expect(rows(plain)[0]).toMatchObject({
      fabric: '',
      backing: '',
      grade: '',
      wrinkle_mm: '',
      design_score: '',
    });
  });
});

describe('the list of columns on fabric', () => {
  onACoarseMesh(2);
  it('predicts what the underlay that is advised changes under the columns that need one', async () => {
    const vetting = SHOP.vet(littleCrest(), { file: FILE });
    const list = columnsReport(
      vetting,
      null,
      SHOP.columnsRisk(vetting, SHOP.conditions({ fabric: THIN, stack: 'cutaway-2.5oz' })),
    );
    // The wide column lies over a zigzag, the narrow one over a run.
    expect(list.foreseen!.relaid).toEqual([1]);
    const [wide] = list.columns;
    expect(wide.foreseen!.onAdvised!.wrinkleMm).toBeLessThan(wide.foreseen!.now.wrinkleMm);
    const text = columnsToText(list, OPTIONS);
    for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    expect(text.replace(/\s+/g, ' ')).toMatch(/With an? [a-z ]+ under 1 column: lies/);
    const [row] = parse(columnsCsvHeader() + columnsToCsvRecords(list), { columns: true }) as Record<
      string,
      string
    >[];
    expect(Number(row.advised_underlay_wrinkle_mm)).toBe(wide.foreseen!.onAdvised!.wrinkleMm);
  });
});
