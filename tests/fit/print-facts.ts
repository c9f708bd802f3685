/** Prints the mechanics' table of what the trade says beside what comes out: `npm run facts`. */
import { rowOf, sewingFacts, wordFigures } from './sewing-facts.js';
import { HELD_OUT } from './words.js';

const only = process.argv[2] === '--words' ? Number(process.argv[3]) : HELD_OUT.length;
const figures = HELD_OUT.slice(0, only).map((plan) => {
  const found = wordFigures(plan);
  const { base, fill, woven, both } = found;
  const part = (mm: number) => `${Math.round(100 * (mm / base.heightMm - 1))} %`;
  console.error(
    `${plan.text.padEnd(8)} ${plan.heightMm}/${plan.strokeMm} mm: ${base.heightMm.toFixed(2)} mm; fill ${part(fill.heightMm)}, woven ${part(woven.heightMm)}, both ${part(both.heightMm)}`,
  );
  return found;
});
const facts = sewingFacts(figures);
console.log('| what the trade says | holds where | what comes out | |\n| --- | --- | --- | --- |');
for (const fact of facts) console.log(rowOf(fact));
console.log(`\n${facts.filter(({ holds }) => holds).length} of ${facts.length} hold`);
