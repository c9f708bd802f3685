/**
 * What each decision of the finder is good for: every rule switched off, and every figure moved to both ends of its range, with the families of designs
 * that have more faults then (won by it) and fewer (lost by it).
 *   npm run ablate -- [--seeds 0..2] [--only tip,legs] [--families satin,word] [--short]
 *
 * What wins no family ought to go, or to have a family that shows what it is for. `--short` tries a few rules and figures on few families, and fails
 * where one of them wins none.
 */
import { parseArgs } from 'node:util';
import { FINDER } from '../../lib/segment/parameters.js';
import { FAMILIES } from '../generators/families/index.js';
import type { Case } from '../generators/pen.js';
import { PRODUCTION } from '../generators/production/index.js';
import { RULES } from './rules.js';
import { type Change, type Judge, Variants } from './variants.js';

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '0..1' },
    only: { type: 'string', default: '' },
    families: { type: 'string', default: '' },
    short: { type: 'boolean', default: false },
  },
});

const SHORT = {
  decisions: ['purposes.isBlanket', 'legs.getsOn', 'passes.isSamePass'],
  families: ['edge-blanket', 'word-over-foam', 'satin-two-half-passes'],
};
const NAMED = 4;

/** A change of one decision, and what it is called. */
interface Trial {
  readonly name: string;
  readonly says: string;
  readonly change: Change;
}

function trials(): Trial[] {
  const rules = RULES.map(
    (rule): Trial => ({
      name: `rule ${rule.file}.${rule.name}`,
      says: rule.says,
      change: { off: rule },
    }),
  );
  const figures = Object.entries(FINDER).flatMap(([figure, { value, low, high, unit }]) =>
    [low, high]
      .filter((end) => end !== value)
      .map(
        (end): Trial => ({
          name: `figure ${figure}`,
          says: `${value} → ${end} ${unit}`,
          change: { figure, value: end },
        }),
      ),
  );
  const wanted = values.short ? SHORT.decisions : values.only.split(',');
  return [...rules, ...figures].filter(({ name }) => wanted.some((part) => name.includes(part)));
}

function cases(): Map<string, Case[]> {
  const [from, to] = values.seeds.split('..').map(Number);
  const wanted = values.short ? SHORT.families : values.families.split(',');
  const all = { ...FAMILIES, ...PRODUCTION };
  return new Map(
    Object.entries(all)
      .filter(([name]) => wanted.some((part) => name.includes(part)))
      .map(([name, family]) => [name, Array.from({ length: to - from }, (_, k) => family(from + k))]),
  );
}

const faults = (families: ReadonlyMap<string, readonly Case[]>, judge: Judge): Map<string, number> =>
  new Map([...families].map(([name, list]) => [name, list.reduce((sum, c) => sum + judge(c), 0)]));

const named = (list: readonly (readonly [string, number])[]): string =>
  list
    .slice(0, NAMED)
    .map(([name, by]) => `${name} ${by}`)
    .join(', ') + (list.length > NAMED ? ` and ${list.length - NAMED} more` : '');

async function main(): Promise<void> {
  const families = cases();
  const variants = await Variants.load();
  const usual = faults(families, variants.judge());
  const total = [...usual.values()].reduce((sum, n) => sum + n, 0);
  console.log(
    `${families.size} families, ${total} faults as it is; more (+) or fewer (-) with one decision otherwise\n`,
  );
  const wins = new Map<string, number>();
  for (const { name, says, change } of trials()) {
    const then = faults(families, variants.judge(change));
    const by = [...then].map(([family, n]) => [family, n - (usual.get(family) ?? 0)] as const);
    const won = by.filter(([, n]) => n > 0).sort((a, b) => b[1] - a[1]);
    const lost = by.filter(([, n]) => n < 0).sort((a, b) => a[1] - b[1]);
    const sum = by.reduce((all, [, n]) => all + n, 0);
    wins.set(name, (wins.get(name) ?? 0) + won.length);
    const sides = [
      won.length > 0 ? `wins ${named(won)}` : 'wins none',
      lost.length > 0 ? `loses ${named(lost)}` : '',
    ];
    console.log(
      `${name.padEnd(34)}${`${sum > 0 ? '+' : ''}${sum}`.padStart(5)}  ${says}\n    ${sides.filter(Boolean).join('; ')}`,
    );
  }
  const idle = [...wins].filter(([, n]) => n === 0).map(([name]) => name);
  console.log(
    `\n${wins.size} decisions, ${idle.length} win no family${idle.length > 0 ? `: ${idle.join(', ')}` : ''}`,
  );
  if (values.short && idle.length > 0) process.exitCode = 1;
}

await main();
