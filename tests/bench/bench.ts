/** `npm run bench`: every figure the project holds itself to, measured in this run as a ratio, beside its target. */
import { batchRows } from './batch.js';
import { mechanicsRows } from './mechanics.js';
import { pageRows } from './page.js';
import { resewRows } from './resew.js';
import { startUpRows } from './start-up.js';
import { vetRows } from './vet.js';

const root = new URL('../../', import.meta.url);
// the built library is what users run
const lib = await import(new URL('.build/lib/index.js', root).href);
const rows = [
  ...(await vetRows(lib)),
  ...startUpRows(root),
  ...batchRows(root),
  ...(await mechanicsRows()),
  ...(await resewRows()),
  ...(await pageRows(root)),
];

const width = Math.max(...rows.map((r) => r.name.length));
console.log(`${'figure'.padEnd(width)}  ${'measured'.padStart(9)}  ${'target'.padStart(8)}`);
for (const { name, measured, target, unit } of rows) {
  const aim = target === null ? '' : `≤ ${target}`;
  const verdict = target === null ? 'told' : measured <= target ? 'met' : 'MISSED';
  console.log(
    `${name.padEnd(width)}  ${measured.toFixed(2).padStart(9)}  ${aim.padStart(8)}  ${unit}  ${verdict}`,
  );
}
process.exitCode = rows.every(({ measured, target }) => target === null || measured <= target) ? 0 : 1;
