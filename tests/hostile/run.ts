/**
 * `npm run hostile`: the built program on an archive of good files, hostile ones among them and three that no budget can hold.
 *
 *     npm run hostile [-- --good 1997 --hostile 1000 --most 1500 --seconds 1 --seed 1 --keep]
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { layArchive } from './archive.js';
import { holdArchive, WAYS } from './vet-archive.js';

const PROGRAM = new URL('../../.build/cli/main.js', import.meta.url).pathname;

const { values } = parseArgs({
  options: {
    good: { type: 'string', default: '1997' },
    hostile: { type: 'string', default: '1000' },
    most: { type: 'string', default: '1500' },
    seconds: { type: 'string', default: '1' },
    seed: { type: 'string', default: '1' },
    keep: { type: 'boolean', default: false },
  },
});
const [good, hostile, most, seconds, seed] = [
  values.good,
  values.hostile,
  values.most,
  values.seconds,
  values.seed,
].map(Number);
const folder = mkdtempSync(join(tmpdir(), 'hostile-'));
try {
  const archive = layArchive(folder, { good, hostile, most, seconds, seed });
  const wrong = await holdArchive(PROGRAM, archive, WAYS, console.log);
  for (const what of wrong) console.log(what);
  console.log(
    `${good} good, ${hostile} hostile and ${archive.over.length} over their budget, in ${WAYS.length} ways: ${wrong.length} wrong`,
  );
  process.exitCode = wrong.length === 0 ? 0 : 1;
} finally {
  if (values.keep) console.log(`kept in ${folder}`);
  else rmSync(folder, { recursive: true, force: true });
}
