/** The rules about backing one by one, each with a near miss. All of it is common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AdviceJob } from '../../lib/advice/job.js';
import { breaksBindingRule } from '../../lib/advice/rules/binding.js';
import { crispOnSheer } from '../../lib/advice/rules/crisp-on-sheer.js';
import { crossedWoven } from '../../lib/advice/rules/crossed-woven.js';
import { nothingToRinse } from '../../lib/advice/rules/nothing-to-rinse.js';
import type { StackRule } from '../../lib/advice/rules/rule.js';
import { STACK_RULES } from '../../lib/advice/rules/rules.js';
import { sheetsThatStay } from '../../lib/advice/rules/sheets-that-stay.js';
import { softCap } from '../../lib/advice/rules/soft-cap.js';
import { someBacking } from '../../lib/advice/rules/some-backing.js';
import { stableWoven } from '../../lib/advice/rules/stable-woven.js';
import { structuredCap } from '../../lib/advice/rules/structured-cap.js';
import { tearAwayOnRigid } from '../../lib/advice/rules/tear-away-on-rigid.js';
import { towelBacking } from '../../lib/advice/rules/towel-backing.js';
import { washableSheets } from '../../lib/advice/rules/washable-sheets.js';
import { wovenOnElastic } from '../../lib/advice/rules/woven-on-elastic.js';
import { wovenSandwich } from '../../lib/advice/rules/woven-sandwich.js';
import {
  allowedStacks,
  anglesOf,
  everyStack,
  inReadingOrder,
  rulesOn,
} from '../../lib/advice/stack-space.js';
import { CATALOGUE, type Catalogue } from '../../lib/materials/catalogue.js';
import type { Fabric } from '../../lib/materials/fabric.js';
import { parseStack, stackText } from '../../lib/mechanics/stack-notation.js';
import { sayCoded } from '../../lib/report/phrases/coded.js';
import { wordsFor } from '../../lib/report/phrases/words.js';
import { jobOn, type Strokes } from './jobs.js';
import { everyStack as rawStacks } from './raw-stacks.js';

const allows = (rule: StackRule, job: AdviceJob, stack: string): boolean | null =>
  rule.on(job)?.allows(parseStack(stack, job.catalogue)) ?? null;
const but = (job: AdviceJob, change: Partial<Fabric>): AdviceJob => ({
  ...job,
  fabric: { ...job.fabric, ...change },
});
const figure = (value: number) => ({ value, low: value, high: value, unit: '', basis: 'test' });

const one: Strokes = [0, 5];
const letters: Strokes = [0, 90, 45];
/** The most that film alone carries, and a stitch more. */
const [LIGHT, HEAVY] = [8000, 8001].map((stitches) => jobOn('terry-towel', one, { stitches }));

describe('each rule', () => {
  it.each<[string, StackRule, AdviceJob, string, boolean | null]>([
    ['none', someBacking, jobOn('denim'), 'none', false],
    ['something', someBacking, jobOn('denim'), 'soluble-film', true],
    ['film on dry fabric', nothingToRinse, jobOn('fine-sweater'), 'cutaway-2.5oz+soluble-film', false],
    ['no film on dry fabric', nothingToRinse, jobOn('fine-sweater'), 'cutaway-2.5oz', true],
    ['film on washed fabric', nothingToRinse, jobOn('pique-knit'), 'soluble-film', null],
    ['tear-away on stretch', sheetsThatStay, jobOn('fleece'), 'cutaway-3oz+tearaway-1.8oz-firm', false],
    ['film on stretch', sheetsThatStay, jobOn('pique-knit'), 'soluble-film', false],
    [
      'cut-away and woven on stretch',
      sheetsThatStay,
      jobOn('pique-knit'),
      'cutaway-3oz+woven-polyester',
      true,
    ],
    ['no stretch', sheetsThatStay, jobOn('twill'), 'tearaway-1.8oz-firm', null],
    ['a cap of jersey', sheetsThatStay, but(jobOn('jersey-knit'), { cap: true }), 'cap-backing', null],
    ['bonded on elastic', wovenOnElastic, jobOn('performance-knit'), 'cutaway-2.5oz', false],
    [
      'bonded behind one woven',
      wovenOnElastic,
      jobOn('stretch-scrub'),
      'woven-polyester+cutaway-2.5oz',
      false,
    ],
    [
      'bonded between two woven',
      wovenOnElastic,
      jobOn('stretch-scrub'),
      'woven-polyester+cutaway-2.5oz+woven-polyester',
      true,
    ],
    ['one woven on elastic', wovenOnElastic, jobOn('performance-knit'), 'woven-polyester', true],
    ['jersey', wovenOnElastic, jobOn('jersey-knit'), 'cutaway-2.5oz', null],
    ['letters on one woven', crossedWoven, jobOn('performance-knit', letters), 'woven-polyester', false],
    [
      'letters on two alike',
      crossedWoven,
      jobOn('performance-knit', letters),
      'woven-polyester@45+woven-polyester@45',
      false,
    ],
    [
      'letters on two crossed',
      crossedWoven,
      jobOn('performance-knit', letters),
      'woven-polyester+woven-polyester@45',
      true,
    ],
    [
      'letters on three',
      crossedWoven,
      jobOn('performance-knit', letters),
      'woven-polyester+woven-polyester+woven-polyester@45',
      true,
    ],
    ['strokes nearly alike', crossedWoven, jobOn('performance-knit', one), 'woven-polyester', null],
    [
      '5 and 175 degrees are alike',
      crossedWoven,
      jobOn('performance-knit', [5, 175]),
      'woven-polyester',
      null,
    ],
    ['a ring', crossedWoven, jobOn('performance-knit', [null]), 'woven-polyester', false],
    ['no satin', crossedWoven, jobOn('performance-knit', []), 'woven-polyester', null],
    [
      'the sandwich',
      wovenSandwich,
      jobOn('performance-knit-thin'),
      'woven-polyester+cutaway-2.5oz+woven-polyester@45',
      true,
    ],
    [
      'a heavier middle',
      wovenSandwich,
      jobOn('performance-knit-thin'),
      'woven-polyester+cutaway-3oz+woven-polyester@45',
      false,
    ],
    [
      'nothing turned',
      wovenSandwich,
      jobOn('performance-knit-thin'),
      'woven-polyester+cutaway-2.5oz+woven-polyester',
      false,
    ],
    [
      'nothing between',
      wovenSandwich,
      jobOn('performance-knit-thin'),
      'woven-polyester+woven-polyester@45',
      false,
    ],
    [
      'stretch just below that of the thinnest',
      wovenSandwich,
      but(jobOn('performance-knit-thin'), { stretch: figure(299) }),
      'cutaway-2.5oz',
      null,
    ],
    ['firm on canvas', tearAwayOnRigid, jobOn('canvas-tote'), 'tearaway-1.8oz-firm', true],
    ['crisp on canvas', tearAwayOnRigid, jobOn('canvas-tote'), 'tearaway-1.8oz-crisp', false],
    ['cut-away on canvas', tearAwayOnRigid, jobOn('canvas-tote'), 'cutaway-2.5oz', false],
    ['denim gives a little', tearAwayOnRigid, jobOn('denim'), 'cutaway-2.5oz', null],
    ['crisp on sheer', crispOnSheer, jobOn('sheer-linen'), 'tearaway-1.8oz-crisp', true],
    ['firm on sheer', crispOnSheer, jobOn('sheer-linen'), 'tearaway-1.8oz-firm', false],
    ['cut-away on sheer shows', crispOnSheer, jobOn('sheer-linen'), 'cutaway-2.5oz', false],
    ['poplin', crispOnSheer, jobOn('poplin'), 'tearaway-1.8oz-crisp', null],
    ['firm on buckram', structuredCap, jobOn('cap-structured'), 'tearaway-1.8oz-firm', true],
    ['one cap backing on buckram', structuredCap, jobOn('cap-structured'), 'cap-backing', true],
    ['cut-away on buckram', structuredCap, jobOn('cap-structured'), 'cutaway-2.5oz', false],
    ['one piece behind a soft cap', softCap, jobOn('cap-unstructured'), 'cap-backing', false],
    ['two pieces behind a soft cap', softCap, jobOn('cap-unstructured'), 'cap-backing+cap-backing', true],
    ['firm in a soft cap', softCap, jobOn('cap-unstructured'), 'cap-backing+tearaway-1.8oz-firm', false],
    ['a towel on film', towelBacking, jobOn('terry-towel'), 'soluble-film', true],
    ['a towel on cut-away', towelBacking, jobOn('terry-towel'), 'cutaway-2.5oz', false],
    ['a light towel on tear-away', towelBacking, LIGHT, 'tearaway-1.8oz-firm', false],
    ['a heavy towel on firm', towelBacking, HEAVY, 'tearaway-1.8oz-firm', true],
    ['a heavy towel on crisp', towelBacking, HEAVY, 'tearaway-1.8oz-crisp', true],
    ['a heavy towel on cap backing', towelBacking, HEAVY, 'cap-backing', false],
    ['a heavy towel on film', towelBacking, HEAVY, 'soluble-film', true],
    ['a heavy towel on cut-away', towelBacking, HEAVY, 'cutaway-2.5oz', false],
    ['pile that stretches', towelBacking, jobOn('fleece'), 'cutaway-2.5oz', null],
    [
      'a towel that must not get wet',
      towelBacking,
      but(jobOn('terry-towel'), { washable: false }),
      'soluble-film',
      null,
    ],
    ['small on scrubs', stableWoven, jobOn('woven-scrub'), 'tearaway-1.8oz-firm', true],
    ['crisp on scrubs', stableWoven, jobOn('woven-scrub'), 'tearaway-1.8oz-crisp', false],
    ['cap backing on scrubs', stableWoven, jobOn('woven-scrub'), 'cap-backing', false],
    ['woven polyester on scrubs', stableWoven, jobOn('woven-scrub'), 'woven-polyester', false],
    ['too light', stableWoven, jobOn('poplin'), 'tearaway-1.8oz-firm', false],
    [
      'just too light',
      stableWoven,
      but(jobOn('poplin'), { mass: figure(139) }),
      'tearaway-1.8oz-firm',
      false,
    ],
    ['heavy enough', stableWoven, but(jobOn('poplin'), { mass: figure(140) }), 'tearaway-1.8oz-firm', true],
    ['a firm knit', stableWoven, but(jobOn('twill'), { structure: 'knit' }), 'tearaway-1.8oz-firm', false],
    ['too wide', stableWoven, jobOn('twill', one, { widthMm: 100.1 }), 'tearaway-1.8oz-firm', false],
    ['wide enough', stableWoven, jobOn('twill', one, { widthMm: 100 }), 'tearaway-1.8oz-firm', true],
    ['too high', stableWoven, jobOn('twill', one, { heightMm: 101 }), 'tearaway-1.8oz-firm', false],
    ['too many stitches', stableWoven, jobOn('twill', one, { stitches: 8001 }), 'tearaway-1.8oz-firm', false],
    ['large, on cut-away', stableWoven, jobOn('twill', one, { stitches: 80_000 }), 'cutaway-3.5oz', true],
  ])('%s', (_, rule, job, stack, expected) => {
    expect(allows(rule, job, stack)).toBe(expected);
  });

  it('a sheet that must not be washed stays off washed fabric', () => {
    const paper = { ...CATALOGUE.sheets['cutaway-2.5oz'], id: 'paper', washable: false };
    const catalogue: Catalogue = { ...CATALOGUE, sheets: { ...CATALOGUE.sheets, paper } };
    const on = (fabric: string): AdviceJob => ({ ...jobOn(fabric), catalogue });
    expect(allows(washableSheets, on('twill'), 'cutaway-2.5oz+paper')).toBe(false);
    expect(allows(washableSheets, on('twill'), 'cutaway-2.5oz')).toBe(true);
    expect(allows(washableSheets, on('fine-sweater'), 'paper')).toBeNull();
    expect(
      allowedStacks(on('twill'))
        .stacks.flat()
        .some(({ sheet }) => sheet === 'paper'),
    ).toBe(false);
  });

  it('has its own id, says what it rests on, and asks for something in a sentence', () => {
    expect(new Set(STACK_RULES.map(({ id }) => id)).size).toBe(STACK_RULES.length);
    for (const rule of STACK_RULES) {
      expect(rule.basis).toBe('common practice, no source');
      const why = Object.keys(CATALOGUE.fabrics).flatMap((fabric) => rule.on(jobOn(fabric, letters)) ?? []);
      expect(why.length, rule.id).toBeGreaterThan(0);
      // What goes without saying has none.
      for (const { why: reason } of why) if (reason !== null) expect(reason.code).toBe(rule.id);
    }
  });
});

/** Fabric, design, how many stacks, one of them; counted by hand from the sheets that are let in. */
const TABLE: readonly [fabric: string, strokes: Strokes, stacks: number, example: string][] = [
  // Mesh up to three times, 2.5 oz up to twice, 3 and 3.5 oz once: 7; woven, the first straight: 1 + 2 + 3.
  ['pique-knit', letters, 13, 'cutaway-2.5oz'],
  ['jersey-knit', letters, 13, 'cutaway-2.5oz+cutaway-2.5oz'],
  ['jersey-tee', letters, 13, 'cutaway-mesh-1.5oz'],
  ['fleece', letters, 13, 'cutaway-3oz'],
  ['fine-sweater', letters, 13, 'cutaway-2.5oz'],
  // Crossed: the pair, the pair and a third of either angle, the pair about mesh or 2.5 oz: 1 + 2 + 2.
  ['performance-knit', letters, 5, 'woven-polyester+woven-polyester@45'],
  ['stretch-scrub', letters, 5, 'woven-polyester+cutaway-2.5oz+woven-polyester@45'],
  // One direction: one to three woven, 1 + 2 + 3, and either of two pairs about mesh or 2.5 oz, 4.
  ['performance-knit', one, 10, 'woven-polyester'],
  ['performance-knit-thin', letters, 1, 'woven-polyester+cutaway-2.5oz+woven-polyester@45'],
  // Mesh up to three times, the others up to twice: 9; the firm tear-away up to three times.
  ['woven-scrub', letters, 12, 'tearaway-1.8oz-firm'],
  ['twill', letters, 12, 'cutaway-2.5oz'],
  ['denim', letters, 12, 'cutaway-2.5oz+cutaway-2.5oz'],
  // Light: mesh up to three times, 2.5 oz up to twice, 3 and 3.5 oz once.
  ['poplin', letters, 7, 'cutaway-2.5oz+cutaway-2.5oz'],
  ['nylon-jacket', letters, 7, 'cutaway-mesh-1.5oz'],
  ['silk', letters, 7, 'cutaway-mesh-1.5oz'],
  ['canvas-tote', letters, 3, 'tearaway-1.8oz-firm'],
  // Three would be felt.
  ['sheer-linen', letters, 2, 'tearaway-1.8oz-crisp'],
  ['terry-towel', letters, 3, 'soluble-film'],
  // Two kinds, up to three of each.
  ['cap-structured', letters, 6, 'cap-backing'],
  // Two or three pieces.
  ['cap-unstructured', letters, 2, 'cap-backing+cap-backing'],
  ['beanie-knit', letters, 13, 'cutaway-2.5oz'],
  ['softshell', letters, 13, 'cutaway-2.5oz'],
  ['leggings-knit', letters, 5, 'woven-polyester+woven-polyester@45'],
  ['leather', letters, 3, 'tearaway-1.8oz-firm'],
];

describe('what the rules leave together', () => {
  it('is told for every fabric', () => {
    expect(new Set(TABLE.map(([fabric]) => fabric))).toEqual(new Set(Object.keys(CATALOGUE.fabrics)));
  });

  it.each(TABLE)('%s under strokes at %j: %i stacks, as %s', (fabric, strokes, count, example) => {
    const texts = allowedStacks(jobOn(fabric, strokes)).stacks.map(stackText);
    expect(texts.length).toBe(count);
    expect(new Set(texts).size).toBe(count);
    expect(texts).toContain(example);
  });

  it.each(Object.keys(CATALOGUE.fabrics))(
    '%s: the same as every sequence of sheets held against the rules',
    (fabric) => {
      const job = jobOn(fabric, letters);
      const rulings = STACK_RULES.flatMap((rule) => rule.on(job) ?? []);
      // A sheet at an angle that is another of its angles over again is looked at as that one.
      const settled = rawStacks(Object.keys(CATALOGUE.sheets)).map((stack) =>
        stack.map(({ sheet, angleDeg }) => {
          const angles = anglesOf(CATALOGUE.sheets[sheet]);
          return { sheet, angleDeg: angles.includes(angleDeg) ? angleDeg : 0 };
        }),
      );
      const expected = settled
        .filter((stack) => rulings.every((ruling) => ruling.allows(stack)))
        .map((stack) => stackText(inReadingOrder(stack, CATALOGUE)));
      expect(new Set(allowedStacks(job).stacks.map(stackText))).toEqual(new Set(expected));
    },
  );

  it('does not hang on the order of the sheets', () => {
    const stacks = everyStack(CATALOGUE);
    for (const fabric of Object.keys(CATALOGUE.fabrics))
      for (const ruling of STACK_RULES.flatMap((rule) => rule.on(jobOn(fabric, letters)) ?? []))
        for (const stack of stacks) expect(ruling.allows(stack.toReversed())).toBe(ruling.allows(stack));
  });

  it('is never nothing, whatever fabric is made of', () => {
    const flag = fc.boolean();
    const onFabric = fc.record({
      structure: fc.constantFrom('knit', 'woven'),
      stretchy: flag,
      elastic: flag,
      rigid: flag,
      pile: flag,
      open: flag,
      sheer: flag,
      cap: flag,
      washable: flag,
      stretch: fc.constantFrom(1, 60, 350).map(figure),
      mass: fc.constantFrom(90, 200, 450).map(figure),
    });
    fc.assert(
      fc.property(onFabric, fc.constantFrom(one, letters), (change, strokes) => {
        const job = but(jobOn('twill', strokes), change as Partial<Fabric>);
        expect(allowedStacks(job).stacks.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });
});

describe('the order in which a stack is read', () => {
  it.each([
    ['woven-polyester@45+woven-polyester', 'woven-polyester+woven-polyester@45'],
    ['woven-polyester@45+cutaway-2.5oz+woven-polyester', 'woven-polyester+cutaway-2.5oz+woven-polyester@45'],
    ['cutaway-3oz+woven-polyester', 'woven-polyester+cutaway-3oz'],
    ['cutaway-3oz+cutaway-2.5oz', 'cutaway-2.5oz+cutaway-3oz'],
    [
      'woven-polyester@45+woven-polyester@45+woven-polyester',
      'woven-polyester+woven-polyester@45+woven-polyester@45',
    ],
  ])('%s is laid as %s', (given, laid) => {
    expect(stackText(inReadingOrder(parseStack(given, CATALOGUE), CATALOGUE))).toBe(laid);
  });

  it('turns a sheet that is not alike along and across by a right angle too', () => {
    const woven = CATALOGUE.sheets['woven-polyester'];
    expect(anglesOf({ ...woven, membraneAcross: figure(13) })).toEqual([0, 45, 90]);
    expect(anglesOf({ ...woven, bendingAcross: figure(3) })).toEqual([0, 45, 90]);
  });
});

describe('why', () => {
  it('names only the rules that ruled something out, the general first', () => {
    const { why } = allowedStacks(jobOn('performance-knit-thin', letters));
    expect(why.map(({ code }) => code)).toEqual(['sheets-that-stay', 'woven-on-elastic', 'woven-sandwich']);
  });

  // On the left what is loaded, on the right the rules that it breaks and those that speak of it.
  it.each<[string, string, string[], string[]]>([
    ['pique-knit', 'cutaway-2.5oz', [], ['sheets-that-stay']],
    ['pique-knit', 'tearaway-1.8oz-firm', ['sheets-that-stay'], []],
    ['pique-knit', 'none', ['some-backing'], []],
    ['performance-knit', 'cutaway-2.5oz', ['woven-on-elastic'], ['sheets-that-stay']],
    ['performance-knit', 'woven-polyester', ['crossed-woven'], ['sheets-that-stay', 'woven-on-elastic']],
    ['fine-sweater', 'cutaway-2.5oz', [], ['sheets-that-stay']],
    ['fine-sweater', 'soluble-film', ['nothing-to-rinse', 'sheets-that-stay'], []],
    ['terry-towel', 'soluble-film', [], ['towel-backing']],
    ['terry-towel', 'tearaway-1.8oz-firm', ['towel-backing'], []],
    ['twill', 'cap-backing', ['stable-woven'], []],
  ])(
    'of a backing that was asked for: %s on %s breaks %j, and %j speak of it',
    (fabric, stack, broken, kept) => {
      const told = rulesOn(jobOn(fabric, letters), parseStack(stack, CATALOGUE));
      const against = told.flatMap((why) => (why.code === 'against-rule' ? [why.params.rule.code] : []));
      expect(against).toEqual(broken);
      // What holds or harms bears on the verdict; what is about looks or weight does not.
      expect(breaksBindingRule(told)).toBe(
        against.some((code) => ['sheets-that-stay', 'some-backing', 'nothing-to-rinse'].includes(code)),
      );
      expect(told.slice(broken.length).map(({ code }) => code)).toEqual(kept);
    },
  );

  it('says whether film alone carries the design on a towel', () => {
    // Film, firm and crisp tear-away, up to three of each.
    expect(allowedStacks(HEAVY).stacks.length).toBe(9);
    const { advice } = wordsFor({ units: 'mm', detail: 'full' });
    const [light, heavy] = [LIGHT, HEAVY].map((job) =>
      sayCoded(allowedStacks(job).why.find(({ code }) => code === 'towel-backing')!, advice.why),
    );
    expect(light).toContain('film as backing rinses out');
    expect(light).not.toContain('tear-away');
    expect(heavy).toContain('up to about 8,000 stitches; this design has 8,001, and a tear-away');
  });
});
