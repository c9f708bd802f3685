import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joinVetSections, vetPage, vetSection } from '../../lib/report/vet/page.js';
import type { ObjectReport } from '../../lib/report/vet/report.js';
import { SHOP } from '../built-in-shop.js';
import { anyReport, WENT_WRONG } from './any-report.js';
import { PLAN } from './card-input.js';
import { littleCrest, Needle } from './little-design.js';
import { crestOn, FILE, THIN } from './on-fabric.js';

const crest = SHOP.vet(littleCrest(), { file: FILE });
const onFabric = await crestOn({ fabric: THIN });

/** Attribute values in a piece of markup, in order. */
const values = (markup: string, attribute: string): string[] =>
  [...markup.matchAll(new RegExp(` ${attribute}="([^"]*)"`, 'g'))].map((m) => m[1]);

/** The page without its script. */
const written = (page: string): string => page.slice(0, page.indexOf('<script>'));

describe('the page of a vet report', () => {
  it('is sound markup without control characters, with unique ids, whatever the report', () => {
    fc.assert(
      fc.property(fc.array(anyReport, { maxLength: 3 }), (reports) => {
        const page = vetPage(
          reports.map((report) => ({ report, stitches: crest.stitches })),
          { units: 'in' },
        );
        // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
        expect(page).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
        expect(written(page)).not.toMatch(WENT_WRONG);
        const ids = values(page, 'id');
        expect(new Set(ids).size).toBe(ids.length);
        for (const target of values(page, 'href')) expect(ids).toContain(target.slice(1));
        for (const label of values(page, 'aria-labelledby')) expect(ids).toContain(label);
        expect(page.match(/<h2>/g)?.length ?? 0).toBe(reports.length);
      }),
      { numRuns: 30 },
    );
  });

  it('says what was found, measured, held against and why, in the units asked for', () => {
    const page = vetPage([crest], { units: 'in' });
    const [finding] = crest.report.findings;
    expect(finding).toMatchObject({ code: 'wide-satin-heavy-underlay', measured: 5.5, limit: 3 });
    // 3 / 25.4 inches
    expect(page).toContain('limit 0.118 in');
    expect(page).toContain(finding.basis);
    expect(vetPage([crest], { units: 'mm' })).toContain('limit 3.00 mm');
    // Messages, too, begin with what was asked for.
    expect(finding.message).toContain('5.5 mm (0.22 in)');
    expect(page).toContain('0.22 in (5.5 mm)');
    expect(page).not.toContain('5.5 mm (0.22 in)');
  });

  it('keeps true proportions and a scale bar of true length', () => {
    const page = vetPage([crest], { units: 'mm' });
    const [, across, up] = /scale\(([\d.]+) -([\d.]+)\)/.exec(page)!;
    expect(across).toBe(up);
    const [, from, to] = /d="M([\d.]+) [\d.]+V[\d.]+H([\d.]+)V/.exec(page)!;
    const [, mm] = />(\d+) mm<\/text>/.exec(page)!;
    // Stitches are drawn in units of 0.1 mm.
    expect((Number(to) - Number(from)) / (Number(across) * 10)).toBeCloseTo(Number(mm), 1);
  });

  it('draws every needle point of the design', () => {
    const drawn = values(vetPage([crest], { units: 'mm' }), 'd')
      .filter((path) => path.includes('l'))
      .map((path) => path.match(/-?\d+/g)!.length / 2)
      .reduce((sum, n) => sum + n, 0);
    const { x, y, count } = crest.stitches;
    let moves = 1;
    for (let i = 1; i < count; i++)
      if (
        Math.round(x[i] * 10) !== Math.round(x[i - 1] * 10) ||
        Math.round(y[i] * 10) !== Math.round(y[i - 1] * 10)
      )
        moves++;
    expect(drawn).toBeGreaterThanOrEqual(moves);
  });

  it('opens with an index of several designs that leads to each, and says how many could not be read', () => {
    const page = joinVetSections(
      [1, 2].map((n) => vetSection(crest, n, { units: 'mm' })),
      {
        units: 'mm',
        unread: 1,
      },
    );
    expect(page).toContain('<a href="#design-1">crest.dst</a>');
    expect(page).toContain('<a href="#design-2">crest.dst</a>');
    expect(page).toContain('1 file could not be read.');
    expect(vetPage([crest], { units: 'mm' })).not.toContain('href="#design-1"');
  });

  it('says it where nothing could be read, or nothing is sewn', () => {
    expect(joinVetSections([], { units: 'mm', unread: 2 })).toContain('2 files could not be read.');
    const empty = SHOP.vet(new Needle().end(), { file: FILE });
    const page = vetPage([empty], { units: 'mm' });
    expect(page).toContain('DO NOT SEW');
    expect(page).toContain('No objects were found.');
    expect(written(page)).not.toMatch(/NaN|Infinity|<svg/);
  });

  it('names the file, and tells nobody in which folder it lies', async () => {
    const at = (path: string) => ({ ...crest, report: { ...crest.report, file: { ...FILE, path } } });
    for (const folder of ['/home/ida/customers/', 'C:\\shop\\customers\\'])
      for (const pages of [
        [at(`${folder}crest.dst`)],
        [at(`${folder}crest.dst`), at(`${folder}again.dst`)],
      ]) {
        const page = vetPage(pages, { units: 'mm' });
        expect(page).toContain('crest.dst');
        expect(page).not.toContain('customers');
        expect(page).not.toContain(FILE.sha256);
      }
  });

  it('shows the risk of the whole and of every object where a fabric was named', async () => {
    const page = vetPage([onFabric], { units: 'mm' });
    const { risk } = onFabric.report;
    expect(page).toContain(`(grade ${risk!.grade}): wrinkles about ${risk!.wrinkleMm.toFixed(2)} mm high`);
    expect(page.match(/ id="design-1-risk"/g)).toHaveLength(1);
    expect(page).toContain('pull-in mm');
    expect(vetPage([crest], { units: 'mm' })).not.toContain('pull-in');
  });

  it('tells the advice for the whole, and once for objects that need the same', async () => {
    const { report, stitches } = onFabric;
    const needs: ObjectReport['advice'] = {
      object: 0,
      relay: null,
      split: false,
      locks: true,
      pullCompensationMm: 0.32,
      drawsInMm: null,
      text: [],
    };
    const objects = report.objects.map((object) => ({
      ...object,
      advice: object.id < 3 ? { ...needs, object: object.id } : null,
    }));
    const advice = {
      recommended: { ...PLAN, stackName: 'a <cut-away>' },
      meets: 'yes' as const,
      verdict: 'sound' as const,
      verdictReasons: [],
      warnings: [],
      relaidAway: [],
      otherPlans: 0,
      hoop: { id: 'round-90', name: 'round hoop', holds: true, roomMm: 5 },
      mustChange: [],
      changes: [],
      washes: 0,
      text: [],
    };
    const told = { ...report, advice, objects };
    const page = vetPage([{ report: told, stitches }], { units: 'mm' });
    expect(page).toContain('<h3>What to do</h3>');
    expect(page).toContain('<li>Sew it over a &lt;cut-away&gt;');
    expect(page).toContain('<li>Add lock stitches where the thread of objects 1 and 2 starts or ends.</li>');
    expect(page).toMatch(/0\.30<\/th><td[^>]*>0\.012<\/td><td>1 and 2<\/td>/);
    // What stops the file comes first, but for what a larger hoop settles.
    expect(page).not.toContain('DO NOT SEW the file');
    const tooLarge = { hoop: 'round hoop', side: 'across', sizeMm: 90, fieldMm: 70, turned: false };
    const params = { 'needle-points-piled': { points: 17 }, 'does-not-fit-hoop': tooLarge };
    const stopped = (code: keyof typeof params) => {
      const fail = { ...report.findings[0], severity: 'fail', code, params: params[code] };
      return vetPage([{ report: { ...told, findings: [fail] as typeof told.findings }, stitches }], {
        units: 'mm',
      });
    };
    expect(stopped('needle-points-piled')).toMatch(
      /<li>DO NOT SEW the file as it is: needle points piled\. Have it fixed first\.<\/li>\s*<li>Sew it over/,
    );
    expect(stopped('does-not-fit-hoop')).not.toContain('DO NOT SEW the file');
    const silent = { ...report, advice: null, objects: objects.map((o) => ({ ...o, advice: null })) };
    expect(vetPage([{ report: silent, stitches }], { units: 'mm' })).not.toContain('What to do');
  });
});
