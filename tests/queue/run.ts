/**
 * The example of a queue: its printed commands, a worker killed in the middle of a file, a file that no try can read. Nothing may be lost,
 * nothing done twice.
 *
 *     npm run queue [-- --files 40]
 */
import '../nothing-kept.js';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { queueShop } from './shop.js';
import { trial } from './trial.js';

const { values } = parseArgs({ options: { files: { type: 'string', default: '40' } } });

if (spawnSync('redis-server', ['--version']).error) {
  console.log('SKIPPED, nothing was shown: this takes redis-server');
  console.log('apt-get install redis-server');
} else {
  const folder = mkdtempSync(join(tmpdir(), 'queue-'));
  const shop = await queueShop(folder, Number(values.files));
  try {
    const wrong = await trial(shop);
    for (const line of wrong) console.log(`NOT AS IT SHOULD BE: ${line}`);
    process.exitCode = wrong.length > 0 ? 1 : 0;
  } finally {
    await shop.end();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}
