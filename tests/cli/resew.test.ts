import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { penetrations } from '../../lib/format/stitches.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import { resewToText } from '../../lib/report/resew/document.js';
import type { ResewReport } from '../../lib/report/resew/report.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { UNSURE } from '../../lib/segment/objects.js';
import { itInFull } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { RESEW_CONTRACT } from '../report/contract.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

/** A folder with three letters' strokes in a row, the outer ones far from the middle. */
function folderWithStrokes() {
  const shop = shopFolder();
  const strokes = [-20, 0, 20].reduce(
    (needle, x) => needle.column(x - 1, -5, { width: 2, height: 10 }),
    new Needle(),
  );
  writeFileSync(shop.at('row.dst'), encodeDst(strokes.end()));
  return shop;
}

const reportOf = async (argv: readonly string[]): Promise<ResewReport> => {
  const { code, out, err } = await lieflat(['resew', ...argv, '--format', 'json']);
  expect(err.split('\n').filter((line) => line && !line.startsWith('wrote '))).toEqual([]);
  const report = JSON.parse(out) as ResewReport;
  expect(code).toBe(report.holes.exposed > 0 ? 1 : 0);
  return report;
};

describe('lieflat resew', () => {
  it('writes the larger design and tells a person and a program the same of its holes', async () => {
    const { at } = folderWithStrokes();
    const text = await lieflat(['resew', at('row.dst'), '-o', at('again.dst'), '--mode', 'machine']);
    expect(text.code).toBe(1);
    expect(text.err).toMatch(/^wrote .*again\.dst \(/);
    for (const line of text.out.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    const report = await reportOf([at('row.dst'), '--dry-run', '--mode', 'machine']);
    expect(RESEW_CONTRACT.safeParse(report).error).toBeUndefined();
    expect(report).toMatchObject({ mode: 'machine', modeGiven: true, scale: 1.05, threadWidthMm: 0.4 });
    expect(text.out.startsWith(`${report.holes.exposed} OLD HOLES WILL SHOW`)).toBe(true);
    // the strokes 20 mm out move by 1 mm, the one in the middle only grows
    const exposed = report.objects.filter(({ id, exposed }) => id !== null && exposed > 0);
    expect(exposed.map(({ at }) => Math.round(at!.x))).toEqual([-20, 20]);
    expect(report.exposed.every(({ x, y, gapMm }) => Math.hypot(x, y) > 10 && gapMm! > 0)).toBe(true);
    const before = penetrations(decodeDst(readFileSync(at('row.dst'))));
    const { diagnostics, ...design } = decodeDst(readFileSync(at('again.dst')));
    expect(diagnostics).toEqual([]);
    const after = penetrations({ ...design, diagnostics });
    expect([report.stitchesBefore, report.stitchesAfter]).toEqual([before.count, after.count]);
    expect(report.holes.total).toBe(before.count);
    for (let i = 0; i < after.count; i++) {
      expect(Math.abs(after.x[i] - 1.05 * before.x[i])).toBeLessThanOrEqual(0.05 + 1e-9);
    }
  });

  it('takes the way that hides most where none is asked for, and says first how far hooping may be off', async () => {
    const { at } = folderWithStrokes();
    const text = await lieflat(['resew', at('row.dst'), '--dry-run']);
    const report = await reportOf([at('row.dst'), '--dry-run']);
    const least = Math.min(...report.perMode.map(({ exposed }) => exposed));
    // strokes 20 mm out move off their holes, whatever is laid there anew, but where they are widened in place
    expect(report).toMatchObject({ mode: 'widen', modeGiven: false, holes: { exposed: 0 } });
    expect(least).toBe(0);
    expect(text.code).toBe(0);
    expect(report.roomMm).toBe(0);
    expect(text.out.replace(/\s+/g, ' ')).toMatch(
      /^ALL OLD HOLES HIDDEN .*row.dst, widen at 5 %: leaves no room for hooping error: 0.10 mm off shows some/,
    );
    const farther = { ...report, roomMm: 0.1 };
    expect((await resewToText(farther, { width: 80, units: 'in' })).replace(/\s+/g, ' ')).toContain(
      'leaves 0.004 in for hooping error, which is hardly ever enough',
    );
    expect(text.out).not.toContain('Use --mode');
    const asked = await lieflat(['resew', at('row.dst'), '--dry-run', '--mode', 'machine']);
    expect(asked.out).toContain('Use --mode widen at 5 %');
  });

  it('writes nothing where the design comes out as it is, and says so and what that means', async () => {
    const { at } = folderWithStrokes();
    const bare = new Needle();
    for (let i = 0; i <= 100; i++) bare.to(i % 2 ? 3 : -3, i / 5 - 10);
    writeFileSync(at('bare.dst'), encodeDst(bare.end()));
    const found = await lieflat(['resew', at('bare.dst'), '-o', at('same.dst'), '--find']);
    expect([found.code, found.err]).toEqual([0, '']);
    expect(existsSync(at('same.dst'))).toBe(false);
    expect(found.out.replace(/\s+/g, ' ')).toMatch(
      /^ALL OLD HOLES HIDDEN .* There is nothing to write: at the same size and place the design comes out as it is, .* go back into the old holes, but only where the garment has not been out of the hoop: .* old holes show\. .*--find --slack 0\.3/,
    );
    // Ties and travel that no top stitching covers show all the same.
    const machine = [at('row.dst'), '--mode', 'machine', '--dry-run'];
    const same = await lieflat(['resew', ...machine, '--scale', '0%']);
    expect([same.code, same.out]).toEqual([1, expect.stringContaining('There is nothing to write')]);
    expect(same.out).not.toContain('go back into');
    for (const [unchanged, ...more] of [
      [true, '--scale', '0%'],
      [false],
      // Moved, it is another design, be it of the same size.
      [false, '--scale', '0%', '--offset', '0.2,0'],
    ] as const)
      expect((await reportOf([...machine, ...more])).unchanged, more.join(' ')).toBe(unchanged);
  });

  it('finds the way that hides all with least growth', async () => {
    const { at } = folderWithStrokes();
    const found = await reportOf([at('row.dst'), '--find', '--dry-run']);
    const hiding = found.perMode.flatMap(({ smallestScaleThatHides: at }) => at ?? []);
    expect(found.modeGiven).toBe(false);
    expect(found.scale).toBe(Math.min(...hiding));
    expect(found.scale).toBe(found.smallestScaleThatHides);
    expect(found.holes.exposed).toBe(0);
  });

  itInFull('only grows what may be something else than it looks like, unless it is named', async () => {
    const incoming = fileURLToPath(new URL('../../samples/incoming.dst', import.meta.url));
    const unsure = findObjects(penetrations(decodeDst(readFileSync(incoming)))).flatMap(
      ({ id, confidence }) => (confidence < UNSURE ? [id] : []),
    );
    expect(unsure).toHaveLength(1);
    const mode = ['--mode', 'regenerate', '--dry-run'];
    const { out } = await lieflat(['resew', incoming, ...mode]);
    expect(out.replace(/\s+/g, ' ')).toContain(
      `object ${unsure[0]} may be something else than it looks like, so it was only scaled, so the spacing there opened; to redo it, use --objects`,
    );
    expect((await reportOf([incoming, ...mode, '--objects', `${unsure[0]}`])).unsure).toEqual([]);
    expect((await reportOf([incoming, '--dry-run', '--mode', 'machine'])).unsure).toEqual([]);
    const missing = await lieflat(['resew', incoming, ...mode, '--objects', '999']);
    expect([missing.code, missing.err]).toEqual([2, expect.stringMatching(/there is no object 999/)]);
  });

  it('takes the growth with most room where none leaves the room that was asked for', async () => {
    const { at } = folderWithStrokes();
    const bare = new Needle();
    for (let i = 0; i <= 60; i++) bare.to(i % 2 ? 1 : -1, i / 5 - 6);
    writeFileSync(at('thin.dst'), encodeDst(bare.end()));
    const ways = ['machine', 'regenerate', 'widen'];
    for (const mode of ways) {
      const line = [at('thin.dst'), '--mode', mode, '--dry-run'];
      const found = await reportOf([...line, '--find', '--slack', '0.5']);
      expect(found.smallestScaleThatHides, mode).toBeNull();
      expect(found.holes.exposed).toBe(0);
      const rooms: (readonly [scale: number, room: number])[] = [];
      for (let step = 0; step <= 120; step += 5) {
        const { scale, roomMm } = await reportOf([...line, '--scale', `${step / 10}%`]);
        rooms.push([scale, roomMm ?? 0]);
      }
      const most = Math.max(...rooms.map(([, room]) => room));
      expect([found.scale, found.roomMm], mode).toEqual(rooms.find(([, room]) => room === most));
    }
    const best = await reportOf([at('thin.dst'), '--dry-run', '--find', '--slack', '0.5']);
    const each = best.perMode.map(({ roomMm }) => roomMm ?? 0);
    expect(best.roomMm).toBe(Math.max(...each));
  });

  it('finds the smallest scale, or takes that along x and y, and moves', async () => {
    const { at } = folderWithStrokes();
    // a column of 6 mm without ties: its rails must go out by what hooping is off, but for half a step of the file: 0.25 of 3 mm
    const bare = new Needle();
    for (let i = 0; i <= 100; i++) bare.to(i % 2 ? 3 : -3, i / 5 - 10);
    writeFileSync(at('bare.dst'), encodeDst(bare.end()));
    const found = await reportOf([
      ...[at('bare.dst'), '--find', '--slack', '0.3', '--mode', 'machine', '--dry-run'],
    ]);
    expect(found).toMatchObject({ scale: 1.084, smallestScaleThatHides: 1.084, slackMm: 0.3 });
    expect(found.holes.exposed).toBe(0);
    expect(found.roomMm).toBeGreaterThanOrEqual(0.3);
    const apart = await reportOf([
      ...[at('plain.dst'), '--x', '3%', '--y', '8', '--offset=-0.01,0.02', '--units', 'in', '--dry-run'],
    ]);
    expect([apart.scaleX, apart.scaleY]).toEqual([1.03, 1.08]);
    expect([apart.offset.dx, apart.offset.dy]).toEqual([-0.254, 0.508]);
    const thin = await reportOf([at('plain.dst'), '--thread', 'polyester-60', '--dry-run']);
    expect(thin.threadWidthMm).toBe(0.3);
  });

  it('calls no holes hidden that show at the hooping error that was asked for', async () => {
    const { at } = folderWithStrokes();
    const argv = ['resew', at('plain.dst'), '--find', '--dry-run'];
    const exact = await lieflat(argv);
    expect(exact.out).toMatch(/^ALL OLD HOLES HIDDEN/);
    const off = await lieflat([...argv, '--slack', '0.9']);
    expect(off.out).toMatch(/^OLD HOLES MAY SHOW/);
    expect(off.out.replace(/\s+/g, ' ')).toMatch(
      /hooping error.*, less than the 0\.90 mm that you asked for.*no scale from 0 to 12 % hides every hole if hooped within 0\.90 mm/,
    );
  });

  it('says how far the design is moved, and why', async () => {
    const { at } = folderWithStrokes();
    const asked = await reportOf([at('row.dst'), '--offset=-0.3,0.2', '--dry-run']);
    const told = async (report: ResewReport) =>
      (await resewToText(report, { width: 80, units: 'mm' })).replace(/\s+/g, ' ');
    expect(await told(asked)).toContain('by -0.30, 0.20 mm (right and up; minus is left and down), as asked');
    expect(await told({ ...asked, movedToHide: true })).toContain('--offset 0,0 keeps it in place');
    expect(await told({ ...asked, offset: { dx: 0, dy: 0 } })).not.toContain('(right and up');
  });

  it('holds the larger design against the limits and the fabric', async () => {
    const { at } = folderWithStrokes();
    const size = '48x60';
    const { findings } = await reportOf([
      ...[at('row.dst'), '--mode', 'machine', '--scale', '20%', '--hoop', size, '--dry-run'],
    ]);
    expect(findings.map(({ code }) => code)).toContain('does-not-fit-hoop');
    const now = await lieflat(['vet', at('row.dst'), '--hoop', size, '--format', 'json']);
    expect(now.out).not.toContain('does-not-fit-hoop');
    const text = await lieflat(['resew', at('plain.dst'), '--fabric', 'pique-knit', '--dry-run']);
    expect(text.out.replace(/\s+/g, ' ')).toMatch(
      / risk \S.*\(grade \d.*\) before, .*\(grade \d.*\) after;.* On piqué/,
    );
  });

  it.each(['map.svg', 'map.png'])('draws %s', async (name) => {
    const { at } = folderWithStrokes();
    const machine = [at('row.dst'), '--mode', 'machine'];
    const { code } = await lieflat(['resew', ...machine, '--map', at(name)]);
    expect(code).toBe(1);
    const bytes = readFileSync(at(name));
    if (name.endsWith('svg')) {
      expect(new Resvg(bytes.toString()).width).toBe(1000);
      const { holes } = await reportOf([...machine, '--dry-run']);
      expect(bytes.toString()).toContain(`crosses: ${holes.exposed} old holes will show`);
      // a dot a hidden hole, a cross of two strokes a hole that shows, on its halo
      expect(bytes.toString().match(/h0/g)).toHaveLength(holes.hidden);
    } else expect(bytes.readUInt32BE(16)).toBe(1600);
  });

  it.each([
    [[], 'write -o and a name that ends in .dst'],
    [['-o', 'again.txt'], '-o cannot be again.txt; give it a name that ends in .dst or .csv'],
    [['-o', 'row.dst', '--force'], 'row.dst'],
    [['--dry-run', '--map', 'map.gif'], '.svg or .png'],
    [['--dry-run', '--scale', '1.05'], 'write 1.05% for that many percent, or 5%'],
    [['--dry-run', '--scale', '0.05'], 'write 0.05% for that part of a percent, or 5%'],
    [['--dry-run', '--hoop', '4x4'], 'write 4x4in for inches, or 4x4mm if it is meant so'],
    [['--dry-run', '--scale', '40%'], 'from 0 to 25'],
    [['--dry-run', '--scale=-5%'], 'from 0 to 25'],
    [['--dry-run', '--x', '5%'], '--x and --y go together'],
    [['--dry-run', '--x', '5%', '--y', '5%', '--scale', '5%'], 'one or the other'],
    [['--dry-run', '--find', '--scale', '5%'], '--find looks for the scale itself'],
    [['--dry-run', '--offset', '0.3'], 'give two lengths in mm'],
    [['--dry-run', '--offset', '200,0'], 'give two lengths in mm'],
    [['--dry-run', '--thread', 'cotton'], 'lieflat catalog threads lists all'],
    [['--dry-run', '--stack', 'none'], '--stack needs a fabric'],
    [['--dry-run', '--mode', 'blow-up'], '--mode'],
  ])('refuses %j in one line', async (options, words) => {
    const { folder, at } = folderWithStrokes();
    const original = readFileSync(at('row.dst'));
    const { code, out, err } = await lieflat(['resew', 'row.dst', ...options], { cwd: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(readFileSync(at('row.dst'))).toEqual(original);
    expect(existsSync(join(folder, 'again.txt'))).toBe(false);
  });
});
