/** Parts of a plan in words. */
import { underlayWords } from '../advice/words.js';
import type { PlanReport, PlanRiskReport } from './advice-report.js';
import type { AdviseReport } from './advise-report.js';
import { fixed, type Units } from './quantities.js';
import { riskWord, wrinkleWords } from './risk-word.js';

/** `slight (grade 3.5 of 5): wrinkles about 0.21 mm high (0.00 to 0.49)`. */
export const looksWords = (risk: PlanRiskReport, units: Units): string =>
  `${riskWord(risk.grade)} (grade ${risk.grade} of 5): ${wrinkleWords(risk, units)}`;

/** What is laid under which objects, or that all stays. */
export const relayWords = ({ underlay }: PlanReport): string =>
  underlay.length === 0
    ? 'as it is in the file'
    : `${underlayWords(underlay[0].to)} under ${idsInWords(underlay.map(({ object }) => object))} in place of what is there`;

/** Where no hoop of the catalogue holds the design. */
export const NO_HOOP =
  'NONE THAT IS KNOWN HOLDS THIS DESIGN (lieflat catalog hoops lists them): take a larger one of yours and give its field with --hoop, or have the design made smaller or split for two hoopings';

/** The hoop, or what is wrong with it. */
export function planHoopWords({ hoop }: AdviseReport): string {
  if (hoop === null) return NO_HOOP;
  return hoop.holds
    ? hoop.name
    : `NOT ${hoop.name}: the design stands out of its field, and the needle would hit the frame`;
}

/** What is wrong with the file itself, or nothing. What does not fit its hoop is told of with the hoop. */
export function failureWords({ failures }: AdviseReport): string[] {
  const told = failures.filter((code) => code !== 'does-not-fit-hoop');
  return told.length === 0
    ? []
    : [`DO NOT SEW the file as it is: ${told.join(', ')}; lieflat vet says where, and what to do.`];
}

/** What the figures of a plan rest on. */
export const planTrustWords = ({ threadName }: AdviseReport): string =>
  `Uses ${threadName} thread and typical values for this fabric, or your own where your profile has some. Two setups whose heights overlap may come out the other way round. Sew a test on the same fabric.`;

/** A list of numbers that is longer than this is not one to type off. */
const LONGEST_LIST = 40;

/** What writes the file with the plan's underlay, `lieflat relay --objects 1-4,7`; `…` for numbers that are too many to type off; null where all stays. */
export function relayCommand({ underlay }: PlanReport): string | null {
  if (underlay.length === 0) return null;
  const { to } = underlay[0];
  const ids = runsOf(underlay.map(({ object }) => object)).map(([a, b]) => (a === b ? `${a}` : `${a}-${b}`));
  const list = ids.join(',');
  return `lieflat relay --objects ${list.length <= LONGEST_LIST ? list : '…'}${to === 'fill' ? '' : ` --to ${to}`}`;
}

/** More stretches of numbers than this are not read out. */
const MOST_RUNS = 100;

/** Numbers that follow one another as the first and the last of them, in order. */
function runsOf(ids: readonly number[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const id of ids.toSorted((a, b) => a - b)) {
    const last = runs[runs.length - 1];
    if (last && id === last[1] + 1) last[1] = id;
    else runs.push([id, id]);
  }
  return runs;
}

/** `objects 1 to 4, 7`. */
export const idsInWords = (ids: readonly number[]): string =>
  `object${ids.length === 1 ? '' : 's'} ${idList(ids)}`;

/** `1 to 4, 7`. */
export function idList(ids: readonly number[]): string {
  const runs = runsOf(ids);
  const text = runs
    .slice(0, MOST_RUNS)
    .map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}, ${b}` : `${a} to ${b}`))
    .join(', ');
  const left = runs.slice(MOST_RUNS).reduce((sum, [a, b]) => sum + b - a + 1, 0);
  return `${text}${left > 0 ? ` … and ${left} more` : ''}`;
}

/** An amount, with its currency if that is named. */
export const moneyWords = (amount: number, currency?: string): string =>
  `${amount.toFixed(2)}${currency ? ` ${currency}` : ''}`;

/** What a piece costs and what that is made of; the parts add up to the total as they are printed. */
export function costWords({ cost }: PlanReport): { total: string; parts: string } {
  const [backing, thread, machine] = inCents(cost.total, [cost.backing, cost.thread, cost.machine]);
  return {
    total: moneyWords(cost.total, cost.currency),
    parts: `backing ${backing}, thread ${thread}, machine ${machine} (${fixed(cost.parts.machineMinutes, 1)} min)`,
  };
}

/** Amounts to the cent, the cents that rounding down leaves of the total given to those that lost most by it. */
function inCents(total: number, amounts: readonly number[]): string[] {
  // A thousandth is as fine as amounts come.
  const thousandths = amounts.map((amount) => Math.round(amount * 1000));
  const cents = thousandths.map((amount) => Math.floor(amount / 10));
  const left = Math.round(Number(moneyWords(total)) * 100) - cents.reduce((sum, part) => sum + part, 0);
  const byLoss = amounts.map((_, i) => i).sort((a, b) => (thousandths[b] % 10) - (thousandths[a] % 10));
  for (const i of byLoss.slice(0, left)) cents[i]++;
  return cents.map((part) => moneyWords(part / 100));
}
