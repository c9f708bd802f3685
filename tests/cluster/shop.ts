/** A folder with an archive in it, and the program as a command there. */
import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface ClusterShop {
  readonly at: (name: string) => string;
  /** Runs a command of the shell in the folder, the program on its path. */
  readonly run: (command: string, env?: Readonly<Record<string, string>>) => { code: number; err: string };
}

/**
 * @param files how many designs lie in `archive`, each with content of its own
 */
export function clusterShop(folder: string, files: number): ClusterShop {
  const at = (name: string): string => `${folder}/${name}`;
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(at('bin'), { recursive: true });
  writeFileSync(at('bin/lieflat'), `#!/bin/sh\nexec ${process.execPath} ${ROOT}.build/cli/main.js "$@"\n`);
  chmodSync(at('bin/lieflat'), 0o755);
  const designs = ['name-drop', 'crest', 'cap-front'].map((name) =>
    readFileSync(`${ROOT}samples/${name}.dst`),
  );
  for (let n = 0; n < files; n++) {
    const drawer = at(`archive/${n % 100}`);
    if (n < 100) mkdirSync(drawer, { recursive: true });
    // Large ones are seldom. Bytes after the end make each one of its own.
    const design = designs[n % 50 === 0 ? 1 : n % 20 === 0 ? 2 : 0];
    writeFileSync(`${drawer}/d${n}.dst`, Buffer.concat([design, Buffer.from(String(n))]));
  }
  return {
    at,
    run: (command, env = {}) => {
      try {
        execFileSync('bash', ['-c', command], {
          cwd: folder,
          env: { ...process.env, PATH: pathWith(folder), ...env },
          stdio: ['ignore', 'ignore', 'pipe'],
          maxBuffer: 1 << 28,
        });
        return { code: 0, err: '' };
      } catch (error) {
        const { status, stderr } = error as { status: number; stderr: Buffer };
        return { code: status, err: stderr.toString() };
      }
    },
  };
}

export const pathWith = (folder: string): string =>
  `${folder}/bin:/usr/local/bin:/usr/bin:/bin:/usr/sbin:/sbin`;

/** The commands under a heading of the README, as they are printed. */
export function printedCommands(heading: string): string[] {
  const [, section] = readFileSync(`${ROOT}README.md`, 'utf8').split(`## ${heading}\n`);
  const commands = [...section.split('\n## ')[0].matchAll(/```sh\n([\s\S]*?)```/g)].map(([, text]) =>
    text.trim(),
  );
  if (commands.length === 0) throw new Error(`the README has no commands under ${heading}`);
  return commands;
}
