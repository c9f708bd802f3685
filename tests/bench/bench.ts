/**
 * Every figure that the project holds itself to, measured in this run as a ratio, beside its target: a line each as soon as it is known.
 *
 *     npm run bench [-- --only advice]
 */
import { parseArgs } from 'node:util';
import { batchFigures } from './batch.js';
import { type Figure, once } from './figure.js';
import { jacketBackFigures } from './jacket-back.js';
import { mechanicsFigures } from './mechanics.js';
import { orderFigures } from './order.js';
import { pageFigures } from './page.js';
import { resewFigures } from './resew.js';
import { startUpFigures } from './start-up.js';
import { vetFigures } from './vet.js';

/** What a whole run takes at most; what is left by then is named, and can be measured by itself. */
const MOST_MINUTES = 10;
const root = new URL('../../', import.meta.url);
const begun = performance.now();
const minutes = (): number => (performance.now() - begun) / 60_000;

const measured: Figure[] = [
  // the built library is what users run
  ...vetFigures(once(() => import(new URL('.build/lib/index.js', root).href))),
  ...startUpFigures(root),
  ...mechanicsFigures(root),
  ...jacketBackFigures(root),
  ...orderFigures(root),
  ...resewFigures(),
  ...pageFigures(root),
  ...batchFigures(root),
];
const whole: Figure = {
  name: 'the whole bench',
  target: MOST_MINUTES,
  unit: 'min',
  measure: minutes,
};

const { only } = parseArgs({ options: { only: { type: 'string' } } }).values;
const wanted =
  only === undefined
    ? [...measured, whole]
    : measured.filter(({ name }) => name.toLowerCase().includes(only.toLowerCase()));
if (wanted.length > 0) process.exitCode = (await measureAll(wanted)) ? 0 : 1;
else {
  const names = measured.map(({ name }) => name).join('; ');
  console.error(`bench: no figure has "${only}" in its name; give a part of one of these: ${names}`);
  process.exitCode = 2;
}

/** Whether all of them reached what they are to reach. */
async function measureAll(figures: readonly Figure[]): Promise<boolean> {
  const width = Math.max(...figures.map(({ name }) => name.length));
  console.log(`${'figure'.padEnd(width)}  ${'measured'.padStart(9)}  ${'target'.padStart(8)}`);
  let all = true;
  for (const figure of figures) {
    // what is under way stands there while it is measured
    process.stdout.write(figure.name.padEnd(width));
    const { line, met } = await measuredLine(figure);
    console.log(line);
    all &&= met;
  }
  return all;
}

async function measuredLine({ target, unit, measure }: Figure): Promise<{ line: string; met: boolean }> {
  try {
    if (only === undefined && measure !== minutes && minutes() > MOST_MINUTES)
      throw new Error(`${MOST_MINUTES} minutes were over; --only measures it by itself`);
    const found = await measure();
    const { value, on } = typeof found === 'number' ? { value: found, on: '' } : found;
    const met = target === null || value <= target;
    const aim = target === null ? '' : `≤ ${target}`;
    const verdict = target === null ? 'told' : met ? 'met' : 'MISSED';
    const said = on === '' ? '' : `  (${on})`;
    return {
      line: `  ${value.toFixed(2).padStart(9)}  ${aim.padStart(8)}  ${unit}  ${verdict}${said}`,
      met,
    };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { line: `  NOT MEASURED: ${why.split('\n')[0]}`, met: false };
  }
}
