import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { UpperEnd } from '../../lib/advice/meets.js';
import type { Why } from '../../lib/advice/reason.js';
import { advisePage, adviseToText, costInCents, relayCommand } from '../../lib/report/advise/document.js';
import type { PlanReport } from '../../lib/report/advise/plan-report.js';
import type { AdviseReport } from '../../lib/report/advise/report.js';
import { verdictOnGarment, verdictReasons } from '../../lib/report/vet/verdict.js';
import { cardInput, PLAN } from './card-input.js';
import { littleCrest } from './little-design.js';

const { advice } = cardInput(littleCrest());
const text = (changes: Partial<AdviseReport>): string =>
  adviseToText({ ...advice, ...changes }, { width: 80, units: 'mm' }).replace(/\s+/g, ' ');
const on = (plan: Partial<PlanReport>) => ({ recommended: { ...PLAN, ...plan } });

describe('the cost of a plan', () => {
  it('has parts that add up to the total as they are printed, none a cent off', () => {
    const amount = fc.integer({ min: 0, max: 20_000 }).map((thousandths) => thousandths / 1000);
    fc.assert(
      fc.property(amount, amount, amount, (backing, thread, machine) => {
        const cost = { ...PLAN.cost, total: backing + thread + machine, backing, thread, machine };
        const said = costInCents({ ...PLAN, cost });
        const parts = [said.backing, said.thread, said.machine].map((part) => Math.round(part * 100));
        expect(parts.reduce((sum, part) => sum + part, 0)).toBe(Math.round(said.total * 100));
        for (const [i, exact] of [backing, thread, machine].entries())
          expect(Math.abs(parts[i] - exact * 100)).toBeLessThan(1);
      }),
      { numRuns: 60 },
    );
    const parts = 'thread 0.13, machine 0.60 (7 min)';
    expect(text({})).toContain(`$1.23 a piece before labor: backing and topping 0.50, ${parts}`);
    expect(text(on({ topping: null }))).toContain(`$1.23 a piece before labor: backing 0.50, ${parts}`);
  });
});

describe('the command that lays the underlay of a plan', () => {
  const plan = (ids: number[], to: 'fill' | 'edge-run+fill' = 'fill') => ({
    ...PLAN,
    underlay: ids.map((object) => ({ object, to })),
  });

  it('names the objects as --objects takes them, and another underlay than a light fill', () => {
    expect(relayCommand(plan([3, 1, 2, 7]), 'names/a.dst')).toBe(
      'lieflat relay names/a.dst -o a-relaid.dst --objects 1-3,7',
    );
    expect(relayCommand(plan([5], 'edge-run+fill'), "Ann's name.dst")).toBe(
      'lieflat relay <file> -o <new file> --objects 5 --to edge-run+fill',
    );
    expect(relayCommand(plan([]), 'a.dst')).toBeNull();
    expect(text({ recommended: plan([5]) })).toContain(
      "under object 5 instead of any underlay in the file lieflat relay crest.dst -o crest-relaid.dst --objects 5 lays it and lists any it can't change",
    );
  });

  it('leaves the objects out where there are too many to type off', () => {
    const everySecond = Array.from({ length: 40 }, (_, i) => 2 * i + 1);
    expect(relayCommand(plan(everySecond), 'a.dst')).toBe('lieflat relay a.dst -o a-relaid.dst --objects …');
    expect(relayCommand(plan(everySecond, 'edge-run+fill'), 'a.dst')).toMatch(/… --to edge-run\+fill$/);
  });
});

describe('a cap that is not sewn from the bill up and from the center out', () => {
  it('is a caution', () => {
    expect(text({ capOrder: [3, 7] })).toMatch(
      /Caution: Caps sew from the bill up .* first at object 3, and may/,
    );
    expect(text({})).not.toContain('Caps sew');
  });
});

describe('the reason of a verdict', () => {
  const judged = {
    failures: [],
    warnings: [],
    relaidAway: [],
    hoop: { holds: true },
    meets: 'yes',
    againstRule: false,
  } as const;
  const upper: UpperEnd = { wrinkleMm: 0.4, grade: 3, washes: 8 };

  it.each<[Partial<Parameters<typeof verdictReasons>[0]>, string]>([
    [{ failures: ['needle-points-piled', 'does-not-fit-hoop'], meets: 'no' }, 'needle points piled'],
    [{ failures: ['does-not-fit-hoop'], hoop: { holds: false } }, 'too large for its hoop'],
    [{ hoop: null, warnings: ['no-trims'] }, 'no hoop in the list holds it'],
    [{ warnings: ['missing-lock', 'no-trims', 'satin-too-wide'] }, 'no lock stitches, no trims and 1 more'],
    [
      { warnings: ['wide-satin-heavy-underlay'], relaidAway: ['wide-satin-heavy-underlay'] },
      'its underlay has to be changed',
    ],
    [
      { warnings: ['no-trims'], meets: 'may' },
      'no trims; may wrinkle more than your standard allows after 8 washes',
    ],
    [{ againstRule: true }, 'the trade would not load this backing here'],
    [{ meets: 'no' }, 'wrinkles more than your standard allows'],
  ])('%j: %s', (change, said) => {
    const reasons = verdictReasons({ ...judged, ...change }, upper);
    expect(text({ verdict: 'warn', verdictReasons: reasons })).toMatch(
      new RegExp(`^CHECK FIRST crest\\.dst on [^:]*: ${said} `),
    );
    const page = advisePage(
      { ...advice, verdict: 'warn', verdictReasons: reasons },
      { title: 'a', units: 'mm' },
    );
    expect(page).toContain(`CHECK FIRST</strong> ${said}<`);
    expect(verdictOnGarment({ ...judged, ...change })).not.toBe('sound');
  });

  it('is none where it is good to sew', () => {
    expect(verdictReasons(judged, upper)).toEqual([]);
    expect(text({})).toMatch(/^GOOD TO SEW crest\.dst on performance knit, polyester backing /);
  });
});

describe('the page', () => {
  it('says how the plan stands to the standard first, and once', () => {
    const accepted = { grade: 3.5, washedGrade: 3.5, washes: 8 };
    const reasons: Why[] = [
      { code: 'meets-standard', params: { accepted, only: false } },
      { code: 'stable-woven', params: { small: true } },
    ];
    const page = advisePage({ ...advice, ...on({ reasons }) }, { title: 'crest.dst', units: 'mm' });
    expect(page).toMatch(/GOOD TO SEW<\/strong> The cheapest setup that meets your standard/);
    expect(page.match(/The cheapest setup/g)).toHaveLength(1);
    expect(page).toContain('<li>A small design on tight, stable fabric');
  });
});

describe('a woven sheet', () => {
  it('is told by what stands on its package, as bonded ones are by their names', () => {
    expect(text({})).toContain(
      'woven polyester: a thin woven sheet that stays and is cut away, about 1.6 oz/yd² (55 g/m²), not a bonded one',
    );
    const bonded = { sheet: 'cutaway-2.5oz', sheetName: 'cut-away', massGPerM2: 84.8 };
    expect(text(on({ toAskFor: [{ ...bonded, kind: 'cut-away' }] }))).not.toContain('oz/yd² (');
  });
});

describe('the hoop of a plan', () => {
  it('warns of one that the design is larger than, and says where none is known', () => {
    const hoop = { id: 'round-90', name: 'round hoop, 90 mm', holds: true, roomMm: 5 };
    expect(text({ hoop })).toContain('hoop round hoop, 90 mm as sewn');
    expect(text({ hoop: { ...hoop, roomMm: 0.35 } })).toContain(
      'hoop round hoop, 90 mm; only 0.35 mm (0.014 in) of its field is left on each side: center it well and trace it first as sewn',
    );
    expect(text({ hoop: { ...hoop, holds: false } })).toMatch(/NOT round hoop, 90 mm: .*needle would hit/);
    expect(text({ hoop: null })).toContain('NO HOOP IN THE LIST HOLDS THIS DESIGN');
  });
});

describe('what is wrong with the file of a plan', () => {
  it('is named, but not twice what the hoop is told of', () => {
    expect(text({ failures: [] })).not.toContain('DO NOT SEW');
    expect(text({ failures: ['does-not-fit-hoop'] })).not.toContain('DO NOT SEW');
    const verdictReasons = [{ because: 'failures', codes: ['needle-points-piled'] }] as const;
    const failures = ['needle-points-piled', 'does-not-fit-hoop'] as const;
    expect(text({ verdict: 'fail', verdictReasons, failures })).toMatch(
      /^DO NOT SEW crest\.dst on [^:]*: needle points piled Have the file fixed before you hoop: lieflat vet says where/,
    );
  });

  it('is said before the setup where it is only to be looked at, and what other underlay mends is no matter of the digitizer', () => {
    const piled = text({ verdict: 'warn', warnings: ['needle-points-piled'] });
    expect(piled).toMatch(
      /^CHECK FIRST crest\.dst on \S.* Before you hoop: ask the digitizer about needle points piled, see lieflat vet\. backing/,
    );
    const heavy = ['wide-satin-heavy-underlay'] as const;
    const relaid = text({ verdict: 'warn', warnings: heavy, relaidAway: heavy });
    expect(relaid).toContain('Before you hoop: have the underlay changed as said below. backing');
    expect(relaid).not.toContain('digitizer');
  });
});

describe('how a plan looks', () => {
  it('says in words what would print as nothing', () => {
    const flat = { ...PLAN.riskNow, grade: 5, wrinkleMm: 0, range: { ...PLAN.riskNow.range } };
    const nothing = text(on({ riskNow: { ...flat, range: { ...flat.range, wrinkleMm: [0, 0.001] } } }));
    expect(nothing).toContain('as sewn LIES FLAT (grade 5 of 5): no wrinkles predicted 8 washes');
    const little = text(on({ riskNow: { ...flat, range: { ...flat.range, wrinkleMm: [0, 0.12] } } }));
    expect(little).toContain('no wrinkles predicted (most likely under 0.12 mm)');
    expect(text({})).toContain('wrinkles about 0.31 mm high (most likely 0.20 to 0.50 mm)');
  });
});

describe('why a plan is where it is', () => {
  const accepted = { grade: 3.5, washedGrade: 3.5, washes: 8 };
  const why = (reason: Why): string => text(on({ reasons: [reason] })).split(' Why - ')[1];

  it('names the standard once for new and washed where it is the same', () => {
    expect(why({ code: 'meets-standard', params: { accepted, only: false } })).toMatch(
      /^The cheapest setup that meets your standard \(grade 3\.5, new and after 8 washes\)\./,
    );
    expect(
      why({ code: 'comes-closest', params: { accepted: { ...accepted, grade: 4 }, only: false } }),
    ).toMatch(
      /^No backing fully meets your standard \(grade 4 new and grade 3\.5 after 8 washes\); this comes/,
    );
  });

  it('names what may miss the standard: the upper end of the range, with its height and grade', () => {
    const may = (upper: UpperEnd | null) =>
      why({ code: 'may-miss-standard', params: { accepted, only: false, upper } });
    expect(may({ wrinkleMm: 0.31, grade: 3, washes: 8 })).toMatch(
      /^May miss your standard \(grade 3\.5, new and after 8 washes\): wrinkles may come out as high as 0\.31 mm \(0\.012 in\) after 8 washes, grade 3\. No other setup by these rules is likelier/,
    );
    expect(may({ wrinkleMm: 0.31, grade: 3, washes: 0 })).toContain('0.31 mm (0.012 in) as sewn, grade 3.');
    expect(may(null)).toContain(': it is close. No other setup');
  });

  it('says of a cost whether labor is in it', () => {
    const price = {
      ...{ quantity: 24, each: 4.35, run: 119.4, labor: 0.77, setupFee: 15, digitizing: 0 },
      ...{ cost: { each: 2.61, run: 62.64 }, marginPercent: 40, offPercent: 0, spoilagePercent: 2 },
      ...{ heads: 1, machineMinutes: 48, laborMinutes: 60, ratesAreBuiltIn: false },
    };
    const said = text(on({ price }));
    expect(said).toContain('cost $1.23 a piece before labor: ');
    expect(said).toContain(
      'cost of 24 $62.64: 2.61 a piece with labor 0.77 and 2 % spoiled pieces price of 24',
    );
    expect(said).toContain('price of 24 $119.40: 4.35 a piece (margin 40 %), setup fee 15.00');
    expect(said).not.toContain('Not your figures yet');
    expect(text(on({ price: { ...price, ratesAreBuiltIn: true } }))).toContain(
      'Put in yours before you quote',
    );
  });

  it('tells of the usual sheet why it goes before a flatter one of the same price', () => {
    expect(why({ code: 'usual-sheet-first', params: { flatterMm: 0.03, washes: 8 } })).toMatch(
      /^The usual sheet goes first\. Another setup at the same price lies 0\.03 mm \(0\.001 in\) flatter after 8 washes/,
    );
  });

  it('says of two setups of one price that they cost the same', () => {
    const params = { cost: 'same', lowerMm: 0.03, washes: 1, accepted } as const;
    expect(why({ code: 'beside-recommended', params })).toMatch(
      /^Costs the same as the recommended setup; its wrinkles are 0\.03 mm \(0\.001 in\) lower after one wash\./,
    );
  });
});
