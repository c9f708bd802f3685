/** A web shop in a folder of its own: uploads, and the printed commands run there. */
import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import * as lib from '../../lib/index.js';
import { bigDesign } from '../bench/big-design.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** Takes a worker long enough to be killed over it. */
const BIG = 300_000;

export interface Started {
  process: ChildProcess;
  /** All it printed, once it has ended. */
  ended: Promise<{ code: number | null; text: string }>;
  /** Ends it and what it started: nothing of it may finish its work. */
  kill: (signal: NodeJS.Signals) => void;
}

export interface QueueShop {
  at: (name: string) => string;
  url: string;
  /** Starts the printed command that has this in it. */
  start: (part: string, more?: string) => Started;
  /** What is to be vetted, by the name that its job has; the same content twice is one. */
  good: ReadonlyMap<string, string>;
  /** The job of the file that takes longest, and of the one that nothing can read. */
  big: string;
  broken: string;
  /** Uploads one more, of its own content, that takes long or that is done at once; gives the name of its job. */
  another: (name: string, takes: 'long' | 'no time') => string;
  end: () => Promise<void>;
}

export async function queueShop(folder: string, files: number): Promise<QueueShop> {
  const at = (name: string): string => `${folder}/${name}`;
  for (const name of ['samples', 'node_modules', 'package.json']) symlinkSync(ROOT + name, at(name));
  mkdirSync(at('uploads'));
  const good = new Map<string, string>();
  const upload = (name: string, bytes: Uint8Array): string => {
    writeFileSync(at(`uploads/${name}`), bytes);
    return `sha256-${createHash('sha256').update(bytes).digest('hex')}`;
  };
  const banner = await bigDesign(lib, BIG);
  const big = upload('a-banner.dst', banner);
  good.set(big, at('uploads/a-banner.dst'));
  const name = readFileSync(`${ROOT}samples/name-drop.dst`);
  for (let n = 0; n < files; n++) {
    // Bytes after the end make each one of its own.
    const own = upload(`d${n}.dst`, Buffer.concat([name, Buffer.from(String(n))]));
    good.set(own, at(`uploads/d${n}.dst`));
  }
  upload('sent-again.dst', Buffer.concat([name, Buffer.from('0')]));
  const broken = upload('broken.dst', Buffer.from('an invoice, named as a design by mistake'));

  const port = await freePort();
  const url = `redis://127.0.0.1:${port}`;
  const running = new Set<Started>();
  const start = (part: string, more = ''): Started => {
    const command = printedCommands().find((line) => line.includes(part));
    if (command === undefined) throw new Error(`no command with ${part} is printed`);
    const env = { ...process.env, REDIS_URL: url };
    const started = spawn('bash', ['-c', command + more], {
      cwd: folder,
      env,
      detached: true,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let text = '';
    for (const stream of [started.stdout, started.stderr])
      stream.on('data', (piece) => {
        text += piece;
      });
    const kill = (signal: NodeJS.Signals): void => {
      if (started.pid !== undefined && running.has(one)) process.kill(-started.pid, signal);
    };
    const ended = new Promise<{ code: number | null; text: string }>((resolve) =>
      started.on('close', (code) => {
        running.delete(one);
        resolve({ code, text });
      }),
    );
    const one: Started = { process: started, ended, kill };
    running.add(one);
    return one;
  };
  start('redis-server', ` --port ${port} --bind 127.0.0.1`);
  const end = async (): Promise<void> => {
    const last = [...running];
    for (const one of last) one.kill('SIGKILL');
    await Promise.all(last.map(({ ended }) => ended));
  };
  const another = (called: string, takes: 'long' | 'no time'): string =>
    upload(called, Buffer.concat([takes === 'long' ? banner : name, Buffer.from(called)]));
  return { at, url, start, good, big, broken, another, end };
}

/** The commands of the example's paper, as they are printed. */
function printedCommands(): string[] {
  const paper = readFileSync(`${ROOT}samples/queue/README.md`, 'utf8');
  return [...paper.matchAll(/```sh\n([\s\S]*?)```/g)].map(([, text]) => text.trim());
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}
