/**
 * One archive in sixteen parts on two computers, of which one dies half-way, under two programs that deal out work: the commands of the
 * README as printed, and a summary that is that of one computer.
 *
 *     npm run cluster [-- --files 20000]
 */
import '../nothing-kept.js';
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { type Engine, missingPrograms, overSsh, underSlurm } from './engines.js';
import { type ClusterShop, clusterShop, pathWith, printedCommands } from './shop.js';

const { values } = parseArgs({ options: { files: { type: 'string', default: '20000' } } });
const PARTS = 16;

const lacking = process.getuid?.() === 0 ? missingPrograms() : ['root'];
if (lacking.length > 0) {
  console.log(`SKIPPED, nothing was shown: this takes ${lacking.join(', ')}`);
  console.log('apt-get install parallel openssh-server slurm-wlm munge');
} else process.exitCode = (await trial(Number(values.files))) ? 0 : 1;

async function trial(files: number): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), 'cluster-'));
  try {
    const shop = clusterShop(join(folder, 'shop'), files);
    const alone = shop.run(
      'lieflat vet archive --summary alone.html --format jsonl --fail-on never > /dev/null',
    );
    if (alone.code !== 0) throw new Error(alone.err);
    let all = true;
    for (const start of [overSsh, underSlurm]) {
      const engine = await start(shop);
      try {
        all = (await hold(engine, shop, files)) && all;
      } finally {
        engine.stop();
      }
    }
    return all;
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

function partsOf({ at }: ClusterShop): string[] {
  return readdirSync(at('.')).filter((name) => /^part-\d+\.jsonl$/.test(name));
}

/** Whether an engine comes to the same as one computer, though one of its two dies after a quarter of the parts. */
async function hold(engine: Engine, shop: ClusterShop, files: number): Promise<boolean> {
  const { at, run } = shop;
  const commands = printedCommands('A very large archive');
  const deal = commands.find((command) => command.startsWith(engine.command));
  const sum = commands.find((command) => command.startsWith('lieflat summary'));
  if (deal === undefined || sum === undefined) throw new Error(`no command of ${engine.name} in the README`);
  for (const name of [...partsOf(shop), 'archive.html']) rmSync(at(name), { force: true });
  const env = { ...process.env, PATH: pathWith(at('.')), ...engine.env };
  const dealing = spawn('bash', ['-c', deal], { cwd: at('.'), env, stdio: 'ignore' });
  const ended = new Promise<number | null>((resolve) => dealing.on('close', resolve));
  while (dealing.exitCode === null && partsOf(shop).length < PARTS / 4) await wait(50);
  engine.killOne();
  const during = partsOf(shop).length;
  const code = await Promise.race([ended, wait(600_000, null, { ref: false })]);
  if (code === null) dealing.kill('SIGKILL');
  const first = run(`${sum} --force`);
  const before = partsOf(shop).length;
  // What is missing is run again, as the summary says.
  for (let part = 1; part <= PARTS; part++)
    if (!existsSync(at(`part-${part}.jsonl`)))
      run(
        `lieflat vet archive --shard ${part}/${PARTS} --fail-on never --format jsonl -o part-${part}.jsonl`,
      );
  const last = run(`${sum} --force --fail-on never`);
  const same = readFileSync(at('archive.html')).equals(readFileSync(at('alone.html')));
  console.log(
    `${engine.name}: ${files} files in ${PARTS} parts, one of two computers killed after ${during} parts; ` +
      `${before} parts in place when it ended (exit ${code}), the summary then exits with ${first.code}; ` +
      `in the end ${last.code}, ${same ? 'the same bytes as of one computer' : 'NOT THE SAME as of one computer'}`,
  );
  return same && last.code === 0 && (before === PARTS || first.code === 2);
}
