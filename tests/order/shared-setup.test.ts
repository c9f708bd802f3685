import { describe, expect, it } from 'vitest';
import type { StackChoice } from '../../lib/advice/candidates.js';
import { NEEDLES } from '../../lib/materials/needles.js';
import { type OrderSetup, type RankedLine, sharedSetup } from '../../lib/order/shared-setup.js';

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

interface Named extends RankedLine {
  name: string;
}
const line = (name: string, stacks: readonly StackChoice[], more: Partial<RankedLine> = {}): Named => ({
  name,
  quantity: 1,
  ranked: stacks,
  topping: null,
  needle: '75-11-ball',
  speedSpm: 800,
  ...more,
});

/** Chooses, and tells what was worked out on the way. */
async function chosen(
  lines: readonly Named[],
  chance: (line: Named, setup: OrderSetup) => number | null,
): Promise<{ setup: OrderSetup; asked: string[] }> {
  const asked: string[] = [];
  const setup = await sharedSetup(lines, NEEDLES, async (one, on) => {
    asked.push(`${one.name} ${on.stackText}`);
    return chance(one, on);
  });
  return { setup, asked };
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

  it('goes on without a line that could not be worked out', async () => {
    const lines = [line('a', [ranked(ONE, 0.1, 0.2)]), line('b', [ranked(ONE, 0.1, 0.1)])];
    const { setup } = await chosen(lines, ({ name }) => (name === 'a' ? null : 1));
    expect(setup.stackText).toBe('cutaway-2.5oz');
  });
});
