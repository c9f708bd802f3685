/** Writes the sample files beside this one; with `--check` only says which of them are not what the generator makes. */
import { readFileSync, writeFileSync } from 'node:fs';
import { makeSamples, outcomesText } from './scenario.js';

const { samples, tables } = makeSamples();
const files = new Map<string, Uint8Array>([
  ...samples.map(({ file, bytes }) => [file, bytes] as const),
  ...tables.map(({ file, bytes }) => [file, bytes] as const),
  ['expected.json', new TextEncoder().encode(outcomesText(samples))],
]);

function stands(path: URL, bytes: Uint8Array): boolean {
  try {
    return Buffer.compare(readFileSync(path), bytes) === 0;
  } catch {
    return false;
  }
}

const check = process.argv.includes('--check');
let stale = 0;
for (const [file, bytes] of files) {
  const path = new URL(file, import.meta.url);
  const same = stands(path, bytes);
  if (same) continue;
  stale++;
  if (!check) writeFileSync(path, bytes);
  console.log(`${file}: ${check ? 'not what the generator makes' : 'written'}`);
}
if (stale === 0) console.log(`${files.size} files stand as the generator makes them.`);
if (check && stale > 0) process.exitCode = 1;
