import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RankedPlan, StackOffer } from '../../lib/advice/candidates.js';
import { NEEDLES } from '../../lib/materials/needles.js';
import { stackText } from '../../lib/mechanics/stack-notation.js';
import { type OfferedLine, type OrderSetup, sharedSetup } from '../../lib/order/shared-setup.js';

const ONE = [{ sheet: 'cutaway-2.5oz', angleDeg: 0 }];
const TWO = [...ONE, ...ONE];
const WOVEN = [{ sheet: 'woven-polyester', angleDeg: 0 }];

const ranked = (
  stack: StackChoice['stack'],
  total: number,
  heightMm: number,
  likely = heightMm < 0.3,
): StackChoice => ({
  stack,
  plans: [{ to: null, total, nowMm: heightMm, washedMm: heightMm, likely }],
});

interface StackChoice {
  stack: StackOffer['stack'];
  plans: readonly RankedPlan[];
}

interface Named extends OfferedLine {
  name: string;
  stacks: readonly StackChoice[];
}
const line = (name: string, stacks: readonly StackChoice[], more: Partial<OfferedLine> = {}): Named => ({
  name,
  quantity: 1,
  stacks,
  offers: stacks.map(({ stack, plans }) => ({
    stack,
    leastTotal: Math.min(...plans.map(({ total }) => total)),
  })),
  topping: null,
  needle: '75-11-ball',
  speedSpm: 800,
  ...more,
});

const TURNED = [{ sheet: 'cutaway-2.5oz', angleDeg: 45 }];
const STACKS = [ONE, TURNED, WOVEN, TWO, [...WOVEN, ...ONE], [...TWO, ...ONE]];
const ROWS = { minLength: 1, maxLength: 4 };
/** Costs, heights and chances that are often alike: ties have to fall the same way. */
const plansOfStack = fc.record({
  plans: fc.array(
    fc.record({
      to: fc.constant(null),
      total: fc.constantFrom(0.1, 0.2, 0.3),
      nowMm: fc.constantFrom(0.05, 0.1, 0.4),
      washedMm: fc.constantFrom(0.05, 0.2, 0.5),
      likely: fc.boolean(),
    }),
    { minLength: 1, maxLength: 2 },
  ),
  chance: fc.constantFrom(0, 0.5, 0.52, 0.91, 1),
});

/** The stack by a search that looks at all of them first: the cheapest three that likely serve, and the flattest, tried in turn. */
function rankedBeforehand(
  lines: readonly Named[],
  chanceOf: (line: Named, setup: OrderSetup) => number,
): string {
  const heightOf = ({ nowMm, washedMm }: RankedPlan) => Math.max(nowMm, washedMm);
  const all = STACKS.map((stack) => {
    const plans = lines.map((one) => {
      const own = one.stacks.find((other) => other.stack === stack)!.plans;
      const likely = own.filter((plan) => plan.likely);
      const plan =
        likely.length > 0
          ? likely.toSorted((a, b) => a.total - b.total)[0]
          : own.toSorted((a, b) => heightOf(a) - heightOf(b))[0];
      return { one, plan };
    });
    const highest = Math.max(...plans.map(({ plan }) => heightOf(plan)));
    return {
      text: stackText(stack),
      total: plans.reduce((sum, { one, plan }) => sum + one.quantity * Math.round(plan.total * 10), 0),
      unusual: stack.some(({ sheet }) => sheet !== 'cutaway-2.5oz') ? 1 : 0,
      highest,
      effort: 10 * stack.length + stack.filter(({ angleDeg }) => angleDeg !== 0).length,
      likely: plans.every(({ plan }) => plan.likely),
      worst: plans.toSorted((a, b) => heightOf(b.plan) - heightOf(a.plan))[0].one,
    };
  }).toSorted(
    (a, b) => a.total - b.total || a.unusual - b.unusual || a.highest - b.highest || a.effort - b.effort,
  );
  const flattest = all.reduce((best, one) => (one.highest < best.highest ? one : best));
  const tried: { option: (typeof all)[number]; chance: number }[] = [];
  for (const option of new Set([...all.filter(({ likely }) => likely).slice(0, 3), flattest])) {
    const on = (one: Named) => chanceOf(one, { stackText: option.text } as OrderSetup);
    const first = on(option.worst);
    const chance = first < 0.9 ? first : Math.min(...lines.map(on));
    tried.push({ option, chance });
    if (chance >= 0.9) break;
  }
  const most = Math.max(...tried.map(({ chance }) => chance));
  if (most === 0) return flattest.text;
  const near = tried.filter(({ chance }) => chance >= most - 0.03).map(({ option }) => option);
  return near.toSorted((a, b) => all.indexOf(a) - all.indexOf(b))[0].text;
}

/** Chooses, and tells what was worked out on the way. */
async function chosen(
  lines: readonly Named[],
  chance: (line: Named, setup: OrderSetup) => number | null,
): Promise<{ setup: OrderSetup; asked: string[]; ranked: string[] }> {
  const asked: string[] = [];
  const ranked: string[] = [];
  const setup = await sharedSetup(lines, NEEDLES, {
    plansOn: async ({ name, stacks }, text) => {
      ranked.push(`${name} ${text}`);
      return stacks.find(({ stack }) => stackText(stack) === text)?.plans ?? null;
    },
    chanceOf: async (one, on) => {
      asked.push(`${one.name} ${on.stackText}`);
      return chance(one, on);
    },
  });
  return { setup, asked, ranked };
}

describe('the setup that lines share', () => {
  it('is the cheapest on which every line keeps the standard, the worst looked at first', async () => {
    const lines = [
      line('flat', [ranked(ONE, 0.1, 0.1), ranked(TWO, 0.2, 0.05)]),
      line('wide', [ranked(ONE, 0.1, 0.25), ranked(TWO, 0.2, 0.1)]),
    ];
    const { setup, asked } = await chosen(lines, () => 1);
    expect(setup.stackText).toBe('cutaway-2.5oz');
    expect(asked).toEqual(['wide cutaway-2.5oz', 'flat cutaway-2.5oz']);
  });

  it('leaves a setup on which the worst line fails without a look at the others', async () => {
    const lines = [
      line('flat', [ranked(ONE, 0.1, 0.1), ranked(TWO, 0.2, 0.05)]),
      line('wide', [ranked(ONE, 0.1, 0.25), ranked(TWO, 0.2, 0.1)]),
    ];
    const { setup, asked } = await chosen(lines, (_, { stack }) => (stack.length > 1 ? 0.95 : 0.4));
    expect(setup.stackText).toBe('cutaway-2.5oz+cutaway-2.5oz');
    expect(asked[0]).toBe('wide cutaway-2.5oz');
    expect(asked).not.toContain('flat cutaway-2.5oz');
  });

  it('comes closest for the worst line where none keeps the standard surely', async () => {
    const lines = [line('a', [ranked(ONE, 0.1, 0.6), ranked(TWO, 0.2, 0.5), ranked(WOVEN, 0.3, 0.4)])];
    const chances = { 'cutaway-2.5oz': 0.1, 'cutaway-2.5oz+cutaway-2.5oz': 0.2, 'woven-polyester': 0.6 };
    const { setup } = await chosen(lines, (_, on) => chances[on.stackText as keyof typeof chances]);
    expect(setup.stackText).toBe('woven-polyester');
    const none = await chosen(lines, () => 0);
    expect(none.setup.stackText).toBe('woven-polyester');
  });

  it('weighs cost by pieces', async () => {
    const few = line('few', [ranked(ONE, 0.3, 0.1), ranked(WOVEN, 0.1, 0.1)]);
    const many = line('many', [ranked(ONE, 0.1, 0.1), ranked(WOVEN, 0.2, 0.1)], { quantity: 100 });
    expect((await chosen([few, many], () => 1)).setup.stackText).toBe('cutaway-2.5oz');
    expect((await chosen([{ ...few, quantity: 1000 }, many], () => 1)).setup.stackText).toBe(
      'woven-polyester',
    );
  });

  it('has the needle that most pieces call for, whatever one line of small letters would take', async () => {
    const stacks = [ranked(ONE, 0.1, 0.1)];
    const many = line('many', stacks, { quantity: 24 });
    const small = line('small', stacks, { quantity: 2, needle: '65-9-ball' });
    expect((await chosen([small, many], () => 1)).setup.needle).toBe('75-11-ball');
    expect((await chosen([{ ...small, quantity: 30 }, many], () => 1)).setup.needle).toBe('65-9-ball');
    expect((await chosen([{ ...small, quantity: 24 }, many], () => 1)).setup.needle).toBe('75-11-ball');
  });

  it('is one that all lines may be sewn on, with the slowest speed', async () => {
    const lines = [
      line('a', [ranked(ONE, 0.1, 0.1), ranked(TWO, 0.2, 0.1)], { speedSpm: 650 }),
      line('b', [ranked(TWO, 0.2, 0.1)], { needle: '80-12-sharp', topping: 'soluble-film' }),
    ];
    const { setup } = await chosen(lines, () => 1);
    expect(setup).toEqual({
      stack: TWO,
      stackText: 'cutaway-2.5oz+cutaway-2.5oz',
      topping: 'soluble-film',
      needle: '80-12-sharp',
      speedSpm: 650,
    });
  });

  it('ranks no stack that costs more than the one it takes', async () => {
    const lines = [
      line('flat', [ranked(TWO, 0.2, 0.05), ranked(ONE, 0.1, 0.1)]),
      line('wide', [ranked(TWO, 0.2, 0.1), ranked(ONE, 0.1, 0.25)]),
    ];
    expect((await chosen(lines, () => 1)).ranked).toEqual(['flat cutaway-2.5oz', 'wide cutaway-2.5oz']);
    expect((await chosen(lines, () => 0.4)).ranked).toHaveLength(4);
  });

  it('is the one that ranking every stack beforehand comes to', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(plansOfStack, { minLength: 6, maxLength: 6 }), ROWS),
        async (rows) => {
          const lines = rows.map((row, k) =>
            line(
              `line ${k}`,
              row.map(({ plans }, n) => ({ stack: STACKS[n], plans })),
              { quantity: 1 + (k % 3) },
            ),
          );
          const chance = ({ name }: Named, { stackText: text }: OrderSetup): number =>
            rows[Number(name.slice(5))][STACKS.findIndex((stack) => stackText(stack) === text)].chance;
          expect((await chosen(lines, chance)).setup.stackText).toBe(rankedBeforehand(lines, chance));
        },
      ),
      { numRuns: 500 },
    );
  });

  it('goes on without a line that could not be worked out', async () => {
    const lines = [line('a', [ranked(ONE, 0.1, 0.2)]), line('b', [ranked(ONE, 0.1, 0.1)])];
    const { setup } = await chosen(lines, ({ name }) => (name === 'a' ? null : 1));
    expect(setup.stackText).toBe('cutaway-2.5oz');
  });
});
