import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { gradeOf } from '../../lib/mechanics/score.js';
import { wordsFor } from '../../lib/report/phrases/words.js';
import { puckerComparison } from '../../lib/report/pucker/comparison.js';
import { puckerComparisonToText } from '../../lib/report/pucker/comparison-document.js';
import { puckerToText } from '../../lib/report/pucker/document.js';
import { puckerReport } from '../../lib/report/pucker/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import { SHOP } from '../built-in-shop.js';
import { itInFull } from '../in-full.js';
import { catalogueWith } from '../materials/own-values.js';
import { anyName } from './any-report.js';
import { PUCKER_CONTRACT } from './contract.js';
import { puckerInput, THIN } from './on-fabric.js';

const OPTIONS = { width: 80, units: 'mm' } as const;
const { risk: said, pucker: words, say } = wordsFor({ units: 'mm', detail: 'full' });
const riskWord = (grade: number) => said.grade({ grade });
const flowing = (text: string) => text.replace(/\s+/g, ' ');
const bonded = await puckerInput({ fabric: THIN });
const report = puckerReport(bonded);

const fits = (text: string, width: number): void => {
  for (const line of text.split('\n')) {
    expect(displayWidth(line)).toBeLessThanOrEqual(width);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that is what must not be there
    expect(line).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e]/);
  }
};

describe('the report of a risk', () => {
  it('has the promised shape, with the figures of the model', () => {
    expect(PUCKER_CONTRACT.safeParse(JSON.parse(JSON.stringify(report))).error).toBeUndefined();
    expect(report.risk.wrinkleMm).toBeCloseTo(bonded.risk.wrinkleMm, 3);
    expect(report.objects.map(({ id }) => id)).toEqual([1, 2, 3]);
    for (const { risk } of [report, ...report.objects]) expect(risk.grade).toBe(gradeOf(risk.score));
    expect(report.objects[0].pullCompensationMm.along).toBe(report.objects[0].risk.pullInMm);
    expect(report.basis.resolution.met).toBe(true);
  });

  it('takes one usual sheet where no backing is given, and says so', async () => {
    expect(report.stack).toEqual([{ sheet: 'cutaway-2.5oz', angleDeg: 0 }]);
    expect(report.conditions.stackGiven).toBe(false);
    expect(puckerToText(report, OPTIONS)).toMatch(
      /backing +1 sheet of cut-away,[\s\S]*\(the usual sheet; you gave\s+none\)/,
    );
    const bare = puckerReport({ ...bonded, conditions: SHOP.conditions({ fabric: THIN, stack: 'none' }) });
    expect(bare.stack).toEqual([]);
    expect(puckerToText(bare, OPTIONS)).toMatch(/backing +no backing\n/);
    expect(flowing(puckerToText(bare, OPTIONS))).toMatch(
      /no backing \(\d+ %\): a sheet of 2\.5 oz cut-away would hold it/,
    );
  });

  it("says what it rests on, and when that is the shop's own", () => {
    expect(report.basis.restsOn.join(' ')).toMatch(
      /typical values for this fabric, not yours.*Sew a test on the same fabric/,
    );
    const own = puckerReport({
      ...bonded,
      catalogue: catalogueWith({ fabrics: { [THIN]: { bendingAlong: 2 } } }),
      parameters: { ...PARAMETERS },
    });
    expect(own.basis.restsOn[0]).toContain(`your own values for ${THIN}`);
    expect(own.basis.restsOn[1]).toContain('fit to your own sew-outs');
    expect(own.basis).toMatchObject({ ownValues: [THIN], ownFit: true });
    expect(puckerToText(own, OPTIONS)).toContain('fit to your own sew-outs');
    expect(puckerToText(report, OPTIONS)).toContain('typical values for this fabric, not yours');
  });

  it('warns where fabric or backing could do harm', async () => {
    const on = async (fabric: string, stack: string) =>
      puckerReport({ ...bonded, conditions: SHOP.conditions({ fabric, stack }) }).cautions.join(' ');
    expect(await on('cap-structured', 'tearaway-1.8oz-firm')).toMatch(/^Trace .* needle .* shatters\.$/);
    expect(await on('fine-sweater', 'soluble-film')).toMatch(/removed by heat: it burns skin/);
    expect(await on('pique-knit', 'cutaway-2.5oz')).toMatch(/children's sleepwear go first/);
    expect(await on('canvas-tote', 'none')).toBe('');
  });

  it('speaks of skin only where the back of the stitching lies on it', () => {
    const skin = (fabric: string) =>
      puckerReport({
        ...bonded,
        conditions: SHOP.conditions({ fabric, stack: 'cutaway-2.5oz' }),
      }).cautions.some((text) => text.includes('against the skin'));
    for (const worn of ['pique-knit', 'hoodie', 'poplin', 'denim shirt', 'bathrobe', 'baby onesie'])
      expect(skin(worn), worn).toBe(true);
    for (const not of [
      'denim',
      'denim jacket',
      'fleece vest',
      'tote bag',
      'golf towel',
      'dad cap',
      'softshell',
      'apron',
    ])
      expect(skin(not), not).toBe(false);
  });
});

describe('the report of a risk as text', () => {
  it('puts the plain word first, then mm, then a sentence for each cause', () => {
    const text = puckerToText(report, OPTIONS);
    expect(
      text.startsWith(`${riskWord(report.risk.grade).toUpperCase()}  crest.dst on performance knit`),
    ).toBe(true);
    const { wrinkleMm, range, drivers } = report.risk;
    const all = flowing(text);
    expect(all).toContain(`about ${say.length(wrinkleMm)} high; most likely ${say.range(range.wrinkleMm)}`);
    expect(all).toContain(`: ${said.grades({ range: range.grade })} `);
    for (const { share } of drivers)
      expect(all.includes(`(${(100 * share).toFixed(0)} %): `) || share < 0.05).toBe(true);
    const inches = flowing(puckerToText(report, { ...OPTIONS, units: 'in' }));
    expect(inches).toMatch(new RegExp(`about 0\\.\\d+ in \\(${Number(wrinkleMm.toFixed(2))} mm\\) high`));
  });

  it('says it in words where nothing is predicted and nothing is likely', () => {
    const { risk } = report;
    const flat = {
      ...risk,
      grade: 5,
      wrinkleMm: 0,
      range: { ...risk.range, wrinkleMm: [0, 0.001], grade: [5, 5] },
    };
    const text = puckerToText({ ...report, risk: flat } as typeof report, OPTIONS);
    expect(text).toContain('wrinkles  none predicted: lies flat');
    expect(text).not.toContain('why ');
    expect(said.height({ wrinkleMm: 0, range: [0, 0] })).toBe('no wrinkles predicted');
  });

  it('says what to do where no compensation makes up for the pull', () => {
    const [first, ...others] = report.objects;
    const far = { ...first, pullCompensationMm: { along: 3, across: 0.1 } };
    const text = flowing(puckerToText({ ...report, objects: [far, ...others] }, OPTIONS));
    expect(text).toMatch(/ far +0\.10 /);
    expect(text).toContain(words.farNote({ mostMm: 0.6 }).slice(0, 6));
    expect(flowing(puckerToText(report, OPTIONS))).toContain('below zero, bring the edge in.');
  });

  it('lists the worst objects first, or all in order', () => {
    const rows = (text: string) => [...text.matchAll(/^ +(\d) {2}(?:satin|fill)/gm)].map((m) => Number(m[1]));
    const worstFirst = report.objects
      .toSorted((a, b) => b.risk.wrinkleMm - a.risk.wrinkleMm)
      .map(({ id }) => id);
    expect(rows(puckerToText(report, OPTIONS))).toEqual(worstFirst);
    expect(rows(puckerToText(report, OPTIONS, true))).toEqual([1, 2, 3]);
  });

  it('fits its width and stays free of control characters, whatever things are called', () => {
    fc.assert(
      fc.property(anyName, anyName, fc.integer({ min: 40, max: 80 }), (path, name, width) => {
        const odd = {
          ...report,
          file: { ...report.file, path },
          conditions: { ...report.conditions, fabricName: name, stackName: name, threadName: name },
        };
        fits(puckerToText(odd, { ...OPTIONS, width }), width);
      }),
      { numRuns: 40 },
    );
  });
});

describe('a comparison of backings', async () => {
  const on = (stack: string) => puckerInput({ fabric: THIN, stack });
  const stacks = ['none', 'cutaway-2.5oz', 'woven-polyester@0+cutaway-2.5oz+woven-polyester@45'];
  const inputs = await Promise.all(stacks.map(on));

  it('ranks them, flattest first, and says where the order is sure', () => {
    const comparison = puckerComparison(inputs);
    expect(comparison.reports.map((r) => r.conditions.stackText)).toEqual([
      'none',
      'cutaway-2.5oz',
      'woven-polyester+cutaway-2.5oz+woven-polyester@45',
    ]);
    for (const one of comparison.reports)
      expect(PUCKER_CONTRACT.safeParse(JSON.parse(JSON.stringify(one))).error).toBeUndefined();
    expect(comparison.ranking.map(({ report: i }) => i)).toEqual([2, 1, 0]);
    expect(comparison.ranking[2].tooCloseToCall).toBe(false);
    const text = puckerComparisonToText(comparison, OPTIONS);
    fits(text, 80);
    expect(text.replace(/\s+/g, ' ')).toContain(
      'woven-polyester+cutaway-2.5oz+woven-polyester@45 lies flatter than no backing for sure: ',
    );
  });

  itInFull('says plainly when it cannot tell them apart', async () => {
    // A sheet a fifth heavier may still be the softer one: nobody has measured either.
    const close = puckerComparison([inputs[1], await on('cutaway-3oz')]);
    expect(close.ranking[1].tooCloseToCall).toBe(true);
    expect(puckerComparisonToText(close, OPTIONS)).toContain('Too close to call: ');
    const same = puckerComparisonToText(puckerComparison([inputs[0], inputs[0]]), OPTIONS);
    expect(same).toContain('No difference is predicted');
    expect(flowing(same)).toContain('all 2 backings come out alike');
  });
});

describe('plain words for grades', () => {
  it.each([
    [5, 'lies flat'],
    [4.5, 'lies flat'],
    [4, 'slight'],
    [3.5, 'slight'],
    [3, 'visible'],
    [2.5, 'visible'],
    [2, 'bad'],
    [1, 'bad'],
  ])('%d %s', (grade, word) => {
    expect(riskWord(grade)).toBe(word);
  });
});
