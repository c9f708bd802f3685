import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { letterOf } from '../../lib/report/pictures/callouts.js';
import { colorsNamed } from '../../lib/report/proof/thread-colors.js';
import { replyPage, replyToMail } from '../../lib/report/reply/document.js';
import { replyReport } from '../../lib/report/reply/report.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { withOneCure } from '../../lib/vetting/one-cure.js';
import { SHOP } from '../built-in-shop.js';
import { Needle } from './little-design.js';
import { FILE } from './on-fabric.js';

const bytes = readFileSync(new URL('../../samples/incoming.dst', import.meta.url));
const incoming = SHOP.vet(decodeDst(bytes), { file: FILE });
const relayed = async () => {
  const { after, report } = await SHOP.relay(incoming.design, { file: FILE });
  return { report: after.report, columns: report.objects.length, done: true };
};
const mail = (threads = '') =>
  replyToMail(replyReport({ report: incoming.report, relaid: null, threads: colorsNamed(threads) }), 'mm');

describe('what is to be fixed', () => {
  it('is every kind of finding that is no note and has a cure of its own, once, with its places and the figure to keep', () => {
    const { items, minor, minorCodes } = replyReport({ report: incoming.report, relaid: null });
    const found = incoming.report.findings;
    const kind = ({ code, severity }: { code: string; severity: string }): string => `${code} ${severity}`;
    const own = found.filter(({ severity, curedBy }) => severity !== 'note' && !curedBy);
    const kinds = new Set(own.map(kind));
    expect(new Set(items.map(kind))).toEqual(kinds);
    expect(items.map(({ number }) => number)).toEqual(items.map((_, i) => i + 1));
    expect(items.reduce((sum, { places }) => sum + places, 0)).toBe(own.length);
    const notes = found.filter(({ severity }) => severity === 'note');
    expect(minor).toBe(notes.length);
    expect(new Set(minorCodes)).toEqual(new Set(notes.map(({ code }) => code)));
    expect(mail().replace(/\s+/g, ' ')).toMatch(/Small things we can live with: [a-z][a-z ,]+\./);
    const wide = items.find(({ code }) => code === 'satin-too-wide')!;
    expect([wide.limit, wide.unit, wide.relaid]).toEqual([7, 'mm', null]);
  });

  it('is asked for with one cure for one column and one spot', () => {
    const text = mail().replace(/\s+/g, ' ');
    // Every column over zigzag is too wide as well: it is split, and its underlay laid with that.
    expect(text).toContain('Split the satin, or fill the shape, over a light fill of short stitches');
    expect(text).not.toContain('Heavy underlay');
    // The needle points are piled by the stitches that are too short.
    expect(text).toContain('Take the short stitches out there.');
    expect(text).not.toContain('Stitches too short');
  });

  it('is conditional about underlay where no fabric was named', () => {
    const column = new Needle().column(0, 0, { width: 5, height: 9, underlay: 'zigzag' }).end();
    const { report } = SHOP.vet(column, { file: FILE });
    expect(replyToMail(replyReport({ report, relaid: null }), 'mm').replace(/\s+/g, ' ')).toContain(
      'Underlay, if this is for soft or stretchy fabric: no zigzag under wide satin.',
    );
  });

  it('counts stitches from one, and names the color where it is known', () => {
    for (const { first } of replyReport({ report: incoming.report, relaid: null }).items) {
      if (first.stitch === null) continue;
      expect(first.stitch).toBeGreaterThanOrEqual(1);
      expect(first.stitch).toBeLessThanOrEqual(incoming.report.design.stitches);
    }
    expect(mail('navy, gold')).toContain('color 1 (navy)');
    expect(mail()).not.toContain('(navy)');
  });

  it('says of a relaid file what is fixed in it and what is left', async () => {
    const reply = replyReport({ report: incoming.report, relaid: await relayed() });
    const standing = Object.fromEntries(reply.items.map(({ code, relaid }) => [code, relaid]));
    expect(standing['wide-satin-no-underlay']).toBe('fixed');
    expect(standing['satin-too-wide']).toBe('stays');
    expect(reply.changed).toMatchObject({ done: true, columns: 9 });
    const said = replyToMail(reply, 'mm').replace(/\s+/g, ' ');
    expect(said).toContain('Our copy has new, light underlay under 9 satin columns');
    expect(said).toContain('We fixed this in our copy.');
    expect(said).toMatch(/Still to fix after that: .*satin too wide/);
  });

  it('finds by itself the columns that a relaid file has other underlay in', async () => {
    const { report } = await relayed();
    const changed = (after: VetReport) =>
      replyReport({ report: incoming.report, relaid: { report: after, done: true, columns: null } }).changed;
    expect(changed(report)!.columns).toBe(9);
    expect(changed(incoming.report)).toBeNull();
  });

  it('is nothing where all is fine, and says what is', () => {
    const sound = new Needle().column(0, 0, { width: 3, underlay: 'center-run' }).end();
    const { report } = SHOP.vet(decodeDst(encodeDst(sound)), { file: FILE });
    const reply = replyReport({ report: { ...report, findings: [] }, relaid: null });
    expect(reply.items).toEqual([]);
    expect(reply.fine).toContain('density');
    expect(replyToMail(reply, 'mm')).toMatch(/^GOOD TO SEW {2}nothing to fix in [\s\S]*Fine as it is/);
  });
});

describe('what is asked of the digitizer', () => {
  const said = mail().replace(/\s+/g, ' ');

  it('tells the width of a column from how far apart rows of underlay lie', () => {
    expect(said).toContain('apart. The widest column is 7.7 mm (0.3 in) wide.');
    expect(said).not.toMatch(/apart\. Now: /);
  });

  it('tells what is counted as well as what is measured', () => {
    expect(said).toMatch(/Needle points on one spot: fewer than 11\..* Now: 17\./);
  });

  it('asks for the underlay that the file check on the same fabric asks for', () => {
    const findings = incoming.report.findings.map((finding) =>
      finding.code === 'wide-satin-heavy-underlay'
        ? { ...finding, params: { ...finding.params, to: 'edge-run+fill' as const } }
        : finding,
    );
    const decided = withOneCure(findings).map((one, k) => ({ ...one, message: findings[k].message }));
    const reply = replyReport({ report: { ...incoming.report, findings: decided }, relaid: null });
    expect(replyToMail(reply, 'mm').replace(/\s+/g, ' ')).toContain(
      'or fill the shape, over an edge run and a light fill of short stitches, rows 3 mm (0.12 in) apart.',
    );
  });
});

describe('the mail', () => {
  it('keeps within the columns that mail programs leave alone', () => {
    for (const line of mail().split('\n')) expect(line.length, line).toBeLessThanOrEqual(72);
  });
});

describe('the page', () => {
  it('letters the picture as the list, and shows names as names', () => {
    const report = { ...incoming.report, file: { ...incoming.report.file, path: '<b>x<b>.dst' } };
    const reply = replyReport({ report, relaid: null });
    const page = replyPage(reply, { ...incoming, report }, { units: 'mm', paper: 'a4' });
    expect(page).toContain('size: A4');
    expect(page).not.toContain('<b>x');
    const marks = page.matchAll(/class="callout (?:fail|warn)">.*?>([A-Z]+)<\/text>/gs);
    const letters = new Set([...marks].map(([, letter]) => letter));
    for (const { number, first } of reply.items)
      expect(letters.has(letterOf(number)), String(number)).toBe(first.at !== null);
  });
});
